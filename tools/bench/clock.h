#pragma once

#include <functional>
#include <vector>

namespace sunfleck::bench {

/// What some work took.
struct Span {
    double cpu_s = 0.0;  ///< of all threads of this process together
    double wall_s = 0.0;
};

[[nodiscard]] Span measured(const std::function<void()>& work);

/// Middle and ends of repeated figures.
struct Spread {
    double median = 0.0;
    double least = 0.0;
    double most = 0.0;
};

/// Of at least one figure; the median of an even number is the mean of the two in the middle.
[[nodiscard]] Spread spread(std::vector<double> figures);

}  // namespace sunfleck::bench
