#include "bench_result.h"

#include <algorithm>

namespace sunfleck::bench {
namespace {

bool all_right(const std::vector<Agreement>& agreements) {
    return !agreements.empty() &&
           std::all_of(agreements.begin(), agreements.end(), [](const Agreement& one) {
               return one.wrong == 0 && one.rays > 0 && one.shaded > 0;
           });
}

bool converges(const GardenMeshSteps& meshes) {
    constexpr double least_gain = 2.5;
    for (std::size_t i = 1; i < meshes.steps.size(); ++i) {
        const double gain = meshes.steps[i - 1].mean_off_min / meshes.steps[i].mean_off_min;
        if (!(gain >= least_gain)) return false;
    }
    return meshes.steps.size() > 1;
}

bool are_found_wrong(const std::vector<Agreement>& controls) {
    return !controls.empty() && std::all_of(controls.begin(), controls.end(),
                                            [](const Agreement& one) { return one.wrong > 0; });
}

bool is_right(const DayLight& garden) {
    return garden.wrong == 0 && garden.spots > 0 && garden.mean_min > 0.0;
}

}  // namespace

bool Proof::holds() const {
    return all_right(opaque) && all_right(true_forms) && are_found_wrong(controls) &&
           !meshes.empty() && !day_light.empty() &&
           std::all_of(day_light.begin(), day_light.end(), is_right) &&
           std::all_of(meshes.begin(), meshes.end(), converges);
}

}  // namespace sunfleck::bench
