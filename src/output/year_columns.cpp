#include "output/garden_things.h"
#include "sunfleck/exposure/sun_arc.h"
#include "sunfleck/output/year_sheet.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace sunfleck::output {

using exposure::SunState;

namespace {

/// The clock's hours of an instant after the midnight of `date`; beyond that day less than 0 or
/// more than 24.
double clock_h(UtcSeconds instant, Date date, const sun::TimeZone& zone) {
    const sun::ClockTime clock = zone.clock(instant);
    return 24.0 * days_between(date, clock.date) + clock.seconds_of_day / 3600.0;
}

/// Gives a stretch of time to the columns of the civil days it touches.
class ColumnFiller {
  public:
    ColumnFiller(std::vector<YearColumn>& columns, const sun::TimeZone& zone)
        : columns_(columns), zone_(zone) {}

    void add(std::size_t column, UtcSeconds from, UtcSeconds to,
             std::vector<ClockRun> YearColumn::*runs) {
        const Date date = columns_[column].date;
        const double from_h = clock_h(from, date, zone_);
        const double to_h = clock_h(to, date, zone_);
        add_part(column, from_h, to_h, runs);
        // The sheet's first and last column have only one neighbour.
        if (from_h < 0.0 && column > 0) add_part(column - 1, from_h + 24.0, to_h + 24.0, runs);
        if (to_h > 24.0 && column + 1 < columns_.size()) {
            add_part(column + 1, from_h - 24.0, to_h - 24.0, runs);
        }
    }

  private:
    void add_part(std::size_t column, double from_h, double to_h,
                  std::vector<ClockRun> YearColumn::*runs) {
        const ClockRun run{std::clamp(from_h, 0.0, 24.0), std::clamp(to_h, 0.0, 24.0)};
        if (run.from_h < run.to_h) (columns_[column].*runs).push_back(run);
    }

    std::vector<YearColumn>& columns_;
    const sun::TimeZone& zone_;
};

void sort_and_join(std::vector<ClockRun>& runs) {
    constexpr double touching_h = 1e-6;
    std::sort(runs.begin(), runs.end(),
              [](const ClockRun& a, const ClockRun& b) { return a.from_h < b.from_h; });
    std::vector<ClockRun> joined;
    for (const ClockRun& run : runs) {
        if (!joined.empty() && run.from_h <= joined.back().to_h + touching_h) {
            joined.back().to_h = std::max(joined.back().to_h, run.to_h);
        } else {
            joined.push_back(run);
        }
    }
    runs = std::move(joined);
}

}  // namespace

std::vector<YearColumn> year_columns(std::span<const exposure::DayExposure> days,
                                     const sun::Place& place, const sun::TimeZone& zone) {
    std::vector<YearColumn> columns(days.size());
    for (std::size_t i = 0; i < days.size(); ++i) {
        columns[i].date = days[i].date;
        const bool is_last = i + 1 == days.size();
        const Date end = make_date(year_of(days[i].date) + 1, 1, 1);
        columns[i].days = std::max(1, days_between(days[i].date, is_last ? end : days[i + 1].date));
    }
    ColumnFiller filler(columns, zone);
    for (std::size_t i = 0; i < days.size(); ++i) {
        const sun::SunDay sun_day = sun::sun_day(days[i].date, place, zone);
        const exposure::HotHours hot = exposure::hot_hours(sun_day);
        columns[i].noon_h = clock_h(sun_day.solar_noon, days[i].date, zone);
        columns[i].hot_from_h = clock_h(hot.from, days[i].date, zone);
        columns[i].hot_to_h = clock_h(hot.to, days[i].date, zone);
        columns[i].utc_offset_s = zone.utc_offset_s(sun_day.solar_noon);
        filler.add(i, sun_day.up_from, sun_day.up_to, &YearColumn::up);
        for (const auto& span : days[i].spans) {
            if (span.state == SunState::full) filler.add(i, span.from, span.to, &YearColumn::full);
            if (span.state == SunState::filtered) {
                filler.add(i, span.from, span.to, &YearColumn::filtered);
            }
        }
    }
    for (YearColumn& column : columns) {
        sort_and_join(column.up);
        sort_and_join(column.full);
        sort_and_join(column.filtered);
    }
    return columns;
}

void mark_nets(const scene::Scene& scene, std::span<YearColumn> columns) {
    for (YearColumn& column : columns) {
        column.has_net = std::ranges::any_of(scene.cloths, [&](const scene::Cloth& cloth) {
            return !cloth.up.empty() && is_up(cloth.up, column.date);
        });
    }
}

ClockRun shown_hours(std::span<const YearColumn> columns) {
    ClockRun hours{12.0, 12.0};
    for (const YearColumn& column : columns) {
        for (const ClockRun& run : column.up) {
            hours.from_h = std::min(hours.from_h, run.from_h);
            hours.to_h = std::max(hours.to_h, run.to_h);
        }
    }
    return {std::max(0.0, std::floor(hours.from_h - 1.0)),
            std::min(24.0, std::ceil(hours.to_h + 1.0))};
}

}  // namespace sunfleck::output
