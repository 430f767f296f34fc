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
            return "pot north";
        case ReceiverKind::wall_e:
            return "pot east";
        case ReceiverKind::wall_s:
            return "pot south";
        case ReceiverKind::wall_w:
            return "pot west";
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
    if (!answer.season.empty()) text += answer.season + ", ";
    text += table.from == table.to ? date_and_year_words(table.from)
                                   : date_range_words(table.from, table.to) + " " +
                                         std::to_string(year_of(table.to)) + ", mean of the days";
    text += ".";
    if (answer.is_default_day) text += " No date was asked, so this is the summer solstice.";
    if (table.day_step > 1) {
        text += " Every " + std::to_string(table.day_step) + "th day and the last were computed.";
    }
    std::string lines = wrapped_text(text, text_width) + "\n";
    lines += "Hot hours: " +
             clock_range_words(answer.hot_on_first.from, answer.hot_on_first.to, answer.zone);
    const std::string last =
        clock_range_words(answer.hot_on_last.from, answer.hot_on_last.to, answer.zone);
    if (table.from != table.to) lines += ", at the end " + last;
    return lines + " (" + answer.zone.name() + ").\n\n";
}

std::string closing(const ExposureAnswer& answer) {
    std::string text;
    for (const SunlessSpot& spot : answer.sunless) {
        const std::string& id = spot_id(answer, answer.table.receivers[spot.receiver]);
        if (!spot.season.first) {
            text += id + ": no sun here on any day of the year.\n";
        } else {
            text += id + ": none on these days; sun from " + date_words(*spot.season.first) +
                    " to " + date_words(*spot.season.last) + ".\n";
        }
    }
    return text.empty() ? text : "\n" + text;
}

std::string clock_or_none(const std::optional<UtcSeconds>& instant, const sun::TimeZone& zone) {
    return instant ? clock_words_at(*instant, zone) : "none";
}

std::vector<TextColumn> columns_of(const ExposureAnswer& answer) {
    std::vector<TextColumn> columns{{.heading = "Spot"}};
    if (has_walls(answer)) columns.push_back({.heading = "Point"});
    for (const char* heading : {"Full", "Filtered", "Shade", "Effective", "Hot full"}) {
        columns.push_back({.heading = heading, .align = Align::right});
    }
    if (answer.table.from == answer.table.to) {
        columns.push_back({.heading = "First", .align = Align::right});
        columns.push_back({.heading = "Last", .align = Align::right});
    } else {
        columns.push_back({.heading = "Least on", .align = Align::right});
        columns.push_back({.heading = "Most on", .align = Align::right});
    }
    return columns;
}

// "2 h 30 15 Aug"
std::string extreme_words(const exposure::SunMinutes& minutes, Date date) {
    return duration_words(minutes.effective_min) + ", " + short_date_words(date);
}

std::vector<std::string> row_of(const ExposureAnswer& answer, const ReceiverExposure& receiver,
                                bool names_point) {
    std::vector<std::string> cells{spot_id(answer, receiver)};
    if (names_point) cells.push_back(point_words(receiver.receiver.kind));
    const exposure::SunMinutes& mean = receiver.mean;
    for (const double minutes : {mean.full_min, mean.filtered_min, mean.shade_min,
                                 mean.effective_min, mean.hot_full_min}) {
        cells.push_back(duration_words(minutes));
    }
    if (answer.table.from == answer.table.to) {
        const exposure::DayExposure& day = receiver.days.front();
        cells.push_back(clock_or_none(day.first_sun, answer.zone));
        cells.push_back(clock_or_none(day.last_sun, answer.zone));
    } else {
        cells.push_back(extreme_words(receiver.least, receiver.least_date));
        cells.push_back(extreme_words(receiver.most, receiver.most_date));
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

std::vector<std::string> hour_row(std::string spot, std::string what,
                                  const std::map<int, double>& minutes,
                                  const std::vector<int>& hours) {
    std::vector<std::string> cells{std::move(spot), std::move(what)};
    for (const int hour : hours) cells.push_back(minute_cell(minutes, hour));
    return cells;
}

std::string hours_block(const ExposureAnswer& answer, const std::vector<HourMeans>& means,
                        const std::vector<int>& hours) {
    std::vector<TextColumn> columns{{.heading = "Spot"}, {.heading = ""}};
    for (const int hour : hours) {
        columns.push_back(
            {.heading = clock_words(hour * 3600.0).substr(0, 2), .align = Align::right});
    }
    TextTable table(columns);
    const bool names_point = has_walls(answer);
    for (std::size_t i = 0; i < means.size(); ++i) {
        const ReceiverExposure& receiver = answer.table.receivers[i];
        const std::string point = names_point ? point_words(receiver.receiver.kind) + " " : "";
        table.add_row(
            hour_row(spot_id(answer, receiver), point + "full", means[i].full_min, hours));
        if (is_any(means[i].filtered_min)) {
            table.add_row(hour_row("", point + "filtered", means[i].filtered_min, hours));
        }
    }
    return table.text(text_width);
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
    TextTable table(columns_of(answer));
    const bool names_point = has_walls(answer);
    for (const ReceiverExposure& receiver : answer.table.receivers) {
        table.add_row(row_of(answer, receiver, names_point));
    }
    return opening(answer) + table.text(text_width) + closing(answer);
}

std::string exposure_hours_text(const ExposureAnswer& answer) {
    std::vector<HourMeans> means;
    std::map<int, double> seen;
    for (const ReceiverExposure& receiver : answer.table.receivers) {
        means.push_back(hour_means(receiver));
        seen.insert(means.back().full_min.begin(), means.back().full_min.end());
    }
    // Sixteen hours leave room for a spot and its words; a polar day takes two blocks.
    constexpr std::size_t most_hours = 16;
    std::string text = opening(answer) + "Minutes of each clock hour (from 05 to 06 under 05).\n";
    std::vector<int> hours;
    for (const auto& [hour, minutes] : seen) {
        if (hours.size() == most_hours) {
            text += "\n" + hours_block(answer, means, hours);
            hours.clear();
        }
        hours.push_back(hour);
    }
    if (!hours.empty()) text += "\n" + hours_block(answer, means, hours);
    if (seen.empty()) text += "The sun does not rise.\n";
    return text + closing(answer);
}

}  // namespace sunfleck::output
