#pragma once

#include "cli/command_line.h"
#include "sunfleck/base/problem.h"
#include "sunfleck/base/units.h"
#include "sunfleck/sun/civil_time.h"

#include <iosfwd>
#include <vector>

namespace sunfleck::cli {

/// The instants of the sun command, in the order asked.
struct AskedInstants {
    std::vector<UtcSeconds> instants;
    Problems warnings;
    bool is_stream = false;  ///< they came as CSV
};

/// Those of `--at`, by the zone's clock where a text says nothing else ("13:30" on --date); or,
/// for "-", those of the `utc` column of the CSV that `in` holds, where a bare time is universal.
/// Each bad text is one problem, in a CSV with its line; from the 20th on they are only counted.
/// At least one instant comes back.
[[nodiscard]] Result<AskedInstants> instants_asked(const SunArguments& arguments,
                                                   const sun::TimeZone& zone, std::istream& in);

}  // namespace sunfleck::cli
