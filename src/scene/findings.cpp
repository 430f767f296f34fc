#include "scene/findings.h"

#include "scene/plan_outline.h"
#include "sunfleck/base/nearest_name.h"
#include "sunfleck/scene/pot_defaults.h"

#include <algorithm>
#include <charconv>
#include <limits>

namespace sunfleck::scene {
namespace {

/// "A-12" as "A" and 12.
std::optional<std::pair<std::string_view, int>> parts_of(std::string_view id) {
    const std::size_t dash = id.rfind('-');
    if (dash == std::string_view::npos) return std::nullopt;
    int number = 0;
    const auto [end, error] = std::from_chars(id.data() + dash + 1, id.data() + id.size(), number);
    if (error != std::errc{} || end != id.data() + id.size()) return std::nullopt;
    return std::pair(id.substr(0, dash), number);
}

}  // namespace

void Findings::add(Severity severity, Words words) {
    Problem problem{.kind = ProblemKind::input, .severity = severity};
    problem.code = std::move(words.code);
    problem.pointer = std::move(words.pointer);
    problem.message = std::move(words.message);
    problem.mend = std::move(words.mend);
    problem.nearest = std::move(words.nearest);
    problems_.push_back(std::move(problem));
}

std::string called(const Label& label) {
    if (label.name.empty() || label.name == label.id) return label.id;
    return label.name + " (" + label.id + ")";
}

std::vector<Vec2> cell_outline(const Scene& scene, const PlanFrame& frame, const Spot& spot) {
    const auto holder = static_cast<std::size_t>(spot.holder);
    const Angle bearing = holder < scene.benches.size()
                              ? scene.benches[holder].bearing
                              : scene.post_stands[holder - scene.benches.size()].bearing;
    return rectangle_about(spot.position, frame.plan_direction(bearing), spot.length_m,
                           spot.depth_m);
}

const Label& holder_label(const Scene& scene, const Spot& spot) {
    const auto holder = static_cast<std::size_t>(spot.holder);
    return holder < scene.benches.size() ? scene.benches[holder].label
                                         : scene.post_stands[holder - scene.benches.size()].label;
}

std::string nearest_spot(const std::vector<Spot>& spots, std::string_view id) {
    if (const auto parts = parts_of(id)) {
        const Spot* nearest = nullptr;
        int least = std::numeric_limits<int>::max();
        for (const Spot& spot : spots) {
            if (spot.bench != parts->first) continue;
            const int away = std::abs(spot.number - std::clamp(parts->second, -10000, 100000));
            if (away < least) {
                nearest = &spot;
                least = away;
            }
        }
        if (nearest != nullptr) return nearest->id;
    }
    std::vector<std::string> ids;
    ids.reserve(spots.size());
    for (const Spot& spot : spots) ids.push_back(spot.id);
    return nearest_name(id, ids);
}

CheckedGarden::CheckedGarden(const Scene& given)
    : scene(given), frame(scene), spots(spots_of(scene)) {
    complete_pots(scene);
    for (const Spot& spot : spots) cells.push_back(cell_outline(scene, frame, spot));
}

}  // namespace sunfleck::scene
