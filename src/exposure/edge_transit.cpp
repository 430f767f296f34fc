#include "exposure/edge_transit.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <utility>

// On a day's circle of declination dot(n, d) = A cos(h - p) + B in the hour angle h: between two
// instants less than half a turn apart at which it changes the same way it never turns back. The
// change must be swifter than what refraction's slope and the declination's drift can reverse.

namespace sunfleck::exposure {
namespace {

// The sun runs through 7.3e-5 radians a second on the equator.
constexpr double slowest_rad_s = 1.5e-5;
constexpr double slope_step_s = 1.0;
constexpr double instant_s = 1e-3;

// Height of the sun's middle over the edge, as a sine, along the arc.
class EdgeHeight {
  public:
    EdgeHeight(const SunArc& arc, Vec3 outward, UtcSeconds from)
        : arc_(&arc), outward_(outward), from_(from) {}
    [[nodiscard]] double at(double after_s) const {
        return dot(outward_, arc_->direction(from_.plus_seconds(after_s)));
    }
    [[nodiscard]] double slope(double one_s, double other_s) const {
        return (at(other_s) - at(one_s)) / (other_s - one_s);
    }

  private:
    const SunArc* arc_;
    Vec3 outward_;
    UtcSeconds from_;
};

// Seconds at which the height passes `level`, between two with values on both sides of it:
// regula falsi, halving the weight of an end that stays (the Illinois rule).
double when_at(const EdgeHeight& height, double level, double low_s, double high_s) {
    double low = height.at(low_s) - level;
    double high = height.at(high_s) - level;
    int kept = 0;
    for (int i = 0; i < 60 && high_s - low_s > instant_s; ++i) {
        const double middle_s =
            std::clamp((low_s * high - high_s * low) / (high - low), low_s, high_s);
        const double middle = height.at(middle_s) - level;
        if (std::abs(middle) < slowest_rad_s * instant_s) return middle_s;
        if ((middle < 0.0) == (low < 0.0)) {
            low_s = middle_s;
            low = middle;
            if (kept == -1) high *= 0.5;
            kept = -1;
        } else {
            high_s = middle_s;
            high = middle;
            if (kept == 1) low *= 0.5;
            kept = 1;
        }
    }
    return 0.5 * (low_s + high_s);
}

// Gauss's five points; the share's ends are smooth enough for 1e-4 of a transit (tested).
double mean_beyond(const EdgeHeight& height, double radius_rad, double from_s, double to_s) {
    constexpr std::array<std::pair<double, double>, 3> rule{
        {{0.0, 0.2844444444444444},
         {0.2692346550528415, 0.2393143352496832},
         {0.4530899229693320, 0.1184634425280945}}};
    const double middle_s = 0.5 * (from_s + to_s);
    const auto share = [&](double after_s) {
        return share_beyond_edge(std::asin(std::clamp(height.at(after_s), -1.0, 1.0)) / radius_rad);
    };
    const double midway = share(middle_s);
    if (midway >= 1.0 || midway <= 0.0) return midway;  // parts are cut where the disk touches
    double sum = rule[0].second * midway;
    for (std::size_t i = 1; i < rule.size(); ++i) {
        const double off_s = rule[i].first * (to_s - from_s);
        sum += rule[i].second * (share(middle_s - off_s) + share(middle_s + off_s));
    }
    return sum;
}

}  // namespace

double share_beyond_edge(double offset) {
    if (offset >= 1.0) return 1.0;
    if (offset <= -1.0) return 0.0;
    return 1.0 - (std::acos(offset) - offset * std::sqrt(1.0 - offset * offset)) / std::numbers::pi;
}

bool add_edge_transit(const SunArc& arc, Vec3 outward, UtcSeconds from, UtcSeconds to,
                      std::vector<TransitPart>& parts) {
    const double seconds = to.seconds_after(from);
    const EdgeHeight height(arc, outward, from);
    const double step_s = std::min(slope_step_s, 0.25 * seconds);
    const double first_slope = height.slope(0.0, step_s);
    const double last_slope = height.slope(seconds - step_s, seconds);
    if (!(std::min(std::abs(first_slope), std::abs(last_slope)) > slowest_rad_s)) return false;
    if ((first_slope > 0.0) != (last_slope > 0.0)) return false;

    const double radius_rad = std::max(arc.disk_radius().in_radians(), 1e-9);
    const double first = height.at(0.0);
    const double last = height.at(seconds);
    const double turn = first_slope > 0.0 ? 1.0 : -1.0;
    double part_from_s = 0.0;
    UtcSeconds part_from = from;
    const auto add_part = [&](double to_s, UtcSeconds part_to) {
        if (!(part_to > part_from)) return;
        parts.push_back({.from = part_from,
                         .to = part_to,
                         .outside = mean_beyond(height, radius_rad, part_from_s, to_s)});
        part_from_s = to_s;
        part_from = part_to;
    };
    for (const double offset : {-turn, 0.0, turn}) {
        const double level = std::sin(offset * radius_rad);
        if (!((level - first) * turn > 0.0 && (last - level) * turn > 0.0)) continue;
        const double at_s = when_at(height, level, part_from_s, seconds);
        add_part(at_s, from.plus_seconds(at_s));
    }
    add_part(seconds, to);
    return true;
}

}  // namespace sunfleck::exposure
