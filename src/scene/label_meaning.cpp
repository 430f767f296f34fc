#include "scene/findings.h"
#include "sunfleck/base/unicode_text.h"

#include <map>

namespace sunfleck::scene {
namespace {

template <typename Things>
void gather(const Things& things, std::vector<const Label*>& labels) {
    for (const auto& thing : things) labels.push_back(&thing.label);
}

}  // namespace

void check_labels(const Scene& scene, Findings& findings) {
    std::vector<const Label*> labels;
    gather(scene.benches, labels);
    gather(scene.post_stands, labels);
    gather(scene.walls, labels);
    gather(scene.buildings, labels);
    gather(scene.cloths, labels);
    gather(scene.lath_panels, labels);
    gather(scene.trees, labels);
    gather(scene.meshes, labels);
    gather(scene.pots, labels);
    std::map<std::string, const Label*> first;
    for (const Label* label : labels) {
        const auto [found, is_new] = first.emplace(nfc(label->id), label);
        if (is_new) continue;
        findings.error({.code = "id_twice",
                        .pointer = label->pointer + "/id",
                        .message = "The id " + label->id + " is already that of " +
                                   found->second->name + ", at " + found->second->pointer + ".",
                        .mend = "Every thing in a scene needs an id of its own."});
    }
}

}  // namespace sunfleck::scene
