#include "sunfleck/exposure/exposure.h"

#include "base/within.h"
#include "sunfleck/scene/scene_file.h"
#include "sunfleck/scene/spots.h"
#include "sunfleck/sun/civil_time.h"

#include <catch2/catch.hpp>

#include <cstdio>
#include <string>

using namespace sunfleck;
using exposure::ReceiverKind;
using exposure::ReceiverRequest;
using sunfleck::test::within;

namespace {

// A yard with one of most things; {site} is replaced.
const char* const yard = R"json({
 "format": "sunfleck-scene", "version": 1,
 "site": {site},
 "benches": [
  {"id": "A", "x_m": 0, "y_m": 0, "bearing_plan_deg": 90, "length_m": 1.2, "depth_m": 0.4,
   "height_m": 0.8, "board_width_cm": 9, "board_gap_cm": 1.5, "spot_pitch_m": 0.3},
  {"id": "B", "x_m": 3, "y_m": 1, "bearing_plan_deg": 90, "length_m": 0.9, "depth_m": 0.6,
   "tiers": [{"height_m": 0.5, "set_back_m": 0, "depth_m": 0.3},
             {"height_m": 0.8, "set_back_m": 0.3, "depth_m": 0.3}]}],
 "walls": [{"id": "W", "line_m": [[-2, -1.5], [1, -1.5]], "height_m": 2, "thickness_cm": 20}],
 "cloths": [{"id": "N", "corners_m": [[0, -0.5, 2.2], [2, -0.5, 2.2], [2, 1.5, 2.4], [0, 1.5, 2.2]],
   "shade_factor_percent": 40, "sag_percent": 3}],
 "lath_panels": [{"id": "L", "x_m": 3, "y_m": 0, "height_m": 2, "bearing_plan_deg": 0,
   "length_m": 1.5, "width_m": 1, "slat_width_mm": 40, "gap_mm": 40, "thickness_mm": 15}],
 "trees": [{"id": "T", "x_m": 2, "y_m": -4, "height_m": 6, "crown_base_m": 2, "crown_width_m": 3,
   "leaf_habit": "evergreen", "transmission_in_leaf_percent": 12, "trunk_diameter_cm": 20}]
})json";

const char* const ealing = R"({"name": "Yard", "latitude_deg": 51.5, "longitude_deg": -0.3,
  "time_zone": "Europe/London", "plan_up_bearing_deg": 20})";

scene::Scene scene_at(const std::string& site) {
    std::string text = yard;
    text.replace(text.find("{site}"), 6, site);
    auto file = scene::SceneFile::parse(text, "yard.json");
    if (!file) FAIL(to_text(file.error().front()));
    return file->scene();
}

std::vector<ReceiverRequest> receivers_of(const scene::Scene& scene) {
    std::vector<ReceiverRequest> receivers;
    for (std::size_t i = 0; i < scene::spots_of(scene).size(); ++i) {
        receivers.push_back({.spot = i, .kind = ReceiverKind::crown, .height_m = 0.2});
        receivers.push_back({.spot = i, .kind = ReceiverKind::wall_w, .height_m = 0.05});
    }
    return receivers;
}

exposure::ExposureTable computed(const scene::Scene& scene,
                                 const exposure::ExposureRequest& request) {
    auto table = exposure::compute_exposure(scene, request);
    if (!table) FAIL(to_text(table.error().front()));
    return *table;
}

void append_bytes(const exposure::SunMinutes& m, std::string& text) {
    for (const double value : {m.sun_up_min, m.full_min, m.filtered_min, m.shade_min,
                               m.effective_min, m.hot_full_min, m.hot_effective_min}) {
        char digits[40];
        std::snprintf(digits, sizeof digits, "%a ", value);
        text += digits;
    }
}

// Every number of a table to its last bit.
std::string bytes_of(const exposure::ExposureTable& table) {
    std::string text;
    for (const auto& receiver : table.receivers) {
        append_bytes(receiver.mean, text);
        append_bytes(receiver.least, text);
        append_bytes(receiver.most, text);
        for (const auto& day : receiver.days) {
            append_bytes(day.total, text);
            for (const auto& hour : day.hours) append_bytes(hour.minutes, text);
            for (const auto& span : day.spans) {
                char digits[120];
                std::snprintf(digits, sizeof digits, "%d %a %a %a\n", static_cast<int>(span.state),
                              span.from.since_1970(), span.to.since_1970(), span.transmittance);
                text += digits;
            }
        }
    }
    return text;
}

const Date june = make_date(2026, 6, 21);

}  // namespace

TEST_CASE("the table is the same to the last bit on any number of threads",
          "[exposure][property][threads]") {
    const scene::Scene scene = scene_at(ealing);
    exposure::ExposureRequest request{.from = make_date(2026, 6, 1),
                                      .to = make_date(2026, 7, 30),
                                      .day_step = 30,
                                      .receivers = receivers_of(scene),
                                      .thread_count = 1,
                                      .progress = {}};
    const std::string one = bytes_of(computed(scene, request));
    for (const int threads : {2, 4}) {
        request.thread_count = threads;
        CAPTURE(threads);
        CHECK((bytes_of(computed(scene, request)) == one));
    }
    CHECK(one.size() > 10000);
}

TEST_CASE("hours, spans and days add up", "[exposure][property]") {
    const scene::Scene scene = scene_at(ealing);
    const auto table = computed(scene, {.from = june,
                                        .to = june,
                                        .day_step = 1,
                                        .receivers = receivers_of(scene),
                                        .thread_count = 0,
                                        .progress = {}});
    for (const auto& receiver : table.receivers) {
        REQUIRE(receiver.days.size() == 1);
        const auto& day = receiver.days[0];
        exposure::SunMinutes sum;
        for (const auto& hour : day.hours) {
            sum.sun_up_min += hour.minutes.sun_up_min;
            sum.full_min += hour.minutes.full_min;
            sum.filtered_min += hour.minutes.filtered_min;
            sum.effective_min += hour.minutes.effective_min;
            sum.hot_full_min += hour.minutes.hot_full_min;
            CHECK(hour.minutes.sun_up_min <= 60.0 + 1e-9);
        }
        CHECK(sum.sun_up_min == Approx(day.total.sun_up_min));
        CHECK(sum.full_min == within(day.total.full_min, 1e-9));
        CHECK(sum.filtered_min == within(day.total.filtered_min, 1e-9));
        CHECK(sum.effective_min == within(day.total.effective_min, 1e-9));
        CHECK(sum.hot_full_min == within(day.total.hot_full_min, 1e-9));
        CHECK(day.total.full_min + day.total.filtered_min + day.total.shade_min ==
              Approx(day.total.sun_up_min));
        for (const auto& span : day.spans) {
            CHECK(span.transmittance >= 0.0);
            CHECK(span.transmittance <= 1.0);
        }
        CHECK(receiver.mean.full_min == Approx(day.total.full_min));
        CHECK(receiver.least_date == june);
    }
}

TEST_CASE("computed days stand for those between them", "[exposure][property]") {
    const scene::Scene scene = scene_at(ealing);
    exposure::ExposureRequest request{.from = make_date(2026, 6, 1),
                                      .to = make_date(2026, 6, 19),
                                      .day_step = 5,
                                      .receivers = {receivers_of(scene)[4]},
                                      .thread_count = 0,
                                      .progress = {}};
    const auto few = computed(scene, request).receivers[0];
    request.day_step = 1;
    const auto all = computed(scene, request).receivers[0];
    REQUIRE(few.days.size() == 5);
    CHECK(few.days[3].date == make_date(2026, 6, 16));
    CHECK(few.days[4].date == make_date(2026, 6, 19));
    double days = 0.0;
    for (const auto& day : few.days) days += day.represents_days;
    CHECK(days == Approx(19.0));
    REQUIRE(all.days.size() == 19);
    double sum = 0.0;
    for (const auto& day : all.days) {
        CHECK(day.represents_days == Approx(1.0));
        sum += day.total.effective_min / 19.0;
    }
    CHECK(all.mean.effective_min == Approx(sum));
    CHECK(few.mean.effective_min == within(all.mean.effective_min, 1.0));
    CHECK(all.least.effective_min <= all.mean.effective_min);
    CHECK(all.most.effective_min >= all.mean.effective_min);
}

TEST_CASE("a mean counts each computed day for the days it stands for", "[exposure][property]") {
    const scene::Scene scene = scene_at(ealing);
    exposure::ExposureRequest request{.from = make_date(2026, 3, 1),
                                      .to = make_date(2026, 3, 12),
                                      .day_step = 10,
                                      .receivers = {receivers_of(scene)[0]},
                                      .thread_count = 0,
                                      .progress = {}};
    const auto few = computed(scene, request).receivers[0];
    request.day_step = 1;
    const auto all = computed(scene, request).receivers[0];
    REQUIRE(few.days.size() == 3);
    // In March a day is 3.8 min longer than the one before: the 1st, 11th and 12th, counted alike,
    // would give 5 min too much.
    CHECK(all.days[11].total.sun_up_min - all.days[0].total.sun_up_min > 40.0);
    CHECK(few.mean.sun_up_min == within(all.mean.sun_up_min, 0.1));
}

TEST_CASE("progress rises to the end, and stopping is told", "[exposure][property][threads]") {
    const scene::Scene scene = scene_at(ealing);
    double last = 0.0;
    exposure::ExposureRequest request{.from = june,
                                      .to = june,
                                      .day_step = 1,
                                      .receivers = receivers_of(scene),
                                      .thread_count = 2,
                                      .progress = [&last](double share) {
                                          CHECK(share > last);
                                          last = share;
                                          return true;
                                      }};
    static_cast<void>(computed(scene, request));
    CHECK(last == Approx(1.0));
    int calls = 0;
    request.progress = [&calls](double) { return ++calls < 3; };
    const auto stopped = exposure::compute_exposure(scene, request);
    REQUIRE_FALSE(stopped);
    CHECK(stopped.error().front().code == "interrupted");
    CHECK(calls == 3);
}

TEST_CASE("a polar day passes midnight and lists every hour", "[exposure][property]") {
    const scene::Scene scene = scene_at(
        R"({"name": "North", "latitude_deg": 69.65, "longitude_deg": 18.95,
            "time_zone": "Europe/Oslo"})");
    const auto table = computed(scene, {.from = june,
                                        .to = june,
                                        .day_step = 1,
                                        .receivers = {{.spot = 0}},
                                        .thread_count = 1,
                                        .progress = {}});
    const auto& day = table.receivers[0].days[0];
    CHECK(day.total.sun_up_min == within(1440.0, 0.01));
    // From one hour before noon's opposite to the next: the first and last hour are cut.
    CHECK(day.hours.size() == 25);
    double sum = 0.0;
    for (const auto& hour : day.hours) sum += hour.minutes.sun_up_min;
    CHECK(sum == within(1440.0, 0.01));
}

TEST_CASE("a polar night is all zero", "[exposure][property]") {
    const scene::Scene scene = scene_at(
        R"({"name": "North", "latitude_deg": 69.65, "longitude_deg": 18.95,
            "time_zone": "Europe/Oslo"})");
    const Date december = make_date(2026, 12, 21);
    const auto table = computed(scene, {.from = december,
                                        .to = december,
                                        .day_step = 1,
                                        .receivers = {{.spot = 0}},
                                        .thread_count = 1,
                                        .progress = {}});
    const auto& day = table.receivers[0].days[0];
    CHECK(day.total.sun_up_min <= 0.0);
    CHECK(day.hours.empty());
    CHECK(day.spans.empty());
    CHECK_FALSE(day.first_sun);
}

TEST_CASE("skipped and doubled hours are listed as they are", "[exposure][property]") {
    // Troll's clock goes from 01:00 to 03:00 in March and shows 01 and 02 twice in October; a
    // place near the pole has sun then.
    const scene::Scene scene = scene_at(
        R"({"name": "Ice", "latitude_deg": -85.0, "longitude_deg": 2.5,
            "time_zone": "Antarctica/Troll"})");
    const Date october = make_date(2026, 10, 25);
    const auto table = computed(scene, {.from = october,
                                        .to = october,
                                        .day_step = 1,
                                        .receivers = {{.spot = 0}},
                                        .thread_count = 1,
                                        .progress = {}});
    int ones = 0;
    int twos = 0;
    UtcSeconds last = UtcSeconds::since_1970(0.0);
    for (const auto& hour : table.receivers[0].days[0].hours) {
        ones += hour.hour == 1 ? 1 : 0;
        twos += hour.hour == 2 ? 1 : 0;
        CHECK(hour.from > last);
        last = hour.from;
    }
    CHECK(ones == 2);
    CHECK(twos == 2);
}

TEST_CASE("points of the pot's wall stand 10 cm off towards true bearings",
          "[exposure][property]") {
    const scene::Scene scene = scene_at(R"({"name": "Turned", "latitude_deg": 51.5,
        "longitude_deg": -0.3, "time_zone": "Europe/London", "plan_up_bearing_deg": 90})");
    const auto spots = scene::spots_of(scene);
    const auto table =
        computed(scene, {.from = june,
                         .to = june,
                         .day_step = 1,
                         .receivers = {{.spot = 0, .kind = ReceiverKind::crown, .height_m = 0.0},
                                       {.spot = 0, .kind = ReceiverKind::wall_e, .height_m = 0.04}},
                         .thread_count = 1,
                         .progress = {}});
    const auto& crown = table.receivers[0];
    const auto& wall = table.receivers[1];
    CHECK(crown.position.x == Approx(spots[0].position.x));
    CHECK(crown.z_m == Approx(spots[0].top_z_m + 0.001));  // 1 mm over what carries it
    // The plan's up is east, so true east is the plan's y.
    CHECK(wall.position.y - crown.position.y == Approx(0.10));
    CHECK(wall.position.x == within(crown.position.x, 1e-9));
    CHECK(wall.z_m == Approx(spots[0].top_z_m + 0.04));
    CHECK(wall.mean.full_min + wall.mean.filtered_min < crown.mean.sun_up_min / 2.0 + 60.0);
}

TEST_CASE("a pot's crown takes the nearest rung, the lower of equals", "[exposure][property]") {
    scene::Spot spot;
    scene::Pot pot;
    struct Row {
        double pot_m, crown_m, expected_m;
    };
    const Row rows[] = {{0.03, 0.06, 0.05}, {0.045, 0.20, 0.10}, {0.05, 0.20, 0.10},
                        {0.06, 0.30, 0.20}, {0.10, 0.80, 0.60},  {0.30, 3.00, 1.00}};
    for (const Row& row : rows) {
        pot.pot_height_m = row.pot_m;
        pot.crown_height_m = row.crown_m;
        CAPTURE(row.pot_m, row.crown_m);
        CHECK(exposure::crown_receiver_height_m(pot, spot) == Approx(row.expected_m));
    }
    CHECK(exposure::bare_receiver_height_m(spot) == Approx(0.20));
    spot.receiver_height_m = 0.33;
    CHECK(exposure::crown_receiver_height_m(pot, spot) == Approx(0.33));
    CHECK(exposure::bare_receiver_height_m(spot) == Approx(0.33));
    pot.receiver_height_m = 0.44;
    CHECK(exposure::crown_receiver_height_m(pot, spot) == Approx(0.44));
}

TEST_CASE("the sunny part of the year is told, or that there is none",
          "[exposure][scenario][threads]") {
    // Inside walls of 6 m, 7 x 9 m, at 48.9 N: noon sun at the north bench from 27 February to 15
    // October (worked by hand for the sun's middle; its edge comes a day earlier), none ever 1 m
    // from the south wall.
    auto file = scene::SceneFile::parse(R"json({
     "format": "sunfleck-scene", "version": 1,
     "site": {"name": "Court", "latitude_deg": 48.9, "longitude_deg": 2.3,
              "time_zone": "Europe/Paris"},
     "post_stands": [
      {"id": "P1", "x_m": 3.5, "y_m": 8, "height_m": 0.7, "bearing_deg": 0},
      {"id": "P2", "x_m": 3.5, "y_m": 1, "height_m": 0.7, "bearing_deg": 0}],
     "walls": [{"id": "W", "line_m": [[-0.1, -0.1], [7.1, -0.1], [7.1, 9.1], [-0.1, 9.1],
                [-0.1, -0.1]], "height_m": 6, "thickness_cm": 20}]})json",
                                        "court.json");
    REQUIRE(file);
    const std::vector<ReceiverRequest> receivers{
        {.spot = 0, .kind = ReceiverKind::crown, .height_m = 0.2},
        {.spot = 1, .kind = ReceiverKind::crown, .height_m = 0.2}};
    const auto seasons = exposure::sunny_seasons(file->scene(), receivers, 2026);
    REQUIRE(seasons);
    REQUIRE((*seasons)[0].first);
    CHECK(std::abs(days_between(make_date(2026, 2, 27), *(*seasons)[0].first)) <= 2);
    CHECK(std::abs(days_between(make_date(2026, 10, 15), *(*seasons)[0].last)) <= 2);
    CHECK_FALSE((*seasons)[1].first);
    CHECK_FALSE((*seasons)[1].last);
}
