#include "rays/light_kernels.h"

#include <hwy/highway.h>
#include <hwy/targets.h>

namespace sunfleck::rays {
namespace {

std::vector<LightKernels> made_kernels() {
    std::vector<LightKernels> made;
    const auto usable = static_cast<std::uint64_t>(hwy::SupportedTargets());
    const auto built = static_cast<std::uint64_t>(HWY_TARGETS);
    // Lower bits stand for better targets.
    for (std::uint64_t rest = usable & built; rest != 0; rest &= rest - 1) {
        const auto target = static_cast<std::int64_t>(rest & (~rest + 1));
        made.push_back({.name = hwy::TargetName(target),
                        .cone = cone_kernels_for(target),
                        .crown = crown_kernels_for(target)});
    }
    return made;
}

}  // namespace

void ConeCrossings::resize(std::size_t padded_days) {
    for (auto* column : {&kind, &from, &to, &second_from, &second_to, &touch_from, &touch_to}) {
        column->assign(padded_days, 0);
    }
    any.assign(padded_days / days_at_once, 0);
}

const std::vector<LightKernels>& all_light_kernels() {
    static const std::vector<LightKernels> made = made_kernels();
    return made;
}

const LightKernels& light_kernels(std::string_view name) {
    const std::vector<LightKernels>& all = all_light_kernels();
    for (const LightKernels& own : all) {
        if (own.name == name) return own;
    }
    return all.front();
}

}  // namespace sunfleck::rays
