#include "sunfleck/scene/pots_csv.h"

#include "base/scratch_folder.h"
#include "scene/garden_maker.h"
#include "scene/scene_keys.h"
#include "sunfleck/scene/scene_file.h"

#include <catch2/catch.hpp>

#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <random>

namespace sunfleck::scene {
namespace {

/// Everything that a pot's keys hold, as one text.
std::vector<std::string> contents(std::span<const Pot> pots) {
    std::vector<std::string> all;
    for (const Pot& pot : pots) all.push_back(pot_keys().json(pot));
    return all;
}

void check_same(const std::vector<Pot>& pots, const std::vector<Pot>& expected) {
    const auto got = contents(pots);
    const auto wanted = contents(expected);
    REQUIRE(got.size() == wanted.size());
    for (std::size_t i = 0; i < got.size(); ++i) CHECK(got[i] == wanted[i]);
}

std::vector<Pot> parsed(const std::string& text) {
    const auto table = PotsCsv::parse(text, "pots.csv");
    if (!table) {
        for (const Problem& problem : table.error()) UNSCOPED_INFO(to_text(problem));
    }
    REQUIRE(table);
    return table->pots();
}

/// Pots with odd names and codes and every key used by some.
std::vector<Pot> odd_pots(Dice& dice, int count) {
    const std::vector<std::string> names{"Little maple", "=A1",    "1E3",     "007",  "+4",
                                         "Mar 3",        "A;b,c",  "TRUE",    "é\"ü", "-",
                                         "two\nlines?",  "=\"x\"", "'quote'", "@you", "3/4"};
    const std::vector<std::string> ids{"007", "1E3", "MAR1", "K", "\xC3\xA9rable", "4", "TRUE"};
    const auto given = [&dice](double low, double high) {
        // As typed: a few figures, or nothing.
        return dice.whole(0, 3) == 0 ? 0.0 : std::round(dice.between(low, high) * 1e4) / 1e4;
    };
    std::vector<Pot> pots;
    for (int i = 0; i < count; ++i) {
        Pot pot;
        const std::string& id = ids[static_cast<std::size_t>(i) % ids.size()];
        pot.label.id = i < static_cast<int>(ids.size()) ? id : id + "_" + std::to_string(i);
        pot.label.name = names[static_cast<std::size_t>(i) % names.size()];
        if (pot.label.name == "two\nlines?") pot.label.name = "two lines";
        if (i % 3 != 0) pot.species = "Acer palmatum";
        if (i % 2 != 0) pot.spot = i % 4 == 1 ? "MAR-3" : "A-1";
        pot.pinned = i % 5 == 1;
        if (i % 4 == 0) pot.not_on = {"B", "A-2", "12"};
        pot.pot_length_m = given(0.02, 1.0);
        pot.pot_width_m = given(0.02, 1.0);
        pot.pot_height_m = given(0.01, 0.5);
        pot.crown_width_m = given(0.01, 2.0);
        pot.crown_height_m = given(0.01, 2.0);
        pot.soil_l = given(0.01, 100.0);
        pot.weight_kg = given(0.02, 200.0);
        if (i % 3 == 1) pot.receiver_height_m = 0.25;
        pot.colour = i % 2 == 0 ? PotColour::dark : PotColour::medium;
        if (i % 6 == 2) pot.substrate = "50/50";
        pot.count = i % 7 == 3 ? 12 : 1;
        if (i % 5 == 2) {
            pot.own_wants = {.sun_min_h = 3.5,
                             .drought_tolerance = 2.0,
                             .scorch_risk = ScorchRisk::high,
                             .shelter_below_c = -7.5};
        }
        if (i % 5 == 3) pot.state = StateUntil{PassingState::wired, make_date(2026, 5, 1)};
        pots.push_back(pot);
    }
    return pots;
}

/// Sends a table through tests/scene/spreadsheet.py.
std::string through_spreadsheet(const std::string& text, const std::string& locale) {
    const test::ScratchFolder folder;
    const std::string command =
        std::string("python3 ") + SUNFLECK_TEST_DATA + "/../scene/spreadsheet.py " + locale +
        " < " + folder.with("in.csv", text).string() + " > " + folder.path("out.csv");
    REQUIRE(std::system(command.c_str()) == 0);
    std::ifstream back(folder / "out.csv", std::ios::binary);
    return {std::istreambuf_iterator<char>(back), {}};
}

Problems problems_of(const std::string& text) {
    const auto table = PotsCsv::parse(text, "pots.csv");
    REQUIRE_FALSE(table);
    return table.error();
}

}  // namespace

TEST_CASE("Pots written as a table are read back the same", "[scene][property]") {
    Dice dice(9);
    const std::vector<Pot> pots = odd_pots(dice, 60);
    for (const CsvStyle& style :
         {CsvStyle{}, CsvStyle{';', true}, CsvStyle{'\t', true}, CsvStyle{',', false, false}}) {
        CAPTURE(style.delimiter, style.has_decimal_comma, style.guards_for_sheets);
        check_same(parsed(pots_csv_text(pots, style)), pots);
    }
}

TEST_CASE("A spreadsheet between writing and reading loses nothing", "[scene][cross]") {
    Dice dice(10);
    std::vector<Pot> pots = odd_pots(dice, 60);
    // A name that looks like a guard itself is the one text that does not come back.
    std::erase_if(pots, [](const Pot& pot) { return pot.label.name == "=\"x\""; });
    const std::string point = through_spreadsheet(pots_csv_text(pots), "point");
    check_same(parsed(point), pots);
    const std::string comma = through_spreadsheet(pots_csv_text(pots, {';', true}), "comma");
    CHECK(comma.find(';') != std::string::npos);
    check_same(parsed(comma), pots);
    // The spreadsheet does spoil what is not guarded.
    const std::string bare =
        through_spreadsheet(pots_csv_text(pots, {.guards_for_sheets = false}), "point");
    const auto spoilt = PotsCsv::parse(bare, "pots.csv");
    CHECK((!spoilt || contents(spoilt->pots()) != contents(pots)));
}

TEST_CASE("Cells are read as people write them", "[scene][property]") {
    const std::string text =
        "ID;Pot Length "
        "cm;weight_kg;soil_l;pinned;pot_colour;not_on;wants_shelter_below_c;species\r\n"
        "M07;11,5;0,9;380 ml;ja;Dark;B, A-1;-7;Acer palmatum\r\n"
        "\r\n"
        "007;45 mm;1.25;+0,5;FALSE;;;;\r\n"
        ";;;;;;;;\r\n";
    const std::vector<Pot> pots = parsed(text);
    REQUIRE(pots.size() == 2);
    CHECK(pots[0].label.id == "M07");
    CHECK(pots[0].pot_length_m == Approx(0.115));
    CHECK(pots[0].weight_kg == Approx(0.9));
    CHECK(pots[0].pinned);
    CHECK(pots[0].colour == PotColour::dark);
    CHECK((pots[0].not_on == std::vector<std::string>{"B", "A-1"}));
    CHECK(pots[0].own_wants.shelter_below_c.value_or(0.0) == Approx(-7.0));
    CHECK(pots[1].label.id == "007");
    CHECK(pots[1].label.pointer == "/pots/1");
    CHECK(pots[1].pot_length_m == Approx(0.045));
    CHECK(pots[1].soil_l == Approx(0.5));
    CHECK_FALSE(pots[1].pinned);
}

TEST_CASE("The table with every key has a column for every key", "[scene][property]") {
    const auto table = PotsCsv::read(std::string(SUNFLECK_TEST_DATA) + "/pots_every_key.csv");
    REQUIRE(table);
    REQUIRE(table->pots().size() == 2);
    const std::string text = table->text();
    for (const std::string& column : pots_csv_columns()) {
        CAPTURE(column);
        CHECK(text.substr(0, text.find('\n')).find(column) != std::string::npos);
    }
    CHECK(table->pots()[0].state->until == make_date(2026, 5, 1));
    CHECK(table->pots()[1].label.id == "007");
    CHECK(table->pots()[1].label.name == "The \"old\" one");
}

TEST_CASE("Own columns, order and untouched cells are kept when pots move", "[scene][property]") {
    const std::string text =
        "\xEF\xBB\xBF"
        "bought in,weight_kg,id,spot,price\r\n"
        "2019,0.90,M07,A-1,\"1,200\"\r\n"
        "2021,1.0,J02,,\r\n";
    const auto table = PotsCsv::parse(text, "pots.csv");
    REQUIRE(table);
    REQUIRE(table->warnings().size() == 1);
    CHECK(table->warnings()[0].code == "columns_not_used");
    CHECK(table->warnings()[0].message.find("bought in, price") != std::string::npos);
    CHECK(table->text() == text);
    const std::vector<std::string> spots{"B-2", "MAR-1"};
    const PotsCsv moved = table->with_pots_at(spots);
    CHECK(moved.text() ==
          "\xEF\xBB\xBF"
          "bought in,weight_kg,id,spot,price\r\n"
          "2019,0.90,M07,B-2,\"1,200\"\r\n"
          "2021,1.0,J02,\"=\"\"MAR-1\"\"\",\r\n");
    CHECK(PotsCsv::parse(moved.text(), "pots.csv")->pots()[1].spot == "MAR-1");
    CHECK(table->text() == text);

    const auto without_spots = PotsCsv::parse("id\nM07\nJ02\n", "pots.csv");
    REQUIRE(without_spots);
    CHECK(without_spots->with_pots_at(spots).text() ==
          "id,spot\nM07,B-2\nJ02,\"=\"\"MAR-1\"\"\"\n");
}

TEST_CASE("What is wrong in a table is told with row and column", "[scene][property]") {
    struct Row {
        const char* text;
        const char* code;
        int line;
        int column;
        const char* told;
    };
    for (const Row& row : {
             Row{"", "empty_table", 1, 1, "empty"},
             Row{"name,spot\nx,A-1\n", "no_id_column", 1, 1, "id"},
             Row{"id,pot_lenght_cm\nM07,11\n", "unknown_column", 1, 4, "pot_length_cm"},
             Row{"id,pot_length_mm\nM07,110\n", "unknown_column", 1, 4, "pot_length_cm"},
             Row{"id,weight\nM07,1\n", "unknown_column", 1, 4, "weight_kg"},
             Row{"id,spot,spot\nM07,A-1,A-2\n", "column_twice", 1, 9, "spot"},
             Row{"id,weight_kg\nM07,1,5\n", "cell_without_column", 2, 7, "decimal comma"},
             Row{"id,weight_kg\nM07,heavy\n", "", 2, 5, "heavy"},
             Row{"id,weight_kg\nM07,\"1,500\"\n", "", 2, 5, "1,500"},
             Row{"id,weight_kg\nM07,9000\n", "", 2, 5, "9"},
             Row{"id,pinned\nM07,maybe\n", "", 2, 5, "maybe"},
             Row{"id,pot_colour\nM07,drak\n", "", 2, 5, "dark"},
             Row{"id,state_is,state_until\nM07,wired,soon\n", "", 2, 11, "soon"},
             Row{"id,state_is\nM07,wired\n", "", 2, 5, "until"},
             Row{"id,spot\n,A-1\n", "", 2, 1, "id"},
             Row{"id,not_on\nM07,B *\n", "", 2, 5, "*"},
             Row{"id,weight_kg\nM07,\"1\n", "csv_open_quote", 2, 5, "quote"},
         }) {
        CAPTURE(row.text);
        const Problems problems = problems_of(row.text);
        CAPTURE(to_text(problems[0]), problems[0].mend);
        CHECK(problems.size() == 1);
        if (*row.code != '\0') CHECK(problems[0].code == row.code);
        CHECK(problems[0].file == "pots.csv");
        CHECK(problems[0].line == row.line);
        CHECK(problems[0].column == row.column);
        CHECK((problems[0].message + problems[0].mend).find(row.told) != std::string::npos);
    }
    CHECK(problems_of("id,weight_kg,soil_l\nM07,x,y\nJ02,1,z\n").size() == 3);
}

TEST_CASE("A workbook is not taken for a table", "[scene][property]") {
    const auto table = PotsCsv::parse(std::string("PK\x03\x04") + "xl/worksheets", "pots.xlsx");
    REQUIRE_FALSE(table);
    CHECK(table.error()[0].code == "workbook");
    CHECK(table.error()[0].mend.find("CSV UTF-8") != std::string::npos);
}

TEST_CASE("A scene takes its pots from a table, and tells of them there", "[scene][property]") {
    const std::string scene_text =
        R"({"format": "sunfleck-scene", "version": 1,
"site": {"latitude_deg": 51.5, "longitude_deg": -0.3, "time_zone": "Europe/London"},
"benches": [{"id": "A", "x_m": 0, "y_m": 0, "bearing_deg": 90, "length_m": 3, "depth_m": 0.3, "height_m": 0.8}],
"pots": [{"id": "old", "species": "Olive", "spot": "A-1"}]})";
    const auto folder = std::filesystem::temp_directory_path() /
                        ("sunfleck-pots-" + std::to_string(std::random_device{}()));
    std::filesystem::create_directory(folder);
    const auto path = folder / "pots.csv";
    const auto used = [&](const std::string& table) {
        std::ofstream(path, std::ios::binary) << table;
        SceneFile file = *SceneFile::parse(scene_text, "yard.json");
        const auto result = file.use_pots_csv(path);
        return result ? Result<SceneFile>(file) : tl::unexpected(result.error());
    };

    const auto good = used("id,species,spot\nM07,Acer palmatum,A-3\nJ02,Acer palmatun,A-4\n");
    REQUIRE(good);
    REQUIRE(good->scene().pots.size() == 2);
    CHECK(good->scene().pots[0].pot_length_m == Approx(0.11));
    REQUIRE(good->warnings().size() == 1);
    CHECK(good->warnings()[0].code == "unknown_species");
    CHECK(good->warnings()[0].file == path.string());
    CHECK(good->warnings()[0].line == 3);
    CHECK(good->warnings()[0].column == 5);
    // Saved again, the scene holds the table's pots.
    const auto saved = SceneFile::parse(good->text(), "yard.json");
    REQUIRE(saved);
    CHECK(saved->scene().pots[0].label.id == "M07");
    CHECK(saved->scene().pots[1].spot == "A-4");

    const auto bad = used("id,species,spot\nM07,Olive,A-3\nJ02,Olive,A-33\n");
    REQUIRE_FALSE(bad);
    REQUIRE(bad.error().size() == 1);
    CHECK(bad.error()[0].code == "no_such_spot");
    CHECK(bad.error()[0].nearest == "A-10");
    CHECK(bad.error()[0].line == 3);
    CHECK(bad.error()[0].column == 11);

    const auto twice = used("id,species\nA,Olive\n");
    REQUIRE_FALSE(twice);
    CHECK(twice.error()[0].code == "id_twice");
    std::filesystem::remove(path);
    SceneFile file = *SceneFile::parse(scene_text, "yard.json");
    const auto missing = file.use_pots_csv(path);
    REQUIRE_FALSE(missing);
    CHECK(missing.error()[0].kind == ProblemKind::file);
    std::filesystem::remove_all(folder);
}

TEST_CASE("Six hundred damaged tables are read or refused, never worse", "[scene][property]") {
    Dice dice(11);
    const std::string sound = pots_csv_text(odd_pots(dice, 8), {';', true});
    const std::string bricks = "\";,\n\r =-.'0123456789eE\t#\x80\xC3";
    int refused = 0;
    for (int round = 0; round < 600; ++round) {
        std::string text = sound;
        for (int n = dice.whole(1, 5); n > 0; --n) {
            const auto at =
                static_cast<std::size_t>(dice.whole(0, static_cast<int>(text.size()) - 1));
            const char brick = bricks[static_cast<std::size_t>(
                dice.whole(0, static_cast<int>(bricks.size()) - 1))];
            switch (dice.whole(0, 3)) {
                case 0:
                    text.insert(at, 1, brick);
                    break;
                case 1:
                    text.erase(at, static_cast<std::size_t>(dice.whole(1, 30)));
                    break;
                case 2:
                    text[at] = brick;
                    break;
                default:
                    text += text.substr(at / 2, 40);
                    break;
            }
        }
        const auto table = PotsCsv::parse(text, "pots.csv");
        if (table) {
            CHECK(PotsCsv::parse(table->text(), "pots.csv"));
            continue;
        }
        ++refused;
        for (const Problem& problem : table.error()) {
            CHECK_FALSE(problem.message.empty());
            CHECK(problem.line >= 1);
            CHECK(problem.column >= 1);
        }
    }
    CHECK(refused > 60);
    CHECK(refused < 600);
}

TEST_CASE("A table of more pots than a scene may have is refused", "[scene][property]") {
    std::string text = "id\n";
    for (int i = 0; i < 100000; ++i) text += "P" + std::to_string(i) + "\n";
    const auto table = PotsCsv::parse(text, "many.csv");
    REQUIRE_FALSE(table);
    REQUIRE(table.error().size() == 1);
    CHECK(table.error()[0].code == "too_many_pots");
    CHECK(table.error()[0].line == 20002);
}

}  // namespace sunfleck::scene
