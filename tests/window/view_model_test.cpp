#include "window/view_model.h"

#include "base/within.h"
#include "sunfleck/placement/traced_table.h"
#include "sunfleck/scene/seasons.h"
#include "window/garden_view.h"
#include "window/targets.h"

#include <catch2/catch.hpp>

#include <chrono>
#include <cmath>
#include <random>
#include <thread>

using namespace sunfleck;
using namespace sunfleck::test;
using window::AnswerDesk;
using window::Key;
using window::KeyPressed;
using window::PointerMoved;
using window::PointerPressed;
using window::PointerReleased;
using window::Resized;
using window::SheetPoint;
using window::ViewModel;
using window::WheelTurned;

namespace {

void click(ViewModel& view, SheetPoint at) {
    view.react(PointerPressed{at});
    view.react(PointerReleased{at});
}

void check_sound(const ViewModel& view) {
    CHECK(view.moment().minute >= 0);
    CHECK(view.moment().minute < 1440);
    CHECK(view.moment().date >= make_date(1950, 1, 1));
    CHECK(view.moment().date <= make_date(2100, 12, 31));
    if (view.chosen_spot()) CHECK(*view.chosen_spot() < view.spots().size());
    if (view.is_spot_open()) CHECK(view.chosen_spot());
    CHECK(std::isfinite(view.plan_view().pixels_per_m()));
    CHECK(view.plan_view().pixels_per_m() > 0.0);
}

}  // namespace

TEST_CASE("keys move the hour and the day", "[window][property]") {
    ViewModel view = view_of("fifth_floor.json");
    view.react(KeyPressed{Key::right, {.control = true}});
    CHECK(view.moment().minute == 735);
    view.react(KeyPressed{Key::left, {.shift = true, .control = true}});
    CHECK(view.moment().minute == 734);
    view.react(KeyPressed{Key::up, {.control = true}});
    CHECK(view.moment().date == make_date(2026, 6, 22));
    view.react(KeyPressed{Key::down, {.shift = true, .control = true}});
    CHECK(view.moment().date == make_date(2026, 5, 22));
    view.react(KeyPressed{Key::f4, {}});
    CHECK(view.moment().date == make_date(2026, 6, 21));
    view.react(KeyPressed{Key::f3, {}});
    const auto noon = sun::sun_day(view.moment().date, view.scene().site.place, view.zone());
    CHECK(std::abs(view.instant().seconds_after(noon.solar_noon)) < 60.0);
}

TEST_CASE("dragging the plumb line moves the hour as the hand goes", "[window][property]") {
    ViewModel view = view_of("fifth_floor.json");
    const auto arch = window::sky_parts(view.regions()).arch;
    view.react(PointerPressed{arch.centre()});
    int before = -1;
    for (double x = arch.low.x; x <= arch.high.x; x += 7.0) {
        view.react(PointerMoved{{x, arch.centre().y}});
        CHECK(view.moment().minute > before);
        before = view.moment().minute;
    }
    // Far off to the side it stays at the arch's end.
    view.react(PointerMoved{{arch.high.x + 900.0, 700.0}});
    CHECK(view.moment().minute == 23 * 60);
    view.react(PointerReleased{{arch.low.x - 50.0, 0.0}});
    CHECK(view.moment().minute == 3 * 60);
    view.react(PointerMoved{arch.centre()});
    CHECK(view.moment().minute == 3 * 60);
}

TEST_CASE("dragging the flag moves the date across and the hour down", "[window][property]") {
    ViewModel view = view_of("fifth_floor.json");
    AnswerDesk desk;
    answer_all(view, desk);
    const auto strip = window::sky_parts(view.regions()).strip;
    view.react(PointerPressed{strip.low});
    CHECK(view.moment().date == make_date(2026, 1, 1));
    const int early = view.moment().minute;
    view.react(PointerMoved{strip.high});
    CHECK(view.moment().date == make_date(2026, 12, 31));
    CHECK(view.moment().minute > early + 600);
    view.react(PointerReleased{strip.centre()});
    CHECK(std::abs(days_between(view.moment().date, make_date(2026, 7, 2))) <= 2);
}

TEST_CASE("a spot is chosen on the ground, in the list and by keys", "[window][property]") {
    ViewModel view = view_of("terrace_south.json", make_date(2026, 12, 21));
    AnswerDesk desk;
    answer_all(view, desk);
    for (std::size_t i = 0; i < view.spots().size(); i += 3) {
        click(view, view.plan_view().at(view.spots()[i].position));
        REQUIRE(view.chosen_spot());
        // Spots of tiers may lie closer than a pixel apart in the plan.
        const Vec2 found = view.spots()[*view.chosen_spot()].position;
        CHECK(length(found - view.spots()[i].position) < 0.01);
    }
    view.react(KeyPressed{Key::escape, {}});
    CHECK_FALSE(view.chosen_spot());
    view.react(KeyPressed{Key::tab, {}});
    CHECK(view.chosen_spot() == view.day()->ranked[0].spot);
    view.react(KeyPressed{Key::tab, {}});
    CHECK(view.chosen_spot() == view.day()->ranked[1].spot);
    view.react(KeyPressed{Key::enter, {}});
    CHECK(view.is_spot_open());
    view.react(KeyPressed{Key::escape, {}});
    CHECK_FALSE(view.is_spot_open());
    CHECK(view.chosen_spot());
}

TEST_CASE("the list is ranked by full sun in the hot hours", "[window][cross]") {
    // Against the exposure table computed for the same day.
    ViewModel view = view_of("hill_plot.json");
    AnswerDesk desk;
    answer_all(view, desk);
    const auto& day = *view.day();
    REQUIRE(day.ranked.size() == view.spots().size());
    exposure::ExposureRequest request{.from = day.date, .to = day.date};
    for (std::size_t i = 0; i < view.spots().size(); ++i) {
        request.receivers.push_back(window::receiver_at(view.scene(), view.spots(), i));
    }
    const auto table = exposure::compute_exposure(view.scene(), request);
    REQUIRE(table);
    for (std::size_t i = 0; i < day.ranked.size(); ++i) {
        const auto& own = table->receivers[day.ranked[i].spot].days.front().total;
        CHECK(day.days[day.ranked[i].spot].total.full_min == within(own.full_min, 1e-9));
        if (i == 0) continue;
        const auto& before = table->receivers[day.ranked[i - 1].spot].days.front().total;
        CHECK(before.hot_full_min >= own.hot_full_min - 1.0);
    }
}

TEST_CASE("a pot in more hot sun than it bears scorches", "[window][property]") {
    ViewModel view = view_of("terrace_south.json", make_date(2026, 12, 21));
    AnswerDesk desk;
    answer_all(view, desk);
    const auto& day = *view.day();
    int content = 0;
    int scorching = 0;
    int bare = 0;
    for (const window::SpotStanding& row : day.ranked) {
        const double hot_h = day.days[row.spot].total.hot_effective_min / 60.0;
        CAPTURE(view.spots()[row.spot].id, hot_h, row.bears_hot_h);
        CHECK(row.pot.has_value() == (row.faring != window::Faring::bare));
        bare += row.faring == window::Faring::bare ? 1 : 0;
        content += row.faring == window::Faring::content ? 1 : 0;
        scorching += row.faring == window::Faring::scorches ? 1 : 0;
        if (row.faring == window::Faring::scorches) CHECK(hot_h > row.bears_hot_h);
        if (row.pot && hot_h <= row.bears_hot_h) CHECK(row.faring == window::Faring::content);
    }
    CHECK(bare > 0);
    CHECK(content > 0);
    CHECK(scorching > 0);
}

TEST_CASE("the ground is shown nearer about the hand", "[window][property]") {
    ViewModel view = view_of("hill_plot.json");
    const SheetPoint at{300.0, 400.0};
    const auto place_of = [&](SheetPoint point) {
        const SheetPoint origin = view.plan_view().at(Vec2{});
        const double per_m = view.plan_view().pixels_per_m();
        return Vec2{(point.x - origin.x) / per_m, (origin.y - point.y) / per_m};
    };
    const Vec2 under_hand = place_of(at);
    const double before = view.plan_view().pixels_per_m();
    view.react(WheelTurned{at, 3.0});
    CHECK(view.plan_view().pixels_per_m() > 1.4 * before);
    CHECK(length(place_of(at) - under_hand) < 1e-6);
    view.react(PointerPressed{at});
    view.react(PointerMoved{at + SheetPoint{50.0, -20.0}});
    CHECK(length(place_of(at + SheetPoint{50.0, -20.0}) - under_hand) < 1e-6);
    view.react(PointerReleased{at + SheetPoint{50.0, -20.0}});
    view.react(KeyPressed{Key::whole, {.control = true}});
    CHECK(view.plan_view().pixels_per_m() == within(before, 1e-9));
}

TEST_CASE("whatever a hand does, the view stays sound", "[window][property]") {
    std::mt19937_64 bits(11);
    const auto number = [&](double low, double high) {
        return low + (high - low) * static_cast<double>(bits() % 100000U) / 100000.0;
    };
    ViewModel view = view_of("terrace_south.json", make_date(2026, 12, 21));
    const std::string first = view.document().text();
    AnswerDesk desk;
    answer_all(view, desk);
    for (int i = 0; i < 20000; ++i) {
        const SheetPoint at{number(-50.0, 1400.0), number(-50.0, 900.0)};
        switch (bits() % 9U) {
            case 0:
            case 1:
                view.react(PointerMoved{at});
                break;
            case 2:
                view.react(PointerPressed{at});
                break;
            case 3:
                view.react(PointerReleased{at});
                break;
            case 4:
                view.react(WheelTurned{at, number(-3.0, 3.0)});
                break;
            case 5:
                if (bits() % 50U == 0) view.react(Resized{number(1, 3000), number(1, 2000)});
                break;
            case 6:
                view.let_pass(number(0.0, 0.5));
                break;
            default: {
                // Keeping would write over the demo garden.
                const auto key = static_cast<Key>(bits() % static_cast<unsigned>(Key::keep));
                view.react(KeyPressed{key, {bits() % 2U == 0, bits() % 2U == 0, false}});
                break;
            }
        }
        if (i % 500 == 0) desk.serve(view);
        if (i % 20 == 0) check_sound(view);
    }
    while (view.document().undo_name() != nullptr) view.undo();
    CHECK(view.document().text() == first);
}

TEST_CASE("the window's plan is the command's and can be taken back", "[window][cross]") {
    // Against the plan made from a table traced apart.
    ViewModel view = view_of("hill_plot.json");
    AnswerDesk desk;
    const std::string first = view.document().text();
    view.go_to(window::Stone::plan);
    answer_all(view, desk);
    for (int i = 0; i < 60000 && !view.is_plan_current(); ++i) {
        desk.serve(view);
        std::this_thread::sleep_for(std::chrono::milliseconds(1));
    }
    REQUIRE(view.plan() != nullptr);
    const auto dates = scene::season_range(view.scene(), "midsummer", 2026);
    REQUIRE(dates);
    const auto table =
        placement::trace_harm_table(view.scene(), {.season = "midsummer", .dates = *dates},
                                    placement::standing_now(view.scene(), view.spots()), 1);
    REQUIRE(table);
    const auto plan = placement::plan_season(view.scene(), *table);
    CHECK(view.plan()->plan().spot_of_row == plan.spot_of_row);
    CHECK(static_cast<int>(view.plan()->moves.size()) >= plan.lifts);
    REQUIRE_FALSE(view.plan()->moves.empty());
    view.take_plan();
    for (std::size_t row = 0; row < table->rows.size(); ++row) {
        if (table->rows[row].copy != 1 || !plan.spot_of_row[row]) continue;
        CHECK(view.scene().pots[table->rows[row].pot].spot ==
              view.spots()[*plan.spot_of_row[row]].id);
    }
    view.undo();
    CHECK(view.document().text() == first);
}
