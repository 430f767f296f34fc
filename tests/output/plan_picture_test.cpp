#include "sunfleck/output/plan_picture.h"

#include "output/sample_garden.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

using namespace sunfleck;
using namespace sunfleck::output;

namespace {

/// The sample garden with two pots: a thirsty maple in the open, a pine under the net.
scene::Scene garden_with_pots() {
    auto json = nlohmann::ordered_json::parse(test::sample_garden_text);
    const auto pot = [](const char* id, const char* species, const char* spot) {
        return nlohmann::ordered_json{{"id", id},
                                      {"species", species},
                                      {"spot", spot},
                                      {"pot_length_cm", 12},
                                      {"pot_width_cm", 10},
                                      {"pot_height_cm", 5},
                                      {"soil_l", 0.4},
                                      {"crown_width_cm", 18},
                                      {"crown_height_cm", 20},
                                      {"weight_kg", 0.9}};
    };
    json["pots"] = {pot("M07", "Acer palmatum", "P1"), pot("P01", "Pinus thunbergii", "A-1")};
    const auto file = scene::SceneFile::parse(json.dump(), "sample.json");
    if (!file) FAIL(to_text(file.error().front()));
    return file->scene();
}

/// One summer day's table and plan.
struct Planned {
    scene::Scene scene = garden_with_pots();
    placement::HarmTable table;
    placement::MovePlan moves;

    Planned() {
        const auto spots = scene::spots_of(scene);
        const scene::DateRange dates{make_date(2026, 7, 10), make_date(2026, 7, 10)};
        const auto sun = exposure::compute_exposure(
            scene, {.from = dates.from,
                    .to = dates.to,
                    .receivers = placement::receivers_needed(scene, spots, dates)});
        REQUIRE(sun);
        auto made = placement::make_harm_table(scene, spots, {"midsummer", dates}, *sun,
                                               placement::standing_now(scene, spots));
        REQUIRE(made);
        table = *made;
        moves = placement::plan_moves(scene, table, placement::plan_season(scene, table));
    }

    [[nodiscard]] PlanPeriod period() const {
        return {.scene = scene,
                .table = table,
                .zone = sun::TimeZone::find(scene.site.time_zone).value(),
                .is_default_season = false,
                .hot_on_first = {},
                .hot_on_last = {}};
    }
};

}  // namespace

TEST_CASE("now and after are told in words and figures of the plan", "[output][property]") {
    const Planned planned;
    const auto svg = draw_place({.period = planned.period(), .plan = planned.moves.plan},
                                {.format = PictureFormat::svg, .size = {}});
    REQUIRE(svg);
    CHECK(svg->find(">Now</text>") != std::string::npos);
    const int lifts = planned.moves.plan.lifts;
    const std::string after = lifts == 0   ? "After: nothing moves"
                              : lifts == 1 ? "After 1 lift"
                                           : "After " + std::to_string(lifts) + " lifts";
    CHECK(svg->find(">" + after + "</text>") != std::string::npos);
    CHECK(svg->find("midsummer, 10 July") != std::string::npos);
}

TEST_CASE("each step has its row and each move its arrow", "[output][property]") {
    const Planned planned;
    const auto svg =
        draw_moves({.period = planned.period(), .moves = planned.moves, .from_season = "spring"},
                   {.format = PictureFormat::svg, .size = {}});
    REQUIRE(svg);
    CHECK(svg->find("What moves for midsummer?") != std::string::npos);
    if (planned.moves.moves.empty())
        CHECK(svg->find("Nothing needs to move.") != std::string::npos);
    for (const auto& step : planned.moves.steps) {
        const std::string code = planned.scene.pots[planned.table.rows[step.row].pot].label.id;
        CAPTURE(code);
        CHECK(svg->find(">" + code + "</text>") != std::string::npos);
        CHECK(svg->find(">" + std::to_string(step.order) + "</text>") != std::string::npos);
    }
}
