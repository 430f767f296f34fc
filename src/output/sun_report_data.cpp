#include "output/json_envelope.h"
#include "output/sun_fields.h"
#include "sunfleck/base/csv.h"
#include "sunfleck/base/json_text.h"
#include "sunfleck/output/sun_report.h"

namespace sunfleck::output {
namespace {

void add_fields(Json& object, const std::vector<SunField>& fields) {
    for (const SunField& field : fields) {
        object[field.name] = field.number ? Json(*field.number) : or_null(field.text);
    }
}

Json instants_array(const std::vector<SunInstant>& instants, const sun::TimeZone& zone) {
    Json array = Json::array();
    for (const SunInstant& instant : instants) {
        Json object;
        add_fields(object, instant_fields(instant, zone));
        array.push_back(std::move(object));
    }
    return array;
}

Json head(const Envelope& envelope, const SunPlace& place) {
    Json json = result_envelope(envelope);
    json["latitude_deg"] = place.place.latitude.in_degrees();
    json["longitude_deg"] = place.place.longitude.in_degrees();
    json["elevation_m"] = place.place.elevation_m;
    json["pressure_hpa"] = place.air.pressure_hpa;
    json["temperature_c"] = place.air.temperature_c;
    return json;
}

/// A CSV in the making; the first row's names are its header.
class CsvRows {
  public:
    void add(const std::vector<SunField>& fields) {
        if (text_.empty()) text_ = line(fields, [](const SunField& f) { return f.name; });
        text_ += line(fields, [](const SunField& f) {
            return f.number ? json_number(*f.number) : f.text.value_or("");
        });
    }
    [[nodiscard]] const std::string& text() const { return text_; }

  private:
    template <typename CellOf>
    static std::string line(const std::vector<SunField>& fields, CellOf cell_of) {
        std::vector<std::string> cells;
        cells.reserve(fields.size());
        for (const SunField& field : fields) cells.emplace_back(cell_of(field));
        return csv_line(cells, ',') + '\n';
    }
    std::string text_;
};

}  // namespace

std::string sun_dates_json(const Envelope& envelope, const SunPlace& place,
                           const std::vector<SunDate>& dates) {
    Json json = head(envelope, place);
    json["days"] = Json::array();
    for (const SunDate& date : dates) {
        Json object;
        add_fields(object, day_fields(date, place.zone));
        object["hours"] = instants_array(date.hours, place.zone);
        json["days"].push_back(std::move(object));
    }
    return json_text(json);
}

std::string sun_instants_json(const Envelope& envelope, const SunPlace& place,
                              const std::vector<SunInstant>& instants) {
    Json json = head(envelope, place);
    json["instants"] = instants_array(instants, place.zone);
    return json_text(json);
}

std::string sun_dates_csv(const SunPlace& place, const std::vector<SunDate>& dates) {
    CsvRows rows;
    for (const SunDate& date : dates) {
        const std::vector<SunField> day = day_fields(date, place.zone);
        for (const SunInstant& hour : date.hours) {
            std::vector<SunField> row = day;
            for (SunField& field : instant_fields(hour, place.zone)) row.push_back(field);
            rows.add(row);
        }
    }
    return rows.text();
}

std::string sun_instants_csv(const SunPlace& place, const std::vector<SunInstant>& instants) {
    CsvRows rows;
    for (const SunInstant& instant : instants) rows.add(instant_fields(instant, place.zone));
    return rows.text();
}

}  // namespace sunfleck::output
