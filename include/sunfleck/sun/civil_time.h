#pragma once

#include "sunfleck/base/date.h"
#include "sunfleck/base/problem.h"
#include "sunfleck/base/units.h"

#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace sunfleck::sun {

/// One clock hour of a civil day. A doubled hour gives two, a skipped one none; where the clock
/// is changed within the hour, the part of it that exists.
struct CivilHour {
    int hour = 0;  ///< 0 to 23, as the clock shows it
    UtcSeconds from;
    UtcSeconds to;
};

/// A clock reading, to the second.
struct ClockTime {
    Date date;
    int seconds_of_day = 0;  ///< 0 to 86399
    int utc_offset_s = 0;    ///< east positive
};

/// A time zone of the IANA database, as the system has it. Cheap to copy; any thread may ask.
///
/// The system's tables end in 2037 for zones that follow a yearly rule. Later dates use the rule
/// of the latest year up to 2037 whose days from 1 March on (for January and February: from 1
/// January on) fall on the same weekdays. Checked against glibc, which reads the rule itself.
class TimeZone {
  public:
    /// The zone "Europe/London"; an unknown name is an error that names the nearest. Never throws.
    [[nodiscard]] static Result<TimeZone> find(std::string_view name);
    /// All names that find() knows, sorted; empty when the machine has no zone database.
    [[nodiscard]] static std::vector<std::string> all_names();

    [[nodiscard]] const std::string& name() const;
    /// What the clock shows at an instant (rounded to the nearest second).
    [[nodiscard]] ClockTime clock(UtcSeconds instant) const;
    /// Clock minus universal time at an instant, seconds, east positive.
    [[nodiscard]] int utc_offset_s(UtcSeconds instant) const;
    /// The instants at which the clock shows this time: one; none in a skipped hour; two, the
    /// earlier first, in a doubled one.
    [[nodiscard]] std::vector<UtcSeconds> instants(Date date, int seconds_of_day) const;
    /// The hours of the civil day, in order of time; none on a date that the zone skipped.
    [[nodiscard]] std::vector<CivilHour> hours(Date date) const;

  private:
    struct Zone;
    explicit TimeZone(std::shared_ptr<const Zone> zone) : zone_(std::move(zone)) {}
    std::shared_ptr<const Zone> zone_;
};

/// "2026-06-21T12:30:00.000Z", rounded to the millisecond.
[[nodiscard]] std::string utc_text(UtcSeconds instant);
/// "2026-06-21T13:30:00.000+01:00".
[[nodiscard]] std::string local_text(UtcSeconds instant, const TimeZone& zone);
/// "13:30", the clock to the nearest minute.
[[nodiscard]] std::string clock_text(UtcSeconds instant, const TimeZone& zone);

}  // namespace sunfleck::sun
