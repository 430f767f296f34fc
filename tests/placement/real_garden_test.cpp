#include "sunfleck/exposure/exposure.h"
#include "sunfleck/placement/harm_table.h"
#include "sunfleck/placement/move_plan.h"
#include "sunfleck/placement/season_plan.h"
#include "sunfleck/scene/scene_file.h"
#include "sunfleck/scene/seasons.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <string>

using namespace sunfleck;
using namespace sunfleck::placement;

namespace {

/// Five spots along a bench, a net hung far enough south and west to shade the first three, and a
/// wall west of the last. Two thirsty maples stand in the open, two pines under the net.
std::string scene_text(bool has_net, double soil_factor, bool is_autumn_tree = false) {
    const std::string net =
        R"("cloths": [{"id": "N", "corners_m": [[-3, -1.6, 2.2], [2.1, -1.6, 2.2], [2.1, 1.4, 2.2],
            [-3, 1.4, 2.2]], "shade_factor_percent": 50, "up": [{"from": "05-20", "to": "09-05"}]}],)";
    const std::string tree =
        R"("trees": [{"id": "T", "x_m": 1, "y_m": -3, "height_m": 7, "crown_base_m": 1,
            "crown_width_m": 5, "leaf_habit": "evergreen", "transmission_in_leaf_percent": 5}],)";
    const auto pot = [&](const std::string& id, const std::string& species, int spot, double soil) {
        return R"({"id": ")" + id + R"(", "species": ")" + species + R"(", "spot": "A-)" +
               std::to_string(spot) + R"(", "pot_length_cm": 20, "pot_width_cm": 15,
            "pot_height_cm": 6, "crown_width_cm": 30, "crown_height_cm": 25, "weight_kg": 3,
            "soil_l": )" +
               std::to_string(soil * soil_factor) + "}";
    };
    return R"({"format": "sunfleck-scene", "version": 1,
        "site": {"name": "Small", "latitude_deg": 47, "longitude_deg": 8.5,
                 "time_zone": "Europe/Zurich", "year": 2026},
        "benches": [{"id": "A", "x_m": 0, "y_m": 0, "bearing_deg": 90, "length_m": 3.0,
                     "depth_m": 0.5, "height_m": 0.8, "spot_pitch_m": 0.6, "rows": 1}],
        "walls": [{"id": "W", "line_m": [[-4, -2], [-4, 2]], "height_m": 1.5, "thickness_cm": 20}],)" +
           (has_net ? net : "") + (is_autumn_tree ? tree : "") + R"("pots": [)" +
           pot("P1", "Pinus sylvestris", 1, 4.0) + "," + pot("P2", "Pinus sylvestris", 2, 4.0) +
           "," + pot("M1", "Acer palmatum", 4, 0.4) + "," + pot("M2", "Acer palmatum", 5, 0.4) +
           "]}";
}

scene::SceneFile scene_of(const std::string& text) {
    auto file = scene::SceneFile::parse(text, "small.json");
    if (!file) FAIL(to_text(file.error().front()));
    return std::move(*file);
}

struct Computed {
    exposure::ExposureTable exposure;
    HarmTable table;
};

Computed computed(const scene::Scene& scene, const std::string& season) {
    const auto spots = scene::spots_of(scene);
    const auto dates = scene::season_range(scene, season, 2026).value();
    auto exposure =
        exposure::compute_exposure(scene, {.from = dates.from,
                                           .to = dates.to,
                                           .day_step = 28,
                                           .receivers = receivers_needed(scene, spots, dates)});
    if (!exposure) FAIL(to_text(exposure.error().front()));
    auto table =
        make_harm_table(scene, spots, {season, dates}, *exposure, standing_now(scene, spots));
    if (!table) FAIL(to_text(table.error().front()));
    return {std::move(*exposure), std::move(*table)};
}

}  // namespace

TEST_CASE("in a traced garden maples go under the net and stay there", "[placement][property]") {
    const scene::SceneFile file = scene_of(scene_text(true, 1.0));
    const Computed summer = computed(file.scene(), "midsummer");
    const SeasonPlan plan = plan_season(file.scene(), summer.table);
    CHECK(plan.is_optimal);
    CHECK(*plan.spot_of_row[2] < 3);
    CHECK(*plan.spot_of_row[3] < 3);
    std::vector<std::string> ids;
    for (const auto& spot : plan.spot_of_row) ids.push_back(summer.table.spots[*spot].id);
    const scene::SceneFile planned = scene_of(file.with_pots_at(ids).text());
    const Computed again = computed(planned.scene(), "midsummer");
    CHECK(plan_season(planned.scene(), again.table).lifts == 0);
}

TEST_CASE("the traced exposure's figures are the table's", "[placement][property]") {
    const scene::SceneFile file = scene_of(scene_text(true, 1.0));
    const Computed summer = computed(file.scene(), "midsummer");
    int compared = 0;
    for (const exposure::ReceiverExposure& receiver : summer.exposure.receivers) {
        for (std::size_t row = 0; row < summer.table.rows.size(); ++row) {
            for (std::size_t spot = 0; spot < summer.table.spots.size(); ++spot) {
                const HarmCell& cell = summer.table.at(row, spot);
                if (cell.refusal != Refusal::none || cell.light_spot != receiver.receiver.spot) {
                    continue;
                }
                const bool is_crown = receiver.receiver.kind == exposure::ReceiverKind::crown;
                const double told = is_crown ? cell.figures.hot_full_min
                                             : cell.figures.west_wall_full_min.value_or(-1.0);
                const double computed_min =
                    is_crown ? receiver.mean.hot_full_min : receiver.mean.full_min;
                CHECK(std::abs(told - computed_min) <= 0.0);
                ++compared;
            }
        }
    }
    CHECK(compared > 20);
}

TEST_CASE("a traced net never raises hot-sun harm, half the soil never lowers it",
          "[placement][property]") {
    const Computed netted = computed(scene_of(scene_text(true, 1.0)).scene(), "midsummer");
    const Computed bare = computed(scene_of(scene_text(false, 1.0)).scene(), "midsummer");
    const Computed half = computed(scene_of(scene_text(true, 0.5)).scene(), "midsummer");
    REQUIRE(bare.table.cells.size() == netted.table.cells.size());
    double saved = 0.0;
    for (std::size_t i = 0; i < bare.table.cells.size(); ++i) {
        const HarmParts& under = netted.table.cells[i].parts;
        CHECK(under.hot_sun <= bare.table.cells[i].parts.hot_sun + 1e-6);
        CHECK(half.table.cells[i].parts.hot_sun >= under.hot_sun - 1e-9);
        CHECK(half.table.cells[i].parts.pot_wall >= under.pot_wall - 1e-9);
        saved += bare.table.cells[i].parts.hot_sun - under.hot_sun;
    }
    CHECK(saved > 10.0);
}

TEST_CASE("in a traced garden's autumn all come out of the evergreen's shade",
          "[placement][property]") {
    const scene::SceneFile file = scene_of(scene_text(false, 1.0, true));
    const Computed autumn = computed(file.scene(), "autumn");
    const SeasonPlan plan = plan_season(file.scene(), autumn.table);
    const MovePlan moves = plan_moves(file.scene(), autumn.table, plan);
    // The free spot is the darkest, whoever takes the others.
    REQUIRE(plan.free_spots.size() == 1);
    for (std::size_t spot = 0; spot < autumn.table.spots.size(); ++spot) {
        CHECK(autumn.table.at(0, plan.free_spots[0]).figures.light_share <=
              autumn.table.at(0, spot).figures.light_share + 0.02);
    }
    CHECK(moves.harm_after <= moves.harm_before);
}
