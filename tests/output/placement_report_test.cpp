#include "sunfleck/output/placement_report.h"

#include "base/golden.h"
#include "base/within.h"
#include "placement/invented_garden.h"
#include "sunfleck/base/plain_words.h"
#include "sunfleck/output/text_table.h"
#include "sunfleck/sun/sun_day.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <algorithm>
#include <sstream>

using namespace sunfleck;
using namespace sunfleck::placement_test;
using nlohmann::json;
using sunfleck::test::check_golden;
using sunfleck::test::within;

namespace {

/// Two maples in the open, two pines under the net, one spot free.
InventedGarden small_garden() {
    InventedGarden garden;
    const SunPattern net = with_share(open_sun(), 10, 18, 0.5);
    garden.add_spot(net, open_sun());
    garden.add_spot(net, open_sun());
    garden.add_spot(open_sun());
    garden.add_spot(open_sun());
    garden.add_spot(no_sun());
    make_large_pine(garden.add_pot("P01", "A-1"));
    make_large_pine(garden.add_pot("P02", "A-2"));
    make_small_maple(garden.add_pot("M07", "A-3"));
    make_small_maple(garden.add_pot("M08", "A-4"));
    garden.scene.site.name = "Invented Yard";
    garden.scene.lifting = {.people = 2, .limit_kg = 15.0};
    garden.scene.pots[0].pinned = true;
    return garden;
}

/// The answers to all three commands, with what they refer to.
struct Answers {
    explicit Answers(InventedGarden made, const std::string& season = "midsummer")
        : garden(std::move(made)),
          table(garden.table(season)),
          plan(placement::plan_season(garden.scene, table)),
          moves(placement::plan_moves(garden.scene, table, plan)),
          zone(sun::TimeZone::find(garden.scene.site.time_zone).value()) {}

    [[nodiscard]] output::PlanPeriod period() const {
        const auto hot = [&](Date date) {
            return exposure::hot_hours(sun::sun_day(date, garden.scene.site.place, zone));
        };
        return {.scene = garden.scene,
                .table = table,
                .zone = zone,
                .hot_on_first = hot(table.dates.from),
                .hot_on_last = hot(table.dates.to)};
    }
    [[nodiscard]] output::PlaceAnswer place() const { return {.period = period(), .plan = plan}; }
    [[nodiscard]] output::MovesAnswer move() const {
        return {.period = period(), .moves = moves, .from_season = "early_summer"};
    }

    InventedGarden garden;
    placement::HarmTable table;
    placement::SeasonPlan plan;
    placement::MovePlan moves;
    sun::TimeZone zone;
};

int widest_line(const std::string& text) {
    std::istringstream lines(text);
    int widest = 0;
    for (std::string line; std::getline(lines, line);) {
        widest = std::max(widest, output::display_width(line));
    }
    return widest;
}

}  // namespace

TEST_CASE("a small plan reads like a neighbour's", "[output][golden]") {
    const Answers answers(small_garden());
    check_golden("small_place.txt", output::place_text(answers.place()));
}

TEST_CASE("a small list of moves reads like a neighbour's", "[output][golden]") {
    const Answers answers(small_garden());
    check_golden("small_moves.txt", output::moves_text(answers.move()));
}

TEST_CASE("why reads like a neighbour's", "[output][golden]") {
    const Answers answers(small_garden());
    const auto why = placement::why_here(answers.garden.scene, answers.table, answers.plan, 2, 3);
    REQUIRE(why);
    check_golden("small_why.txt",
                 output::why_text({.period = answers.period(), .plan = answers.plan, .why = *why}));
}

TEST_CASE("a plan says first what to do, and names every pot once", "[output][property]") {
    const Answers answers(random_garden(3, 12, 14));
    const std::string text = output::place_text(answers.place());
    REQUIRE(answers.plan.lifts > 0);
    const std::size_t summary =
        text.find(count_words(static_cast<std::size_t>(answers.plan.lifts), "lift"));
    REQUIRE(summary != std::string::npos);
    CHECK(summary < text.find("Pot  From"));
    const std::size_t stays = text.find("These stay");
    for (std::size_t row = 0; row < answers.table.rows.size(); ++row) {
        const std::string& code = answers.garden.scene.pots[row].label.id;
        CAPTURE(code);
        REQUIRE(answers.plan.spot_of_row[row]);
        const bool does_stay = answers.plan.spot_of_row[row] == answers.table.rows[row].start_spot;
        CHECK((text.find(code, stays) != std::string::npos) == does_stay);
    }
}

TEST_CASE("who stays is told bench by bench, a batch once", "[output][property]") {
    InventedGarden garden;
    for (int i = 0; i < 5; ++i) garden.add_spot(open_sun());
    make_large_pine(garden.add_pot("P01", "A-1"));
    make_large_pine(garden.add_pot("B05", "A-2"));
    make_large_pine(garden.add_pot("K1", "A-5"));
    garden.scene.pots[1].count = 3;
    garden.scene.pots[2].weight_kg = 400.0;
    garden.scene.lifting = {.people = 2, .limit_kg = 15.0};
    const Answers answers(std::move(garden));
    const std::string text = output::place_text(answers.place());
    CAPTURE(text);
    CHECK(text.find("A      P01 B05 ×3 K1*\n* heavier than may be lifted here\n") !=
          std::string::npos);
}

TEST_CASE("a plan that moves nothing says so", "[output][property]") {
    InventedGarden garden;
    garden.add_spot(open_sun());
    make_large_pine(garden.add_pot("P01", "A-1"));
    const Answers answers(std::move(garden));
    const std::string text = output::place_text(answers.place());
    CHECK(text.find("Nothing needs to move: the one pot is content.") != std::string::npos);
    CHECK(text.find("Gain") == std::string::npos);
}

TEST_CASE("texts fit 80 columns whatever the garden", "[output][property]") {
    for (std::uint64_t seed = 1; seed <= 10; ++seed) {
        const Answers answers(random_garden(seed, 12, 14), seed % 2 == 0 ? "autumn" : "midsummer");
        CAPTURE(seed);
        CHECK(widest_line(output::place_text(answers.place())) <= 80);
        CHECK(widest_line(output::moves_text(answers.move())) <= 80);
        const auto why =
            placement::why_here(answers.garden.scene, answers.table, answers.plan, 0, std::nullopt);
        if (why) {
            CHECK(widest_line(output::why_text(
                      {.period = answers.period(), .plan = answers.plan, .why = *why})) <= 80);
        }
    }
}

TEST_CASE("the machine's answers hold every promised key", "[output][property]") {
    const Answers answers(small_garden());
    const output::Envelope envelope{.command = "place", .scene_name = "Invented Yard"};
    const json place = json::parse(output::place_json(answers.place(), envelope));
    for (const char* key : {"season", "from", "to", "harm_unit", "harm_total", "bound",
                            "gap_fraction", "pots", "unsuited", "free_spots"}) {
        CAPTURE(key);
        CHECK(place.contains(key));
    }
    REQUIRE(place["pots"].size() == 4);
    double harm = 0.0;
    for (const json& pot : place["pots"]) {
        const json& parts = pot["parts"];
        harm += pot["harm"].get<double>();
        CHECK(pot["harm"].get<double>() ==
              within(parts["hot_sun"].get<double>() + parts["light_deficit"].get<double>() +
                         parts["pot_wall"].get<double>() + parts["jump"].get<double>() +
                         parts["drying"].get<double>(),
                     1e-5));
        CHECK_FALSE(pot["reason"].get<std::string>().empty());
    }
    CHECK(place["harm_total"].get<double>() == within(harm, 1e-5));
    CHECK(place["bound"].get<double>() <= place["objective"].get<double>());

    const json moves = json::parse(output::moves_json(answers.move(), envelope));
    for (const char* key : {"from_season", "to_season", "harm_before", "harm_after", "bound",
                            "gap_fraction", "lifts", "moved_kg", "moves"}) {
        CAPTURE(key);
        CHECK(moves.contains(key));
    }
    CHECK(moves["moves"].size() == moves["lifts"].get<std::size_t>());
    for (const json& move : moves["moves"]) {
        for (const char* key : {"order", "group", "pot", "from_spot", "to_spot", "weight_kg",
                                "people", "gain", "reason"}) {
            CAPTURE(key);
            CHECK(move.contains(key));
        }
    }
    const auto why = placement::why_here(answers.garden.scene, answers.table, answers.plan, 2, 3);
    REQUIRE(why);
    const json told = json::parse(output::why_json(
        {.period = answers.period(), .plan = answers.plan, .why = *why}, envelope));
    for (const char* key : {"pot", "spot", "instead", "own_harm_change", "others_harm_change",
                            "lifts_change", "loss_at_least", "equally_good"}) {
        CAPTURE(key);
        CHECK(told.contains(key));
    }
}

TEST_CASE("tables have a row per pot, unplaced ones empty", "[output][property]") {
    InventedGarden garden = small_garden();
    for (int i = 0; i < 3; ++i) garden.add_pot("N" + std::to_string(i));
    const Answers answers(std::move(garden));
    const std::string csv = output::place_csv(answers.place());
    CHECK(std::count(csv.begin(), csv.end(), '\n') == 8);
    CHECK(csv.find(",,,false,,,,,,,\n") != std::string::npos);
    const json place = json::parse(output::place_json(answers.place(), {.command = "place"}));
    CHECK(std::count_if(place["pots"].begin(), place["pots"].end(),
                        [](const json& pot) { return pot["spot"].is_null(); }) == 2);
    CHECK(output::place_text(answers.place()).find("There is no room for it.") !=
          std::string::npos);
    const std::string moves = output::moves_csv(answers.move());
    CHECK(moves.find("order,group,pot,copy,from_spot,to_spot") == 0);
}
