#include "clock.h"

#include "sunfleck/base/require.h"

#include <time.h>

#include <algorithm>

namespace sunfleck::bench {
namespace {

double seconds_of(clockid_t clock) {
    timespec now{};
    SUNFLECK_REQUIRE(clock_gettime(clock, &now) == 0, "the clock cannot be read");
    return static_cast<double>(now.tv_sec) + 1e-9 * static_cast<double>(now.tv_nsec);
}

}  // namespace

Span measured(const std::function<void()>& work) {
    const double cpu_s = seconds_of(CLOCK_PROCESS_CPUTIME_ID);
    const double wall_s = seconds_of(CLOCK_MONOTONIC);
    work();
    return {.cpu_s = seconds_of(CLOCK_PROCESS_CPUTIME_ID) - cpu_s,
            .wall_s = seconds_of(CLOCK_MONOTONIC) - wall_s};
}

Spread spread(std::vector<double> figures) {
    SUNFLECK_REQUIRE(!figures.empty(), "no figures to take the middle of");
    std::sort(figures.begin(), figures.end());
    const std::size_t half = figures.size() / 2;
    const double median =
        figures.size() % 2 == 1 ? figures[half] : 0.5 * (figures[half - 1] + figures[half]);
    return {.median = median, .least = figures.front(), .most = figures.back()};
}

}  // namespace sunfleck::bench
