#pragma once

#include "sunfleck/base/date.h"
#include "sunfleck/exposure/exposure.h"
#include "sunfleck/exposure/sun_arc.h"
#include "sunfleck/output/envelope.h"
#include "sunfleck/scene/spots.h"
#include "sunfleck/sun/civil_time.h"

#include <optional>
#include <string>
#include <vector>

/// What `sunfleck exposure` answers.
namespace sunfleck::output {

/// A spot that had no sun on any asked day, and its sunny part of the year.
struct SunlessSpot {
    std::size_t receiver = 0;  ///< index into the table's receivers
    exposure::SunnySeason season;
};

/// The table and what is said around it.
struct ExposureAnswer {
    std::string garden;              ///< the site's name
    std::vector<scene::Spot> spots;  ///< scene::spots_of, which the table's receivers index
    exposure::ExposureTable table;
    sun::TimeZone zone;
    std::string season;               ///< empty when dates were asked
    bool is_default_day = false;      ///< no date was asked
    exposure::HotHours hot_on_first;  ///< the hot hours of the first date
    exposure::HotHours hot_on_last;
    std::vector<SunlessSpot> sunless;
};

/// Text of at most 80 columns: a row per receiver. One day: its sums, first and last sun. More:
/// means of the days, and the days of least and most sun.
[[nodiscard]] std::string exposure_text(const ExposureAnswer& answer);
/// The same with a column per clock hour: minutes of full sun, and of filtered where there is any.
[[nodiscard]] std::string exposure_hours_text(const ExposureAnswer& answer);
/// One row per receiver and day, or per receiver, day and clock hour. Names as in the JSON.
[[nodiscard]] std::string exposure_csv(const ExposureAnswer& answer, bool by_hour);
/// Stable machine output; minutes are rounded to 1e-6.
[[nodiscard]] std::string exposure_json(const ExposureAnswer& answer, const Envelope& envelope);

/// "crown", "wall_n", ...
[[nodiscard]] std::string receiver_word(exposure::ReceiverKind kind);

}  // namespace sunfleck::output
