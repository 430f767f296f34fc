#include "placement/invented_garden.h"

#include "sunfleck/sun/civil_time.h"
#include "sunfleck/sun/sun_day.h"

#include <algorithm>
#include <cmath>
#include <map>
#include <set>
#include <tuple>

namespace sunfleck::placement_test {

namespace {

using exposure::ReceiverKind;

double share_on(const SunPattern& pattern, ReceiverKind kind, int solar_hour) {
    const double share = pattern[static_cast<std::size_t>(solar_hour)];
    switch (kind) {
        case ReceiverKind::crown:
            return share;
        case ReceiverKind::wall_w:
            return solar_hour >= 12 ? share : 0.0;
        case ReceiverKind::wall_e:
            return solar_hour < 12 ? share : 0.0;
        case ReceiverKind::wall_s:
            return solar_hour >= 6 && solar_hour < 18 ? share : 0.0;
        case ReceiverKind::wall_n:
            return solar_hour < 6 || solar_hour >= 18 ? share : 0.0;
    }
    return 0.0;
}

void add_piece(double minutes, double share, bool is_hot, exposure::SunMinutes& sum) {
    sum.sun_up_min += minutes;
    const bool is_full = share >= 1.0;
    (is_full ? sum.full_min : share > 0.0 ? sum.filtered_min : sum.shade_min) += minutes;
    sum.effective_min += minutes * share;
    if (is_hot) {
        sum.hot_full_min += is_full ? minutes : 0.0;
        sum.hot_effective_min += minutes * share;
    }
}

exposure::DayExposure day_of(const SunPattern& pattern, ReceiverKind kind, Date date,
                             const sun::SunDay& day, const sun::TimeZone& zone) {
    exposure::DayExposure result;
    result.date = date;
    for (const sun::CivilHour& hour : zone.hours(date)) {
        exposure::HourExposure entry;
        entry.hour = hour.hour;
        entry.from = hour.from;
        // A clock hour meets the solar hour that it begins in and the one after it.
        const double begins = hour.from.seconds_after(day.solar_noon) / 3600.0 + 12.0;
        const int first = static_cast<int>(std::floor(begins));
        for (int solar = std::max(0, first); solar <= std::min(23, first + 1); ++solar) {
            const UtcSeconds from = day.solar_noon.plus_seconds((solar - 12) * 3600.0);
            const UtcSeconds start = std::max({from, hour.from, day.up_from});
            const UtcSeconds end = std::min({from.plus_seconds(3600.0), hour.to, day.up_to});
            if (end <= start) continue;
            const double minutes = end.seconds_after(start) / 60.0;
            const double share = share_on(pattern, kind, solar);
            add_piece(minutes, share, solar >= 11 && solar < 16, entry.minutes);
            add_piece(minutes, share, solar >= 11 && solar < 16, result.total);
            const auto state = share >= 1.0  ? exposure::SunState::full
                               : share > 0.0 ? exposure::SunState::filtered
                                             : exposure::SunState::shade;
            result.spans.push_back({state, start, end, share});
        }
        if (entry.minutes.sun_up_min > 0.0) result.hours.push_back(entry);
    }
    return result;
}

/// The sun's day, found once for each place and date: hundreds of gardens share them.
const sun::SunDay& known_day(Date date, const sun::Place& place, const sun::TimeZone& zone) {
    static std::map<std::tuple<double, double, int>, sun::SunDay> days;
    const std::tuple key{place.latitude.in_degrees(), place.longitude.in_degrees(),
                         days_since_1970(date)};
    const auto found = days.find(key);
    return found != days.end() ? found->second
                               : days.emplace(key, sun::sun_day(date, place, zone)).first->second;
}

}  // namespace

SunPattern open_sun() {
    SunPattern pattern;
    pattern.fill(1.0);
    return pattern;
}

SunPattern no_sun() {
    return {};
}

SunPattern with_share(SunPattern rest, int from_h, int to_h, double share) {
    for (int hour = from_h; hour < to_h; ++hour) rest[static_cast<std::size_t>(hour)] = share;
    return rest;
}

double Dice::between(double low, double high) {
    state_ = state_ * 6364136223846793005U + 1442695040888963407U;
    return low + (high - low) * static_cast<double>(state_ >> 11U) / 9007199254740992.0;
}

int Dice::whole(int low, int high) {
    return std::min(high, low + static_cast<int>(between(0.0, high - low + 1.0)));
}

InventedGarden::InventedGarden() {
    scene.site.name = "Invented";
    scene.site.place = {Latitude::degrees(51.5), Longitude::degrees(-0.3), 20.0};
    scene.site.time_zone = "Europe/London";
    scene.lifting.people = 1;
    scene.lifting.limit_kg = 40.0;
}

std::size_t InventedGarden::add_spot(const SunPattern& pattern) {
    return add_spot(pattern, pattern);
}

std::size_t InventedGarden::add_spot(const SunPattern& summer_pattern,
                                     const SunPattern& autumn_pattern) {
    scene::Spot spot;
    spot.number = static_cast<int>(spots.size()) + 1;
    spot.bench = "A";
    spot.id = "A-" + std::to_string(spot.number);
    spot.name = "Long bench " + std::to_string(spot.number);
    spot.column = spot.number - 1;
    spot.position = {0.8 * spot.number, 0.0};
    spot.length_m = 0.8;
    spot.depth_m = 0.8;
    spots.push_back(spot);
    summer.push_back(summer_pattern);
    autumn.push_back(autumn_pattern);
    return spots.size() - 1;
}

scene::Pot& InventedGarden::add_pot(const std::string& id, const std::string& spot) {
    scene::Pot pot;
    pot.label.id = id;
    pot.label.name = id;
    pot.spot = spot;
    pot.pot_length_m = 0.15;
    pot.pot_width_m = 0.12;
    pot.pot_height_m = 0.06;
    pot.crown_width_m = 0.25;
    pot.crown_height_m = 0.25;
    pot.soil_l = 1.0;
    pot.weight_kg = 2.0;
    scene.pots.push_back(pot);
    return scene.pots.back();
}

exposure::ExposureTable InventedGarden::exposure_of(scene::DateRange dates) const {
    const auto zone = sun::TimeZone::find(scene.site.time_zone);
    exposure::ExposureTable table;
    table.from = dates.from;
    table.to = dates.to;
    table.day_step = day_step;
    const int day_count = days_between(dates.from, dates.to) + 1;
    const int computed = (day_count + table.day_step - 1) / table.day_step;
    std::vector<std::pair<Date, sun::SunDay>> days;
    for (int i = 0; i < computed; ++i) {
        const Date date = add_days(dates.from, i * table.day_step);
        days.emplace_back(date, known_day(date, scene.site.place, *zone));
    }
    for (const auto& request : placement::receivers_needed(scene, spots, dates)) {
        exposure::ReceiverExposure receiver;
        receiver.receiver = request;
        receiver.least_date = dates.from;
        receiver.most_date = dates.from;
        for (const auto& [date, day] : days) {
            const bool is_autumn = static_cast<unsigned>(date.month()) >= 9;
            const SunPattern& pattern = (is_autumn ? autumn : summer)[request.spot];
            receiver.days.push_back(day_of(pattern, request.kind, date, day, *zone));
            receiver.days.back().represents_days = static_cast<double>(day_count) / computed;
            receiver.mean.add(receiver.days.back().total, 1.0 / computed);
        }
        table.receivers.push_back(std::move(receiver));
    }
    return table;
}

placement::HarmTable InventedGarden::table(const std::string& season,
                                           const placement::Standing* standing) const {
    const scene::DateRange dates = dates_of(season);
    auto made = placement::make_harm_table(
        scene, spots, {season, dates}, exposure_of(dates),
        standing != nullptr ? *standing : placement::standing_now(scene, spots));
    return std::move(made).value();
}

scene::DateRange dates_of(const std::string& season) {
    if (season == "spring") return {make_date(2026, 3, 1), make_date(2026, 5, 14)};
    if (season == "early_summer") return {make_date(2026, 5, 15), make_date(2026, 6, 20)};
    if (season == "midsummer") return {make_date(2026, 6, 21), make_date(2026, 8, 15)};
    return {make_date(2026, 9, 16), make_date(2026, 11, 30)};
}

void make_small_maple(scene::Pot& pot) {
    pot.species = "Acer palmatum";
    pot.soil_l = 0.38;
    pot.weight_kg = 0.9;
    pot.wants = {.sun_min_h = 4.0,
                 .sun_max_h = 6.0,
                 .drought_tolerance = 2.0,
                 .shade_tolerance = 3.5,
                 .scorch_risk = scene::ScorchRisk::high};
}

void make_large_pine(scene::Pot& pot) {
    pot.species = "Pinus thunbergii";
    pot.soil_l = 17.0;
    pot.pot_length_m = 0.5;
    pot.pot_width_m = 0.4;
    pot.weight_kg = 28.0;
    pot.wants = {.sun_min_h = 6.0,
                 .sun_max_h = 16.0,
                 .drought_tolerance = 4.0,
                 .shade_tolerance = 1.0,
                 .scorch_risk = scene::ScorchRisk::low};
}

InventedGarden random_garden(std::uint64_t seed, int pot_count, int spot_count) {
    Dice dice(seed);
    InventedGarden garden;
    garden.day_step = 21;
    for (int s = 0; s < spot_count; ++s) {
        const auto pattern = [&dice] {
            SunPattern sun = open_sun();
            const int from = dice.whole(4, 18);
            sun = with_share(sun, from, std::min(24, from + dice.whole(1, 9)),
                             dice.whole(0, 1) == 0 ? 0.0 : dice.between(0.3, 0.7));
            return sun;
        };
        garden.add_spot(pattern(), pattern());
    }
    std::set<int> taken;
    for (int p = 0; p < pot_count; ++p) {
        const int spot = dice.whole(1, spot_count);
        const bool stands = dice.whole(0, 9) > 0 && taken.insert(spot).second;
        scene::Pot& pot =
            garden.add_pot("R" + std::to_string(p), stands ? "A-" + std::to_string(spot) : "");
        pot.soil_l = std::pow(10.0, dice.between(-1.2, 1.5));
        pot.weight_kg = 2.0 * pot.soil_l;
        pot.colour = static_cast<scene::PotColour>(dice.whole(0, 2));
        pot.wants = {.sun_min_h = dice.between(2.0, 6.0),
                     .sun_max_h = dice.between(6.0, 16.0),
                     .drought_tolerance = dice.between(0.0, 5.0),
                     .shade_tolerance = dice.between(0.0, 5.0),
                     .scorch_risk = static_cast<scene::ScorchRisk>(dice.whole(0, 2))};
        pot.pinned = stands && dice.whole(0, 9) == 0;
        if (dice.whole(0, 9) == 0) pot.not_on = {"A-" + std::to_string(dice.whole(1, spot_count))};
    }
    return garden;
}

}  // namespace sunfleck::placement_test
