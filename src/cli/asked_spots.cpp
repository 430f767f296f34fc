#include "cli/asked_spots.h"

#include "sunfleck/base/nearest_name.h"
#include "sunfleck/base/unicode_text.h"

#include <algorithm>

namespace sunfleck::cli {
namespace {

// `id` in the normal form that scenes keep.
bool is_named(const scene::Spot& spot, const std::string& id) {
    return spot.id == id || spot.bench == id;
}

tl::unexpected<Problems> unknown_spot(const std::vector<scene::Spot>& spots,
                                      const std::string& id) {
    std::vector<std::string> known;
    for (const scene::Spot& spot : spots) {
        known.push_back(spot.id);
        if (std::find(known.begin(), known.end(), spot.bench) == known.end()) {
            known.push_back(spot.bench);
        }
    }
    Problem problem{.kind = ProblemKind::usage,
                    .code = "unknown_spot",
                    .message = "There is no spot or bench '" + id + "' in this garden.",
                    .mend = "Spots are named like " + spots.front().id + ".",
                    .nearest = nearest_name(id, known)};
    if (!problem.nearest.empty()) problem.mend = "Did you mean " + problem.nearest + "?";
    return failure(std::move(problem));
}

}  // namespace

Result<std::vector<std::size_t>> spots_asked(const scene::Scene& scene,
                                             const std::vector<scene::Spot>& spots,
                                             const std::vector<std::string>& ids) {
    if (spots.empty()) {
        return failure({.kind = ProblemKind::no_answer,
                        .code = "no_spots",
                        .file = scene.file,
                        .message = "The garden has no bench yet, so no spot to watch.",
                        .mend = "Add a bench or a post stand to the scene."});
    }
    std::vector<bool> is_chosen(spots.size(), ids.empty());
    for (const std::string& typed : ids) {
        const std::string id = nfc(typed);
        bool is_known = false;
        for (std::size_t i = 0; i < spots.size(); ++i) {
            if (!is_named(spots[i], id)) continue;
            is_chosen[i] = true;
            is_known = true;
        }
        if (!is_known) return unknown_spot(spots, id);
    }
    std::vector<std::size_t> chosen;
    for (std::size_t i = 0; i < spots.size(); ++i) {
        if (is_chosen[i]) chosen.push_back(i);
    }
    return chosen;
}

}  // namespace sunfleck::cli
