#include "sunfleck/scene/meaning.h"

#include "scene/findings.h"

#include <algorithm>
#include <iterator>

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
    Findings of_benches;
    check_benches(scene, of_benches);
    if (spot_estimate(scene) > most_spots) {
        of_benches.error(
            {.code = "too_many_spots",
             .pointer = "/benches",
             .message = "The benches have more than " + std::to_string(most_spots) + " spots.",
             .mend = "Are the lengths in metres, and is spot_pitch_m wide enough?"});
    }
    Problems problems = of_benches.take();
    // Spots of twisted benches mean nothing, so what asks for them waits until these are right.
    const bool has_spots = !has_errors(problems);

    Findings findings;
    check_site(scene, findings);
    check_labels(scene, findings);
    check_shade(scene, findings);
    check_trees(scene, findings);
    check_seasons(scene, findings);
    if (has_spots) {
        const CheckedGarden garden(scene);
        check_room(garden, findings);
        check_places(garden, findings);
        check_pots(garden, findings);
        check_pot_sizes(scene, garden, findings);
    }
    Problems others = findings.take();
    problems.insert(problems.end(), std::make_move_iterator(others.begin()),
                    std::make_move_iterator(others.end()));
    return problems;
}

}  // namespace sunfleck::scene
