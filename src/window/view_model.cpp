#include "window/view_model.h"

#include "sunfleck/output/day_arch.h"
#include "sunfleck/scene/seasons.h"
#include "window/targets.h"

#include <algorithm>
#include <cmath>
#include <utility>

namespace sunfleck::window {
namespace {

constexpr double spot_reach_px = 16.0;
constexpr double played_min_per_s = 1440.0 / 8.0;
constexpr int hour_min = 60;
constexpr double nearer_a_notch = 1.15;
constexpr double smallest_part_m = 0.5;
constexpr double largest_part_m = 500.0;

// First and last year that the program computes.
constexpr int first_year = 1950;
constexpr int last_year = 2100;

SkyMoment within_years(SkyMoment moment) {
    const Date first = make_date(first_year, 1, 1);
    const Date last = make_date(last_year, 12, 31);
    return {std::clamp(moment.date, first, last), std::clamp(moment.minute, 0, 1439)};
}

}  // namespace

ViewModel::ViewModel(document::Document document, sun::TimeZone zone, SkyMoment today)
    : document_(std::move(document)),
      zone_(std::move(zone)),
      today_(within_years(today)),
      moment_(today_),
      spots_(scene::spots_of(document_.scene())),
      regions_(regions_of(width_, height_, false)),
      shown_part_(output::shown_part(document_.scene())),
      plan_view_(shown_part_, regions_.ground) {
    // The plan is asked for the season that the window opens in.
    if (const auto season = scene::season_on(scene(), moment_.date)) season_ = season->name;
    if (season_.empty() && !scene().seasons.empty()) season_ = scene().seasons.front().name;
}

void ViewModel::react(const Input& input) {
    if (const auto* moved = std::get_if<PointerMoved>(&input)) return move(moved->at);
    if (const auto* pressed = std::get_if<PointerPressed>(&input)) return press(pressed->at);
    if (const auto* released = std::get_if<PointerReleased>(&input)) {
        if (drag_ != Drag::none) drag_to(released->at);
        drag_ = Drag::none;
        return;
    }
    if (const auto* turned = std::get_if<WheelTurned>(&input)) return wheel(*turned);
    if (const auto* key = std::get_if<KeyPressed>(&input)) return press_key(*key);
    if (const auto* typed = std::get_if<TextTyped>(&input)) {
        if (typed->text == "1") go_to(Stone::sun);
        if (typed->text == "2") go_to(Stone::plan);
        return;
    }
    if (const auto* resized = std::get_if<Resized>(&input)) {
        return resize(resized->width, resized->height);
    }
}

void ViewModel::resize(double width, double height) {
    width_ = width;
    height_ = height;
    regions_ = regions_of(width_, height_, false);
    plan_view_ = output::PlanView(shown_part_, regions_.ground);
    stale_ = {};
}

void ViewModel::press(SheetPoint at) {
    is_playing_ = false;
    for (const Target& target : all_targets(*this)) {
        if (target.box.contains(at)) return press_target(target.name, at);
    }
    const SkyParts parts = sky_parts(regions_);
    if (parts.arch.contains(at)) {
        drag_ = Drag::plumb_line;
        drag_to(at);
    } else if (parts.strip.contains(at)) {
        drag_ = Drag::flag;
        drag_to(at);
    } else if (regions_.ground.contains(at) && stone_ == Stone::sun) {
        const auto spot = spot_at(at);
        choose_spot(spot);
        if (spot) return;
        drag_ = Drag::ground;
        dragged_from_ = at;
    }
}

void ViewModel::press_target(const std::string& name, SheetPoint at) {
    if (name == "play") return play_or_stop();
    if (name == "noon") return go_to_noon();
    if (name == "today") return go_to_today();
    if (name == "undo") return undo();
    if (name == "redo") return redo();
    if (name == "keep") return keep();
    if (name == "back") return close_spot();
    if (name == "stone sun") return go_to(Stone::sun);
    if (name == "stone plan") return go_to(Stone::plan);
    if (name == "season") return step_season(1);
    if (name == "take") return take_plan();
    if (name == "take found") return take_found_changes();
    if (name == "leave found") return leave_found_changes();
    const double rows = (at.y - rows_top(*this)) / row_height(*this);
    const std::size_t row = first_row_ + static_cast<std::size_t>(std::max(0.0, rows));
    if (row >= row_count()) return;
    const std::size_t spot = stone_ == Stone::plan ? plan_->moves[row].to : day_->ranked[row].spot;
    const bool is_again = chosen_spot_ == spot;
    choose_spot(spot);
    if (is_again && stone_ == Stone::sun) open_spot();
}

std::size_t ViewModel::row_count() const {
    if (stone_ == Stone::plan) return plan_ ? plan_->moves.size() : 0;
    return day_ ? day_->ranked.size() : 0;
}

void ViewModel::go_to(Stone stone) {
    if (stone == stone_) return;
    stone_ = stone;
    is_spot_open_ = false;
    first_row_ = 0;
    trouble_.clear();
    stale_ = {};
}

void ViewModel::step_season(int steps) {
    const auto& seasons = scene().seasons;
    if (seasons.empty()) return;
    const auto count = static_cast<long>(seasons.size());
    const auto at = std::ranges::find(seasons, season_, &scene::Season::name);
    const long now = at == seasons.end() ? 0 : static_cast<long>(at - seasons.begin());
    const long next = ((now + steps) % count + count) % count;
    season_ = seasons[static_cast<std::size_t>(next)].name;
    first_row_ = 0;
    stale_.page = stale_.ground = true;
}

std::optional<PlanAsked> ViewModel::wanted_plan() const {
    if (stone_ != Stone::plan || season_.empty()) return std::nullopt;
    return PlanAsked{document_.revision(), season_, scene::year_for(scene(), std::nullopt)};
}

bool ViewModel::is_plan_current() const {
    const auto wanted = wanted_plan();
    return !wanted || (plan_ && plan_->asked == *wanted);
}

void ViewModel::take(PlanAnswers answers) {
    if (answers.table.spots.size() != spots_.size()) return;  // of an older garden
    plan_ = std::move(answers);
    first_row_ = std::min(first_row_, plan_->moves.empty() ? 0 : plan_->moves.size() - 1);
    trouble_.clear();
    if (stone_ == Stone::plan) stale_.page = stale_.ground = true;
}

void ViewModel::take_plan() {
    if (!plan_ || !is_plan_current() || plan_->moves.empty()) return;
    const auto taken = document_.apply(window::take_plan(document_, *plan_));
    if (!taken) return take_trouble(taken.error());
    document_.end_strand();
    garden_changed();
}

void ViewModel::move(SheetPoint at) {
    if (drag_ != Drag::none) return drag_to(at);
    const bool is_on_spots = stone_ == Stone::sun && regions_.ground.contains(at);
    const auto pointed = is_on_spots ? spot_at(at) : std::nullopt;
    if (pointed != pointed_spot_) {
        pointed_spot_ = pointed;
        stale_.ground = true;
    }
}

void ViewModel::drag_to(SheetPoint at) {
    const SkyParts parts = sky_parts(regions_);
    if (drag_ == Drag::plumb_line) {
        const output::DayArch arch{
            .date = moment_.date, .place = scene().site.place, .at = {}, .spans = {}};
        const double hour = output::arch_hour_at(parts.arch, arch, zone_, at.x);
        set_moment({moment_.date, std::min(1439, static_cast<int>(std::lround(hour * hour_min)))});
    } else if (drag_ == Drag::flag && year_) {
        const auto point = output::year_point_at(parts.strip, year_->columns, at);
        set_moment({point.date, static_cast<int>(std::lround(point.hour * hour_min))});
    } else if (drag_ == Drag::ground) {
        const Vec2 by = plan_at(dragged_from_) - plan_at(at);
        dragged_from_ = at;
        show_part({shown_part_.low + by, shown_part_.high + by});
    }
}

Vec2 ViewModel::plan_at(SheetPoint at) const {
    const SheetPoint origin = plan_view_.at(Vec2{});
    const double metres = 1.0 / plan_view_.pixels_per_m();
    return {metres * (at.x - origin.x), metres * (origin.y - at.y)};
}

void ViewModel::show_part(const output::PlanBox& part) {
    shown_part_ = part;
    plan_view_ = output::PlanView(shown_part_, regions_.ground);
    stale_.ground = true;
}

void ViewModel::show_whole_garden() {
    show_part(output::shown_part(scene()));
}

void ViewModel::go_nearer(double times, SheetPoint about) {
    const double least = smallest_part_m / std::max(shown_part_.width(), shown_part_.height());
    const double most = largest_part_m / std::max(shown_part_.width(), shown_part_.height());
    const double share = std::clamp(1.0 / times, least, most);
    const Vec2 fixed = plan_at(about);
    show_part(
        {fixed + share * (shown_part_.low - fixed), fixed + share * (shown_part_.high - fixed)});
}

void ViewModel::wheel(const WheelTurned& turned) {
    const int steps = static_cast<int>(std::lround(turned.notches));
    if (regions_.sky.contains(turned.at)) {
        const bool is_strip = sky_parts(regions_).strip.contains(turned.at);
        set_moment(is_strip ? days_later(moment_, steps) : later(moment_, 15 * steps));
    } else if (regions_.ground.contains(turned.at) && stone_ == Stone::sun) {
        go_nearer(std::pow(nearer_a_notch, turned.notches), turned.at);
    } else if (regions_.page.contains(turned.at)) {
        const std::size_t shown = rows_shown(*this);
        const std::size_t count = row_count();
        const auto last = static_cast<long>(count > shown ? count - shown : 0);
        const long row = std::clamp(static_cast<long>(first_row_) - 2 * steps, 0L, last);
        first_row_ = static_cast<std::size_t>(row);
        stale_.page = true;
    }
}

void ViewModel::press_key(const KeyPressed& pressed) {
    const Held& held = pressed.held;
    if (pressed.key != Key::f2) is_playing_ = false;
    switch (pressed.key) {
        case Key::left:
        case Key::right: {
            if (!held.control) return go_to_next_spot(pressed.key);
            const int step = held.shift ? 1 : 15;
            return set_moment(later(moment_, pressed.key == Key::right ? step : -step));
        }
        case Key::up:
        case Key::down: {
            if (!held.control) return go_to_next_spot(pressed.key);
            const int step = pressed.key == Key::up ? 1 : -1;
            return set_moment(held.shift ? months_later(moment_, step) : days_later(moment_, step));
        }
        case Key::tab:
            return move_choice_in_list(held.shift ? -1 : 1);
        case Key::enter:
            return stone_ == Stone::plan ? take_plan() : open_spot();
        case Key::escape:
            if (is_spot_open_) return close_spot();
            return choose_spot(std::nullopt);
        case Key::f2:
            return play_or_stop();
        case Key::f3:
            return go_to_noon();
        case Key::f4:
            return go_to_today();
        case Key::f5:
            return is_spot_open_ ? close_spot() : open_spot();
        case Key::nearer:
            return go_nearer(nearer_a_notch, regions_.ground.centre());
        case Key::farther:
            return go_nearer(1.0 / nearer_a_notch, regions_.ground.centre());
        case Key::whole:
            return show_whole_garden();
        case Key::undo:
            return undo();
        case Key::redo:
            return redo();
        case Key::keep:
            return keep();
    }
}

void ViewModel::set_moment(SkyMoment moment) {
    const SkyMoment held = within_years(moment);
    if (held == moment_) return;
    if (held.date != moment_.date) stale_.page = true;
    moment_ = held;
    stale_.sky = stale_.ground = true;
}

void ViewModel::choose_spot(std::optional<std::size_t> spot) {
    if (spot && *spot >= spots_.size()) spot.reset();
    if (spot == chosen_spot_) return;
    chosen_spot_ = spot;
    if (!spot) is_spot_open_ = false;
    stale_.sky = stale_.ground = stale_.page = true;
}

void ViewModel::open_spot() {
    if (!chosen_spot_ || is_spot_open_ || stone_ != Stone::sun) return;
    is_spot_open_ = true;
    stale_.page = true;
}

void ViewModel::close_spot() {
    if (!is_spot_open_) return;
    is_spot_open_ = false;
    stale_.page = true;
}

// The nearest spot in the key's direction, within an eighth of a turn to both sides.
void ViewModel::go_to_next_spot(Key key) {
    if (spots_.empty()) return;
    if (!chosen_spot_) return choose_spot(0);
    const SheetPoint from = plan_view_.at(spots_[*chosen_spot_].position);
    const SheetPoint way = key == Key::left    ? SheetPoint{-1.0, 0.0}
                           : key == Key::right ? SheetPoint{1.0, 0.0}
                           : key == Key::up    ? SheetPoint{0.0, -1.0}
                                               : SheetPoint{0.0, 1.0};
    std::optional<std::size_t> best;
    double best_distance = 0.0;
    for (std::size_t i = 0; i < spots_.size(); ++i) {
        const SheetPoint to = plan_view_.at(spots_[i].position) - from;
        const double along = to.x * way.x + to.y * way.y;
        const double across = std::abs(to.x * way.y - to.y * way.x);
        if (along <= 0.5 || across > along) continue;
        const double distance = along + across;
        if (best && distance >= best_distance) continue;
        best = i;
        best_distance = distance;
    }
    if (best) choose_spot(best);
}

void ViewModel::move_choice_in_list(int rows) {
    const auto count = static_cast<long>(row_count());
    if (count == 0) return;
    const auto spot_of = [&](long row) {
        const auto index = static_cast<std::size_t>(row);
        return stone_ == Stone::plan ? plan_->moves[index].to : day_->ranked[index].spot;
    };
    long now = rows > 0 ? -1 : count;
    for (long row = 0; row < count; ++row) {
        if (chosen_spot_ == spot_of(row)) now = row;
    }
    const long next = std::clamp(now + rows, 0L, count - 1);
    choose_spot(spot_of(next));
    const auto shown = static_cast<long>(rows_shown(*this));
    const auto first = static_cast<long>(first_row_);
    if (next < first) first_row_ = static_cast<std::size_t>(next);
    if (next >= first + shown) first_row_ = static_cast<std::size_t>(next - shown + 1);
}

std::optional<std::size_t> ViewModel::spot_at(SheetPoint at) const {
    std::optional<std::size_t> best;
    double nearest = spot_reach_px;
    for (std::size_t i = 0; i < spots_.size(); ++i) {
        const double away = output::distance(plan_view_.at(spots_[i].position), at);
        if (away >= nearest) continue;
        nearest = away;
        best = i;
    }
    return best;
}

void ViewModel::play_or_stop() {
    is_playing_ = !is_playing_;
    played_min_ = 0.0;
    stale_.sky = true;
}

void ViewModel::let_pass(double seconds) {
    if (!is_playing_) return;
    played_min_ += seconds * played_min_per_s;
    const double whole = std::floor(played_min_);
    played_min_ -= whole;
    // The day begins again when it is over.
    const int minute = (moment_.minute + static_cast<int>(whole)) % 1440;
    set_moment({moment_.date, minute});
}

void ViewModel::go_to_noon() {
    const auto noon = sun::sun_day(moment_.date, scene().site.place, zone_).solar_noon;
    set_moment({moment_.date, zone_.clock(noon).seconds_of_day / 60});
}

void ViewModel::go_to_today() {
    set_moment({today_.date, moment_.minute});
}

void ViewModel::undo() {
    if (document_.undo()) garden_changed();
}

void ViewModel::redo() {
    if (document_.redo()) garden_changed();
}

void ViewModel::keep() {
    const auto kept = document_.keep();
    trouble_ =
        kept ? std::string() : kept.error().front().message + " " + kept.error().front().mend;
    stale_ = {};
}

void ViewModel::garden_changed() {
    spots_ = scene::spots_of(scene());
    if (chosen_spot_ && *chosen_spot_ >= spots_.size()) choose_spot(std::nullopt);
    pointed_spot_.reset();
    stale_ = {};
}

void ViewModel::offer_found_changes(std::string text) {
    found_text_ = std::move(text);
    stale_.page = true;
}

void ViewModel::take_found_changes() {
    const auto taken = document_.take_text(found_text_, "Take the changes found");
    found_text_.clear();
    if (!taken) return take_trouble(taken.error());
    garden_changed();
}

void ViewModel::leave_found_changes() {
    found_text_.clear();
    stale_.page = true;
}

bool ViewModel::is_day_current() const {
    return day_ && day_->revision == document_.revision() && day_->date == moment_.date;
}

bool ViewModel::is_year_current() const {
    return year_ && year_->revision == document_.revision() &&
           year_->year == year_of(moment_.date) && year_->spot == chosen_spot_;
}

void ViewModel::take(DayAnswers answers) {
    if (answers.days.size() != spots_.size()) return;  // of an older garden
    day_ = std::move(answers);
    const std::size_t count = row_count();
    first_row_ = std::min(first_row_, count > 0 ? count - 1 : 0);
    stale_.sky = true;
    if (stone_ == Stone::sun) stale_.ground = stale_.page = true;
}

void ViewModel::take(YearAnswers answers) {
    year_ = std::move(answers);
    stale_.sky = stale_.page = true;
}

void ViewModel::take_trouble(const Problems& problems) {
    if (!problems.empty()) trouble_ = problems.front().message + " " + problems.front().mend;
    stale_.page = true;
}

Stale ViewModel::take_stale() {
    const Stale stale = stale_;
    stale_ = {.sky = false, .ground = false, .page = false, .path = false};
    return stale;
}

}  // namespace sunfleck::window
