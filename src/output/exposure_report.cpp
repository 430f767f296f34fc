#include "sunfleck/output/exposure_report.h"

#include "sunfleck/base/plain_words.h"
#include "sunfleck/output/text_table.h"
#include "sunfleck/output/words.h"

#include <algorithm>
#include <cmath>
#include <map>

namespace sunfleck::output {
namespace {

using exposure::ReceiverExposure;
using exposure::ReceiverKind;

constexpr int text_width = 80;

bool has_walls(const ExposureAnswer& answer) {
    const auto& receivers = answer.table.receivers;
    return std::any_of(receivers.begin(), receivers.end(), [](const ReceiverExposure& receiver) {
        return receiver.receiver.kind != ReceiverKind::crown;
    });
}

std::string point_words(ReceiverKind kind) {
    switch (kind) {
        case ReceiverKind::crown:
            return "crown";
        case ReceiverKind::wall_n:
            return "north";
        case ReceiverKind::wall_e:
            return "east";
        case ReceiverKind::wall_s:
            return "south";
        case ReceiverKind::wall_w:
            return "west";
    }
    return {};
}

const std::string& spot_id(const ExposureAnswer& answer, const ReceiverExposure& receiver) {
    return answer.spots[receiver.receiver.spot].id;
}

// "Direct sun on 21 June 2026 at Fern Yard." and what else must be known.
std::string opening(const ExposureAnswer& answer) {
    const exposure::ExposureTable& table = answer.table;
    std::string text = "Direct sun at " + answer.garden + ", ";
    if (!answer.season.empty()) text += season_words(answer.season) + ", ";
    text += date_range_and_year_words(table.from, table.to);
    if (table.from != table.to) text += ", mean of the days";
    text += ".";
    if (answer.is_default_day) text += " No date was asked, so this is the summer solstice.";
    if (table.day_step > 1) {
        text += " Every " + std::to_string(table.day_step) + "th day and the last were computed.";
    }
    std::string lines = wrapped_text(text, text_width) + "\n";
    const std::string first =
        clock_range_words(answer.hot_on_first.from, answer.hot_on_first.to, answer.zone);
    lines += "Hot hours: " + first;
    const std::string last =
        clock_range_words(answer.hot_on_last.from, answer.hot_on_last.to, answer.zone);
    if (last != first) lines += ", at the end " + last;
    return lines + " (" + answer.zone.name() + ").\n\n";
}

std::string sunless_words(const SunlessSpot& spot) {
    if (!spot.season.first) return "no sun here on any day of the year.";
    return "none on these days; sun from " + date_words(*spot.season.first) + " to " +
           date_words(*spot.season.last) + ".";
}

/// A line for each sunless spot; neighbours with the same dates share one.
std::string closing(const ExposureAnswer& answer) {
    const std::vector<SunlessSpot>& spots = answer.sunless;
    const auto id = [&](std::size_t i) {
        return spot_id(answer, answer.table.receivers[spots[i].receiver]);
    };
    std::string text;
    for (std::size_t first = 0, last = 0; first < spots.size(); first = ++last) {
        const std::string words = sunless_words(spots[first]);
        while (last + 1 < spots.size() && spots[last + 1].receiver == spots[last].receiver + 1 &&
               sunless_words(spots[last + 1]) == words) {
            ++last;
        }
        text += id(first) + (last > first ? " to " + id(last) : "") + ": " + words + "\n";
    }
    return text.empty() ? text : "\n" + text;
}

std::string clock_or_none(const std::optional<UtcSeconds>& instant, const sun::TimeZone& zone) {
    return instant ? clock_words_at(*instant, zone) : "none";
}

// Which columns there is room for.
struct Layout {
    bool names_point = false;
    bool is_range = false;
    bool has_shade = true;        ///< a range leaves it out when ids are long: it is what is left
    bool has_extreme_sun = true;  ///< else the days of least and most sun go without its figure
};

Layout layout_of(const ExposureAnswer& answer) {
    constexpr int widest_id_beside_shade = 4;
    constexpr int widest_id_beside_point = 6;
    Layout layout{.names_point = has_walls(answer),
                  .is_range = answer.table.from != answer.table.to};
    if (!layout.is_range) return layout;
    layout.has_shade = !layout.names_point;
    for (const ReceiverExposure& receiver : answer.table.receivers) {
        if (display_width(spot_id(answer, receiver)) > widest_id_beside_shade) {
            layout.has_shade = false;
        }
        if (layout.names_point &&
            display_width(spot_id(answer, receiver)) > widest_id_beside_point) {
            layout.has_extreme_sun = false;
        }
    }
    return layout;
}

std::vector<TextColumn> columns_of(const Layout& layout) {
    std::vector<TextColumn> columns{{.heading = "Spot"}};
    if (layout.names_point) columns.push_back({.heading = "Point"});
    std::vector<const char*> figures{"Full", "Filtered"};
    if (layout.has_shade) figures.push_back("Shade");
    figures.insert(figures.end(), {"Eff.", "Hot"});
    if (layout.is_range) {
        figures.insert(figures.end(), {"Least on", "Most on"});
    } else {
        figures.insert(figures.end(), {"First", "Last"});
    }
    for (const char* heading : figures) {
        columns.push_back({.heading = heading, .align = Align::right});
    }
    return columns;
}

// "2 h 30 15 Aug"
std::string extreme_words(const exposure::SunMinutes& minutes, Date date, const Layout& layout) {
    if (!layout.has_extreme_sun) return short_date_words(date);
    return duration_words(minutes.effective_min) + " " + short_date_words(date);
}

std::vector<std::string> row_of(const ExposureAnswer& answer, const ReceiverExposure& receiver,
                                const Layout& layout) {
    std::vector<std::string> cells{spot_id(answer, receiver)};
    if (layout.names_point) cells.push_back(point_words(receiver.receiver.kind));
    const exposure::SunMinutes& mean = receiver.mean;
    cells.push_back(duration_words(mean.full_min));
    cells.push_back(duration_words(mean.filtered_min));
    if (layout.has_shade) cells.push_back(duration_words(mean.shade_min));
    cells.push_back(duration_words(mean.effective_min));
    cells.push_back(duration_words(mean.hot_full_min));
    if (layout.is_range) {
        cells.push_back(extreme_words(receiver.least, receiver.least_date, layout));
        cells.push_back(extreme_words(receiver.most, receiver.most_date, layout));
    } else {
        const exposure::DayExposure& day = receiver.days.front();
        cells.push_back(clock_or_none(day.first_sun, answer.zone));
        cells.push_back(clock_or_none(day.last_sun, answer.zone));
    }
    return cells;
}

// Mean minutes of a day by clock hour; a doubled hour adds both.
struct HourMeans {
    std::map<int, double> full_min;
    std::map<int, double> filtered_min;
};

HourMeans hour_means(const ReceiverExposure& receiver) {
    HourMeans means;
    double days = 0.0;
    for (const exposure::DayExposure& day : receiver.days) days += day.represents_days;
    for (const exposure::DayExposure& day : receiver.days) {
        const double weight = day.represents_days / days;
        for (const exposure::HourExposure& hour : day.hours) {
            means.full_min[hour.hour] += weight * hour.minutes.full_min;
            means.filtered_min[hour.hour] += weight * hour.minutes.filtered_min;
        }
    }
    return means;
}

std::string minute_cell(const std::map<int, double>& minutes, int hour) {
    const auto found = minutes.find(hour);
    if (found == minutes.end()) return "";
    const double whole = std::round(found->second);
    return whole < 0.5 ? "·" : fixed_words(whole, 0);
}

bool is_any(const std::map<int, double>& minutes) {
    return std::any_of(minutes.begin(), minutes.end(),
                       [](const auto& hour) { return hour.second >= 0.5; });
}

std::vector<std::string> hour_row(std::vector<std::string> cells, const char* what,
                                  const std::map<int, double>& minutes,
                                  const std::vector<int>& hours) {
    cells.emplace_back(what);
    for (const int hour : hours) cells.push_back(minute_cell(minutes, hour));
    return cells;
}

std::vector<TextColumn> hour_columns(bool names_point, const std::vector<int>& hours) {
    std::vector<TextColumn> columns{{.heading = "Spot"}};
    if (names_point) columns.push_back({.heading = "Point"});
    columns.push_back({.heading = "Sun"});
    for (const int hour : hours) {
        columns.push_back(
            {.heading = clock_words(hour * 3600.0).substr(0, 2), .align = Align::right});
    }
    return columns;
}

std::string hours_block(const ExposureAnswer& answer, const std::vector<HourMeans>& means,
                        const std::vector<int>& hours) {
    const bool names_point = has_walls(answer);
    TextTable table(hour_columns(names_point, hours));
    for (std::size_t i = 0; i < means.size(); ++i) {
        const ReceiverExposure& receiver = answer.table.receivers[i];
        std::vector<std::string> labels{spot_id(answer, receiver)};
        if (names_point) labels.push_back(point_words(receiver.receiver.kind));
        const std::vector<std::string> blank(labels.size());
        table.add_row(hour_row(labels, "full", means[i].full_min, hours));
        if (is_any(means[i].filtered_min)) {
            table.add_row(hour_row(blank, "filtered", means[i].filtered_min, hours));
        }
    }
    return table.text(text_width);
}

// The hours in blocks of equal length that fit beside the widest id; each hour takes four columns.
std::vector<std::vector<int>> hour_blocks(const ExposureAnswer& answer,
                                          const std::vector<int>& hours) {
    constexpr int shortest_id = 4;  // the heading "Spot"
    int id_width = shortest_id;
    for (const ReceiverExposure& receiver : answer.table.receivers) {
        id_width = std::max(id_width, display_width(spot_id(answer, receiver)));
    }
    const int beside_id = has_walls(answer) ? 17 : 10;  // "  Point  filtered"
    const auto most =
        static_cast<std::size_t>(std::max(4, (text_width - id_width - beside_id) / 4));
    const std::size_t count = (hours.size() + most - 1) / most;
    std::vector<std::vector<int>> blocks(count);
    for (std::size_t i = 0; i < hours.size(); ++i) {
        blocks[i * count / hours.size()].push_back(hours[i]);
    }
    return blocks;
}

}  // namespace

std::string receiver_word(ReceiverKind kind) {
    switch (kind) {
        case ReceiverKind::crown:
            return "crown";
        case ReceiverKind::wall_n:
            return "wall_n";
        case ReceiverKind::wall_e:
            return "wall_e";
        case ReceiverKind::wall_s:
            return "wall_s";
        case ReceiverKind::wall_w:
            return "wall_w";
    }
    return {};
}

std::string exposure_text(const ExposureAnswer& answer) {
    const Layout layout = layout_of(answer);
    TextTable table(columns_of(layout));
    for (const ReceiverExposure& receiver : answer.table.receivers) {
        table.add_row(row_of(answer, receiver, layout));
    }
    return opening(answer) + table.text(text_width) +
           "\nEff.: full sun, and filtered sun by the share that gets through.\n"
           "Hot: full sun in the hot hours.\n" +
           closing(answer);
}

std::string exposure_hours_text(const ExposureAnswer& answer) {
    std::vector<HourMeans> means;
    std::map<int, double> seen;
    for (const ReceiverExposure& receiver : answer.table.receivers) {
        means.push_back(hour_means(receiver));
        seen.insert(means.back().full_min.begin(), means.back().full_min.end());
    }
    std::vector<int> hours;
    hours.reserve(seen.size());
    for (const auto& [hour, minutes] : seen) hours.push_back(hour);
    std::string text = opening(answer) + "Minutes of each clock hour (from 05 to 06 under 05).\n";
    for (const std::vector<int>& block : hour_blocks(answer, hours)) {
        text += "\n" + hours_block(answer, means, block);
    }
    if (seen.empty()) text += "The sun does not rise.\n";
    return text + closing(answer);
}

}  // namespace sunfleck::output
