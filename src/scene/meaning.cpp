#include "sunfleck/scene/meaning.h"

#include "scene/findings.h"

#include <algorithm>
#include <cmath>

namespace sunfleck::scene {
namespace {

/// How many spots the scene's benches would have, before they are made.
double spot_estimate(const Scene& scene) {
    double count = 0.0;
    for (const Bench& bench : scene.benches) {
        if (!bench.explicit_spots.empty()) {
            count += static_cast<double>(bench.explicit_spots.size());
            continue;
        }
        for (const Tier& tier : bench.tiers) {
            const double depth_m = tier.depth_m > 0.0 ? tier.depth_m : bench.depth_m;
            const double rows = bench.rows.value_or(
                static_cast<int>(std::clamp(depth_m / bench.spot_pitch_m, 1.0, 1e6)));
            count += rows * std::max(1.0, bench.length_m / bench.spot_pitch_m);
        }
    }
    return count + static_cast<double>(scene.post_stands.size());
}

bool has_errors(const Problems& problems) {
    return std::any_of(problems.begin(), problems.end(),
                       [](const Problem& p) { return p.severity == Severity::error; });
}

}  // namespace

Problems check_meaning(const Scene& scene) {
    Findings findings;
    check_site(scene, findings);
    check_labels(scene, findings);
    check_benches(scene, findings);
    check_shade(scene, findings);
    check_trees(scene, findings);
    check_seasons(scene, findings);
    if (spot_estimate(scene) > most_spots) {
        findings.error(
            {.code = "too_many_spots",
             .pointer = "/benches",
             .message = "The benches have more than " + std::to_string(most_spots) + " spots.",
             .mend = "Are the lengths in metres, and is spot_pitch_m wide enough?"});
    }
    Problems problems = findings.take();
    // Spots of twisted benches mean nothing, so these checks wait until the benches are right.
    if (has_errors(problems)) return problems;
    const CheckedGarden garden(scene);
    Findings more;
    check_room(garden, more);
    check_places(garden, more);
    check_pots(garden, more);
    check_pot_sizes(scene, garden, more);
    for (Problem& problem : more.take()) problems.push_back(std::move(problem));
    return problems;
}

}  // namespace sunfleck::scene
