#pragma once

#include "sunfleck/base/date.h"
#include "sunfleck/base/problem.h"
#include "sunfleck/base/units.h"
#include "sunfleck/scene/scene.h"
#include "sunfleck/scene/spots.h"

#include <cstddef>
#include <functional>
#include <optional>
#include <string>
#include <vector>

namespace sunfleck::exposure {

/// What stands in the light at a spot: the crown, or one of four points of the pot's wall that
/// sees only its own half of space.
enum class ReceiverKind { crown, wall_n, wall_e, wall_s, wall_w };

/// One point whose sun is asked for.
struct ReceiverRequest {
    std::size_t spot = 0;  ///< index into scene::spots_of(scene)
    ReceiverKind kind = ReceiverKind::crown;
    double height_m = 0.20;  ///< above the surface the pot stands on
    bool operator==(const ReceiverRequest&) const = default;
};

/// Time integrals over the part of a day in which the sun is up, in minutes. With f, t, s the
/// shares of the sun's disk that reach the receiver through nothing, only through translucent
/// things, and not at all: full = integral of f, filtered of t, shade of s, effective of f plus
/// t weighted by its transmittance; hot_full and hot_effective = full and effective in the hot
/// hours (solar 11:00 to 16:00).
struct SunMinutes {
    double sun_up_min = 0.0;
    double full_min = 0.0;
    double filtered_min = 0.0;
    double shade_min = 0.0;
    double effective_min = 0.0;
    double hot_full_min = 0.0;
    double hot_effective_min = 0.0;

    /// Adds another's minutes, each times a weight.
    void add(const SunMinutes& other, double weight);
};

/// What most of the disk does over a stretch of time.
enum class SunState { full, filtered, shade };

/// A longest run in one state: full while f >= 0.5, else filtered while f + t >= 0.5, else
/// shade. The spans of a day follow each other without a gap from sunrise to sunset.
struct SunSpan {
    SunState state = SunState::shade;
    UtcSeconds from;
    UtcSeconds to;
    double transmittance = 0.0;  ///< mean of the light let through: 1 in full, 0 in shade
};

/// One civil clock hour.
struct HourExposure {
    int hour = 0;
    UtcSeconds from;
    SunMinutes minutes;
};

struct DayExposure {
    Date date;
    SunMinutes total;
    std::optional<UtcSeconds> first_sun;  ///< start of the first full span, to 1 s
    std::optional<UtcSeconds> last_sun;   ///< end of the last
    std::vector<HourExposure> hours;      ///< hours of the civil day in which the sun is up
    std::vector<SunSpan> spans;
    /// Days of the range that this one stands for in the mean: those between two computed days
    /// are taken on the straight line between them. All add up to the days of the range.
    double represents_days = 1.0;
};

struct ReceiverExposure {
    ReceiverRequest receiver;
    Vec2 position;     ///< in the plan
    double z_m = 0.0;  ///< of the receiver
    SunMinutes mean;   ///< of all days of the range, see DayExposure::represents_days
    SunMinutes least;  ///< of the day with the least effective sun, the earliest of equals
    Date least_date;
    SunMinutes most;
    Date most_date;
    std::vector<DayExposure> days;  ///< ascending
};

struct ExposureTable {
    Date from;
    Date to;
    int day_step = 1;
    std::vector<ReceiverExposure> receivers;  ///< in the order asked
};

/// Called now and then with the share done, 0 to 1; returning false stops the work.
using Progress = std::function<bool(double)>;

struct ExposureRequest {
    Date from;
    Date to;
    int day_step = 1;  ///< every so many days; the last day is always computed
    std::vector<ReceiverRequest> receivers;
    int thread_count = 0;  ///< 0: all cores; the result does not depend on it
    Progress progress;
};

/// Days from one computed day to the next over a range: every day of up to ten, every fifth of a
/// longer one.
[[nodiscard]] int usual_day_step(Date from, Date to);

/// The sun of every receiver on every day asked. Fails when a mesh cannot be read, the zone is
/// unknown, or the work was stopped (code "interrupted").
[[nodiscard]] Result<ExposureTable> compute_exposure(const scene::Scene& scene,
                                                     const ExposureRequest& request);

/// First and last day of the year on which a receiver gets any full or filtered sun.
struct SunnySeason {
    std::optional<Date> first;  ///< nothing: no sun here on any day
    std::optional<Date> last;
};
[[nodiscard]] Result<std::vector<SunnySeason>> sunny_seasons(
    const scene::Scene& scene, const std::vector<ReceiverRequest>& receivers, int year,
    int thread_count = 0);

/// Heights of the crown ladder above the bench top, metres.
[[nodiscard]] const std::vector<double>& crown_ladder_m();
/// The receiver height of a pot at a spot: the pot's own, the spot's own, else the rung nearest
/// pot height + half the crown height (the lower of equals).
[[nodiscard]] double crown_receiver_height_m(const scene::Pot& pot, const scene::Spot& spot);
/// The height used for a bare spot: its own, else 0.20.
[[nodiscard]] double bare_receiver_height_m(const scene::Spot& spot);

}  // namespace sunfleck::exposure
