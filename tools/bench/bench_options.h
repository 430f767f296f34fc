#pragma once

#include "garden_maker.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace sunfleck::bench {

struct BenchOptions {
    std::vector<GardenSize> gardens;  ///< those to race in
    bool only_agreement = false;
    bool skips_proof = false;  ///< for profiling; the report says that nothing was proved
    bool is_json = false;
    std::vector<std::string> only;  ///< parts of the names of those to measure; none: all
    int repeats = 3;
    int year_step = 1;  ///< every n-th day of the year is traced
    std::size_t cgal_spots = 100;
    std::optional<std::size_t> embree_spots;  ///< nothing: all in S and M, 200 in L
    double agreement_rays_m = 20.0;           ///< millions
    std::string simd_target;                  ///< empty: the widest there is
};

/// The options of a command line, or the exit code with which to end at once (help, mistakes).
struct ParsedOptions {
    BenchOptions options;
    std::optional<int> exit_code;
};
[[nodiscard]] ParsedOptions parse_options(int argc, const char* const* argv);

}  // namespace sunfleck::bench
