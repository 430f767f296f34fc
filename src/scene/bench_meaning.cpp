#include "scene/findings.h"
#include "scene/plan_outline.h"
#include "sunfleck/base/plain_words.h"

#include <algorithm>
#include <cmath>

namespace sunfleck::scene {
namespace {

constexpr double least_area_m2 = 1e-4;
constexpr double touch_m = 0.001;
/// Growers' benches are 75 to 120 cm high; over this nobody waters (common practice, no source).
constexpr double highest_bench_m = 2.0;

/// True when spots can be computed from it.
bool check_outline(const std::vector<Vec2>& outline, const Label& label, Findings& findings) {
    const std::string pointer = label.pointer + "/outline_m";
    if (const auto crossing = self_crossing(outline)) {
        const auto edge = [&outline](std::size_t i) {
            return std::to_string(i + 1) + " to " + std::to_string((i + 1) % outline.size() + 1);
        };
        findings.error({.code = "outline_crosses_itself",
                        .pointer = pointer,
                        .message = "The outline of " + called(label) +
                                   " crosses itself: its sides from corner " +
                                   edge(crossing->first) + " and from " + edge(crossing->second) +
                                   " meet.",
                        .mend = "List the corners in turn, as one walks round."});
        return false;
    }
    if (std::abs(signed_area(outline)) < least_area_m2) {
        findings.error({.code = "outline_without_area",
                        .pointer = pointer,
                        .message = "The outline of " + called(label) + " encloses nothing.",
                        .mend = "Check its corners."});
        return false;
    }
    return true;
}

bool do_overlap(Strip a, Strip b) {
    return a.front_m < b.back_m - touch_m && b.front_m < a.back_m - touch_m;
}

void check_tier_pair(const Bench& bench, std::size_t low, std::size_t high, double room_m,
                     Findings& findings) {
    constexpr double least_headroom_m = 0.10;
    if (room_m >= least_headroom_m) return;
    const std::string pair = "tiers " + std::to_string(low + 1) + " and " +
                             std::to_string(high + 1) + " of " + called(bench.label);
    if (room_m <= 0.0) {
        findings.error({.code = "tiers_inside_each_other",
                        .pointer = bench.label.pointer + "/tiers",
                        .message = "Counted from the lowest, " + pair + " stand in the same place.",
                        .mend = "Set the upper one back by the depth of the lower, or raise it."});
        return;
    }
    findings.warning(
        {.code = "no_headroom",
         .pointer = bench.label.pointer + "/tiers",
         .message = "Between " + pair + " there are only " + length_words(room_m) + ".",
         .mend = "No tree stands there. Set the upper tier back, or raise it."});
}

void check_tiers(const Bench& bench, const BenchFrame& frame, Findings& findings) {
    for (std::size_t low = 0; low < bench.tiers.size(); ++low) {
        const Tier& tier = bench.tiers[low];
        const Strip strip = strip_of(frame, bench, tier);
        if (bench.depth_m > 0.0 && strip.back_m > bench.depth_m + touch_m) {
            findings.error({.code = "tier_past_bench",
                            .pointer = bench.label.pointer + "/tiers",
                            .message = "A tier of " + called(bench.label) + " reaches " +
                                       length_words(strip.back_m) + " back, but the bench is " +
                                       length_words(bench.depth_m) + " deep.",
                            .mend = "depth_m is the depth over all tiers."});
        }
        if (tier.height_m > highest_bench_m) {
            findings.warning({.code = "bench_out_of_reach",
                              .pointer = bench.label.pointer,
                              .message = "A top of " + called(bench.label) + " is " +
                                         length_words(tier.height_m) + " up.",
                              .mend = "Nobody can water there. Is the height right?"});
        }
        for (std::size_t high = low + 1; high < bench.tiers.size(); ++high) {
            if (!do_overlap(strip, strip_of(frame, bench, bench.tiers[high]))) continue;
            const double rise_m = bench.tiers[high].height_m - tier.height_m;
            check_tier_pair(bench, low, high, rise_m - bench.thickness_m, findings);
        }
    }
}

void check_explicit_spots(const Bench& bench, const BenchFrame& frame, Findings& findings) {
    for (std::size_t i = 0; i < bench.explicit_spots.size(); ++i) {
        const ExplicitSpot& spot = bench.explicit_spots[i];
        const std::string pointer = bench.label.pointer + "/spots/" + std::to_string(i);
        const auto tier = static_cast<std::size_t>(spot.tier) - 1;
        if (spot.tier < 1 || tier >= bench.tiers.size()) {
            findings.error(
                {.code = "no_such_tier",
                 .pointer = pointer + "/tier",
                 .message = called(bench.label) + " has no tier " + std::to_string(spot.tier) + ".",
                 .mend = "It has " + count_words(bench.tiers.size(), "tier") +
                         ", counted from 1, the lowest."});
            continue;
        }
        const Strip strip = strip_of(frame, bench, bench.tiers[tier]);
        const bool is_on_strip =
            spot.from_front_m >= strip.front_m && spot.from_front_m <= strip.back_m;
        const Vec2 point = frame.to_plan({spot.along_m, spot.from_front_m});
        if (!is_on_strip || !is_inside(bench.outline, point)) {
            findings.error({.code = "spot_off_bench",
                            .pointer = pointer,
                            .message = "Spot " + std::to_string(i + 1) + " lies off " +
                                       (bench.tiers.size() > 1 ? "its tier of " : "") +
                                       called(bench.label) + ".",
                            .mend = "along_m counts from the first corner, from_front_m from "
                                    "the front edge."});
        }
        for (std::size_t j = 0; j < i; ++j) {
            const ExplicitSpot& other = bench.explicit_spots[j];
            const double apart_m =
                std::hypot(other.along_m - spot.along_m, other.from_front_m - spot.from_front_m);
            constexpr double same_m = 0.02;
            if (other.tier != spot.tier || apart_m > same_m) continue;
            findings.error({.code = "spots_at_one_place",
                            .pointer = pointer,
                            .message = "Spots " + std::to_string(j + 1) + " and " +
                                       std::to_string(i + 1) + " of " + called(bench.label) +
                                       " are at the same place.",
                            .mend = "Move one, or take it out."});
        }
    }
}

}  // namespace

void check_benches(const Scene& scene, Findings& findings) {
    const PlanFrame plan(scene);
    for (const Bench& bench : scene.benches) {
        if (!check_outline(bench.outline, bench.label, findings)) continue;
        const BenchFrame frame(plan, bench);
        check_tiers(bench, frame, findings);
        check_explicit_spots(bench, frame, findings);
    }
    for (const Building& building : scene.buildings) {
        check_outline(building.outline, building.label, findings);
    }
}

}  // namespace sunfleck::scene
