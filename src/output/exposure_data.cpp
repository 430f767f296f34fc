// Exposure for machines: JSON and CSV with the same names.
#include "output/json_envelope.h"
#include "sunfleck/base/plain_words.h"
#include "sunfleck/output/exposure_report.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>
#include <string_view>
#include <utility>

namespace sunfleck::output {
namespace {

using exposure::DayExposure;
using exposure::HourExposure;
using exposure::ReceiverExposure;
using exposure::SunMinutes;

struct NamedMinutes {
    const char* name;
    double SunMinutes::*value;
};
constexpr std::array<NamedMinutes, 7> minute_names{{
    {"sun_up_min", &SunMinutes::sun_up_min},
    {"full_min", &SunMinutes::full_min},
    {"filtered_min", &SunMinutes::filtered_min},
    {"shade_min", &SunMinutes::shade_min},
    {"effective_min", &SunMinutes::effective_min},
    {"hot_full_min", &SunMinutes::hot_full_min},
    {"hot_effective_min", &SunMinutes::hot_effective_min},
}};

// To 1e-6: beyond what any machine's libm can change. Adding zero turns -0 into 0.
double rounded(double value) {
    return std::round(value * 1e6) / 1e6 + 0.0;
}

void add_minutes(Json& json, const SunMinutes& minutes) {
    for (const NamedMinutes& named : minute_names) {
        json[named.name] = rounded(minutes.*named.value);
    }
}

std::string hour_word(int hour) {
    return clock_words(hour * 3600.0);
}

Json hours_json(const DayExposure& day) {
    Json hours = Json::array();
    for (const HourExposure& hour : day.hours) {
        Json one{{"hour", hour_word(hour.hour)}, {"hour_start_utc", sun::utc_text(hour.from)}};
        add_minutes(one, hour.minutes);
        hours.push_back(std::move(one));
    }
    return hours;
}

Json spells_json(const DayExposure& day) {
    Json spells = Json::array();
    for (const exposure::SunSpan& span : day.spans) {
        if (span.state == exposure::SunState::shade) continue;
        const bool is_full = span.state == exposure::SunState::full;
        spells.push_back(Json{{"kind", is_full ? "full" : "filtered"},
                              {"from_utc", sun::utc_text(span.from)},
                              {"to_utc", sun::utc_text(span.to)},
                              {"transmittance", rounded(span.transmittance)}});
    }
    return spells;
}

Json day_json(const DayExposure& day) {
    Json json{{"date", iso_date(day.date)}};
    add_minutes(json, day.total);
    json["first_sun_utc"] = utc_or_null(day.first_sun);
    json["last_sun_utc"] = utc_or_null(day.last_sun);
    json["represents_days"] = rounded(day.represents_days);
    json["hours"] = hours_json(day);
    json["spells"] = spells_json(day);
    return json;
}

Json dated_json(const SunMinutes& minutes, Date date) {
    Json json{{"date", iso_date(date)}};
    add_minutes(json, minutes);
    return json;
}

Json sunny_season_json(const ExposureAnswer& answer, std::size_t receiver) {
    const auto found =
        std::find_if(answer.sunless.begin(), answer.sunless.end(),
                     [&](const SunlessSpot& spot) { return spot.receiver == receiver; });
    if (found == answer.sunless.end()) return nullptr;
    const auto date_or_null = [](const std::optional<Date>& date) {
        return date ? Json(iso_date(*date)) : Json(nullptr);
    };
    return Json{{"first", date_or_null(found->season.first)},
                {"last", date_or_null(found->season.last)}};
}

Json receiver_json(const ExposureAnswer& answer, std::size_t index) {
    const ReceiverExposure& receiver = answer.table.receivers[index];
    const scene::Spot& spot = answer.spots[receiver.receiver.spot];
    Json json{{"spot", spot.id},
              {"bench", spot.bench},
              {"tier", spot.tier},
              {"x_m", rounded(receiver.position.x)},
              {"y_m", rounded(receiver.position.y)},
              {"z_m", rounded(receiver.z_m)},
              {"receiver", receiver_word(receiver.receiver.kind)},
              {"receiver_height_m", rounded(receiver.receiver.height_m)}};
    json["mean"] = Json::object();
    add_minutes(json["mean"], receiver.mean);
    json["least"] = dated_json(receiver.least, receiver.least_date);
    json["most"] = dated_json(receiver.most, receiver.most_date);
    json["sunny_season"] = sunny_season_json(answer, index);
    json["days"] = Json::array();
    for (const DayExposure& day : receiver.days) json["days"].push_back(day_json(day));
    return json;
}

std::string number_text(double value) {
    std::array<char, 32> digits{};
    const auto end = std::to_chars(digits.data(), digits.data() + digits.size(), rounded(value));
    return {digits.data(), end.ptr};
}

// A cell of CSV by RFC 4180.
std::string csv_cell(std::string_view text) {
    if (text.find_first_of(",\"\r\n") == std::string_view::npos) return std::string(text);
    std::string quoted = "\"";
    for (const char c : text) {
        if (c == '"') quoted += '"';
        quoted += c;
    }
    return quoted + "\"";
}

std::string csv_minutes(const SunMinutes& minutes) {
    std::string text;
    for (const NamedMinutes& named : minute_names) text += "," + number_text(minutes.*named.value);
    return text;
}

std::string csv_heading(bool by_hour) {
    std::string text = "spot,bench,tier,x_m,y_m,z_m,receiver,receiver_height_m,date";
    if (by_hour) text += ",hour,hour_start_utc";
    for (const NamedMinutes& named : minute_names) text += std::string(",") + named.name;
    if (!by_hour) text += ",first_sun_utc,last_sun_utc";
    return text + "\n";
}

std::string csv_lead(const ExposureAnswer& answer, const ReceiverExposure& receiver) {
    const scene::Spot& spot = answer.spots[receiver.receiver.spot];
    return csv_cell(spot.id) + "," + csv_cell(spot.bench) + "," + std::to_string(spot.tier) + "," +
           number_text(receiver.position.x) + "," + number_text(receiver.position.y) + "," +
           number_text(receiver.z_m) + "," + receiver_word(receiver.receiver.kind) + "," +
           number_text(receiver.receiver.height_m);
}

std::string csv_of_day(const std::string& lead, const DayExposure& day, bool by_hour) {
    const std::string dated = lead + "," + iso_date(day.date);
    const auto instant = [](const std::optional<UtcSeconds>& at) {
        return at ? sun::utc_text(*at) : std::string();
    };
    if (!by_hour) {
        return dated + csv_minutes(day.total) + "," + instant(day.first_sun) + "," +
               instant(day.last_sun) + "\n";
    }
    std::string rows;
    for (const HourExposure& hour : day.hours) {
        rows += dated + "," + hour_word(hour.hour) + "," + sun::utc_text(hour.from) +
                csv_minutes(hour.minutes) + "\n";
    }
    return rows;
}

}  // namespace

std::string exposure_json(const ExposureAnswer& answer, const Envelope& envelope) {
    Json json = result_envelope(envelope);
    json["from"] = iso_date(answer.table.from);
    json["to"] = iso_date(answer.table.to);
    json["day_step"] = answer.table.day_step;
    json["season"] = or_null(std::string_view(answer.season));
    json["spots"] = Json::array();
    for (std::size_t i = 0; i < answer.table.receivers.size(); ++i) {
        json["spots"].push_back(receiver_json(answer, i));
    }
    return json_text(json);
}

std::string exposure_csv(const ExposureAnswer& answer, bool by_hour) {
    std::string text = csv_heading(by_hour);
    for (const ReceiverExposure& receiver : answer.table.receivers) {
        const std::string lead = csv_lead(answer, receiver);
        for (const DayExposure& day : receiver.days) text += csv_of_day(lead, day, by_hour);
    }
    return text;
}

}  // namespace sunfleck::output
