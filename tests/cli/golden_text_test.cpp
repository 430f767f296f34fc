#include "cli/run_program.h"

#include <catch2/catch.hpp>

#include <iostream>

using namespace sunfleck::cli_test;

// These watch for change in what a person reads; the numbers in them are proved elsewhere.
TEST_CASE("what a person reads has not changed unseen", "[cli][golden]") {
    struct Row {
        std::string name;
        std::vector<std::string> call;
    };
    const std::string terrace = SUNFLECK_SCENES "/terrace_south.json";
    const std::vector<Row> rows = {
        {"sun_day.txt",
         {"sun", "--latitude", "51.48", "--longitude", "0", "--zone", "Europe/London", "--date",
          "2026-06-21"}},
        {"terrace_exposure.txt", {"exposure", terrace, "--date", "2026-01-15", "--spots", "F"}},
        {"terrace_place.txt", {"place", terrace, "--season", "midsummer"}},
        {"terrace_moves.txt", {"moves", terrace, "--from", "midsummer", "--to", "autumn"}},
    };
    for (const Row& row : rows) {
        CAPTURE(row.name);
        const Answer answer = run_program(row.call);
        REQUIRE(answer.code == 0);
        std::string text = answer.out;
        for (auto at = text.find(SUNFLECK_SCENES); at != std::string::npos;
             at = text.find(SUNFLECK_SCENES)) {
            text.replace(at, std::string(SUNFLECK_SCENES).size(), "scenes");
        }
        const std::string path = std::string(SUNFLECK_GOLDEN) + "/" + row.name;
        const std::string expected = read_text(path);
        if (text != expected) {
            write_text(path + ".new", text);
            std::cerr << row.name << " differs: see tools/golden\n";
        }
        CHECK(text == expected);
    }
}
