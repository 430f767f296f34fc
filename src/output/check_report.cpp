#include "sunfleck/output/check_report.h"

#include "output/json_envelope.h"
#include "sunfleck/output/text_table.h"
#include "sunfleck/scene/spots.h"

#include <string>
#include <utility>
#include <vector>

namespace sunfleck::output {
namespace {

/// How many of something a scene holds: the key in JSON, and the words for one and for more.
struct ThingCount {
    const char* key = "";
    std::string one;
    std::string more;
    std::size_t count = 0;
};

std::size_t fence_count(const scene::Scene& scene) {
    std::size_t count = 0;
    for (const scene::Wall& wall : scene.walls) {
        count += wall.label.pointer.starts_with("/fences/") ? 1U : 0U;
    }
    return count;
}

/// Pots with each of a batch counted.
std::size_t pot_count(const scene::Scene& scene) {
    std::size_t count = 0;
    for (const scene::Pot& pot : scene.pots) count += static_cast<std::size_t>(pot.count);
    return count;
}

std::vector<ThingCount> counts_of(const scene::Scene& scene) {
    const std::size_t fences = fence_count(scene);
    return {{"benches", "bench", "benches", scene.benches.size()},
            {"post_stands", "post stand", "post stands", scene.post_stands.size()},
            {"spots", "spot", "spots", scene::spots_of(scene).size()},
            {"pots", "pot", "pots", pot_count(scene)},
            {"walls", "wall", "walls", scene.walls.size() - fences},
            {"fences", "fence", "fences", fences},
            {"buildings", "building", "buildings", scene.buildings.size()},
            {"cloths", "net", "nets", scene.cloths.size()},
            {"lath_panels", "lath panel", "lath panels", scene.lath_panels.size()},
            {"trees", "tree", "trees", scene.trees.size()},
            {"meshes", "mesh", "meshes", scene.meshes.size()}};
}

std::string counted(std::size_t count, const std::string& one, const std::string& more) {
    return std::to_string(count) + ' ' + (count == 1 ? one : more);
}

/// "4 benches, 37 spots, 12 pots and 1 net": what there is.
std::string counts_in_words(const std::vector<ThingCount>& counts) {
    std::vector<std::string> parts;
    for (const ThingCount& thing : counts) {
        if (thing.count > 0) parts.push_back(counted(thing.count, thing.one, thing.more));
    }
    if (parts.empty()) return "nothing yet";
    std::string words = parts.front();
    for (std::size_t i = 1; i < parts.size(); ++i) {
        words += (i + 1 == parts.size() ? " and " : ", ") + parts[i];
    }
    return words;
}

/// Errors and warnings apart.
std::pair<Problems, Problems> parted(const Problems& problems) {
    std::pair<Problems, Problems> parts;
    for (const Problem& problem : problems) {
        (problem.severity == Severity::error ? parts.first : parts.second).push_back(problem);
    }
    return parts;
}

Json answer(const std::string& file, const scene::Scene* scene, const Problems& errors,
            const Problems& warnings) {
    Envelope envelope{.command = "check", .scene_file = file, .warnings = warnings};
    Json counts = nullptr;
    if (scene != nullptr) {
        envelope.scene_name = scene->site.name;
        envelope.year = scene::year_for(*scene, std::nullopt);
        envelope.time_zone = scene->site.time_zone;
        counts = Json::object();
        for (const ThingCount& thing : counts_of(*scene)) counts[thing.key] = thing.count;
    }
    Json json = result_envelope(envelope);
    json["valid"] = errors.empty();
    json["errors"] = errors_json(errors);
    json["counts"] = std::move(counts);
    return json;
}

}  // namespace

std::string problem_text(const Problem& problem) {
    constexpr int columns = 80;
    constexpr int indent = 4;
    std::string place = problem.file;
    if (problem.line > 0) {
        place += ':' + std::to_string(problem.line) + ':' + std::to_string(problem.column);
    }
    if (!place.empty() && problem.severity == Severity::warning) place += ": warning";
    if (!problem.pointer.empty()) place += (place.empty() ? "" : ": ") + problem.pointer;
    std::string words = problem.message;
    if (!problem.mend.empty()) words += ' ' + problem.mend;
    if (place.empty()) return wrapped_text(words, columns) + '\n';
    return place + '\n' + std::string(indent, ' ') + wrapped_text(words, columns, indent) + '\n';
}

std::string sound_scene_text(const scene::SceneFile& file) {
    std::string text;
    for (const Problem& warning : file.warnings()) text += problem_text(warning);
    std::string words = file.scene().site.name + " is sound: ";
    words += counts_in_words(counts_of(file.scene())) + '.';
    if (!file.warnings().empty()) {
        words +=
            ' ' + counted(file.warnings().size(), "thing deserves", "things deserve") + " a look.";
    }
    return text + wrapped_text(words) + '\n';
}

std::string wrong_scene_text(const Problems& problems) {
    const auto [errors, warnings] = parted(problems);
    std::string text;
    for (const Problem& problem : problems) text += problem_text(problem);
    text += counted(errors.size(), "error", "errors");
    if (!warnings.empty()) text += ", " + counted(warnings.size(), "warning", "warnings");
    return text + ".\n";
}

std::string sound_scene_json(const scene::SceneFile& file) {
    return json_text(answer(file.scene().file, &file.scene(), {}, file.warnings()));
}

std::string wrong_scene_json(const std::string& file, const Problems& problems) {
    const auto [errors, warnings] = parted(problems);
    return json_text(answer(file, nullptr, errors, warnings));
}

}  // namespace sunfleck::output
