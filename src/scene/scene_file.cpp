#include "sunfleck/scene/scene_file.h"

#include "scene/scene_keys.h"
#include "scene/shape_check.h"
#include "sunfleck/base/json_edit.h"
#include "sunfleck/base/json_text.h"
#include "sunfleck/base/json_tree.h"
#include "sunfleck/base/require.h"
#include "sunfleck/base/text_file.h"
#include "sunfleck/scene/meaning.h"
#include "sunfleck/scene/pot_defaults.h"
#include "sunfleck/scene/pots_csv.h"
#include "sunfleck/scene/seasons.h"

#include <algorithm>
#include <iterator>
#include <optional>
#include <utility>

namespace sunfleck::scene {

struct SceneText {
    JsonTree tree;
    std::optional<PotsCsv> pots_csv;  ///< where the pots came from, when not from the tree
};

namespace {

constexpr const char* format_name = "sunfleck-scene";

Problem problem_at(const JsonTree& tree, std::string pointer, std::string code, std::string message,
                   std::string mend) {
    Problem problem{.code = std::move(code),
                    .pointer = std::move(pointer),
                    .message = std::move(message),
                    .mend = std::move(mend)};
    tree.locate(problem);
    return problem;
}

/// What makes all else pointless: a file that is no scene, or one from a newer program.
std::optional<Problem> refusal(const JsonTree& tree) {
    const JsonNode& root = tree.root();
    if (root.kind != JsonKind::object) {
        return problem_at(tree, "", "not_a_scene", "This is not a scene.",
                          "A scene begins with { and its \"format\".");
    }
    const JsonNode* format = root.find("format");
    if (format != nullptr && format->text != format_name) {
        return problem_at(tree, "/format", "not_a_scene", "This is not a scene by its format.",
                          std::string("A scene has \"format\": \"") + format_name + "\".");
    }
    const JsonNode* version = root.find("version");
    if (version != nullptr && version->kind == JsonKind::number &&
        version->number > newest_scene_version) {
        return problem_at(tree, "/version", "newer_version",
                          "This scene was written by a newer program: its version is " +
                              version->text + ", and this program reads up to " +
                              std::to_string(newest_scene_version) + ".",
                          "Take a newer Sunfleck.");
    }
    return std::nullopt;
}

std::string name_from_file(const std::string& file) {
    const std::string stem = std::filesystem::path(file).stem().string();
    return stem.empty() ? "Garden" : stem;
}

/// Reads site and ground first: where things stand and point depends on them.
Scene read_tree(const JsonTree& tree, const ShapeFindings& findings, Problems& problems) {
    Reading reading{.tree = &tree, .sound = &findings.sound, .problems = &problems};
    const JsonNode& root = tree.root();
    Scene base;
    Problems told_again;  // the whole scene is read once more below
    Reading first = reading;
    first.problems = &told_again;
    if (const JsonNode* site = root.find("site")) {
        base.site = site_keys().read({site, "/site"}, first);
    }
    first.plan_up_bearing = reading.plan_up_bearing = base.site.plan_up_bearing;
    first.magnetic_declination = reading.magnetic_declination = base.site.magnetic_declination;
    if (const JsonNode* ground = root.find("ground")) {
        base.ground = ground_keys().read({ground, "/ground"}, first);
    }
    const PlanFrame frame(base);
    reading.frame = &frame;
    Scene scene = scene_keys().read({&root, ""}, reading);
    scene.file = tree.file();
    if (scene.site.name.empty()) scene.site.name = name_from_file(tree.file());
    return scene;
}

std::size_t item_count(const JsonNode& root, const char* key) {
    const JsonNode* list = root.find(key);
    return list == nullptr ? 0 : list->children.size();
}

/// What the scene says that cannot be so, with its places. Of a scene in which something was wrong
/// already, and left out, only what stands by itself: pots are not asked about benches that could
/// not be read, nor anything about a site that could not.
Problems meaning_problems(const Scene& scene, const JsonTree& tree, const ShapeFindings& findings) {
    const JsonNode& root = tree.root();
    const JsonNode* site = root.find("site");
    if (site == nullptr || findings.sound.count(site) == 0) return {};
    Problems problems = check_meaning(scene);
    const bool has_all_spots = scene.benches.size() == item_count(root, "benches") &&
                               scene.post_stands.size() == item_count(root, "post_stands");
    if (!has_all_spots) {
        std::erase_if(problems,
                      [](const Problem& problem) { return problem.pointer.starts_with("/pots"); });
    }
    for (Problem& problem : problems) tree.locate(problem);
    return problems;
}

bool has_error(const Problems& problems) {
    return std::ranges::count(problems, Severity::error, &Problem::severity) > 0;
}

void complete(Scene& scene) {
    const auto by_azimuth = [](const HorizonPoint& point) { return point.azimuth.in_radians(); };
    std::ranges::stable_sort(scene.site.horizon, {}, by_azimuth);
    if (scene.seasons.empty()) scene.seasons = default_seasons(scene.site.place.latitude);
    std::ranges::stable_sort(scene.seasons, {}, &Season::first);
    complete_pots(scene);
}

void sort_by_place(Problems& problems) {
    std::ranges::stable_sort(problems, [](const Problem& a, const Problem& b) {
        return std::pair(a.line, a.column) < std::pair(b.line, b.column);
    });
}

/// Keeps the first of too many problems, and says so at their end.
void limit(Problems& problems) {
    if (problems.size() < most_problems) return;
    const Severity severity = has_error(problems) ? Severity::error : Severity::warning;
    problems.resize(most_problems);
    Problem more = problems.back();
    more.code = "more_problems";
    more.message = "There may be more: only the first " + std::to_string(most_problems) +
                   " problems are told.";
    more.mend.clear();
    more.nearest.clear();
    more.severity = severity;
    problems.back() = std::move(more);
}

/// The key of a pot behind which its spot is written when it had none.
std::string_view key_before_spot(const JsonNode& pot) {
    for (const char* key : {"species", "name"}) {
        if (pot.find(key) != nullptr) return key;
    }
    return "id";
}

/// The pots as the list of a scene, one a line.
std::string pots_json(const std::vector<Pot>& pots) {
    std::string text = "[";
    for (const Pot& pot : pots) {
        text += (text.size() > 1 ? ",\n    " : "\n    ") + pot_keys().json(pot);
    }
    return text + (pots.empty() ? "]" : "\n  ]");
}

}  // namespace

Result<SceneFile> SceneFile::parse(std::string_view text, std::string file) {
    JsonReading json = read_json(std::string(text), std::move(file));
    if (!json.tree) return tl::unexpected(std::move(json.problems));
    Problems problems = std::move(json.problems);
    if (auto refused = refusal(*json.tree)) return failure(std::move(*refused));
    const ShapeFindings findings = check_shape(*json.tree, scene_keys().shape());
    problems.insert(problems.end(), findings.problems.begin(), findings.problems.end());

    SceneFile result;
    result.scene_ = read_tree(*json.tree, findings, problems);
    Problems unlikely = meaning_problems(result.scene_, *json.tree, findings);
    std::ranges::move(unlikely, std::back_inserter(problems));
    sort_by_place(problems);
    limit(problems);
    if (has_error(problems)) return tl::unexpected(std::move(problems));
    result.warnings_ = std::move(problems);
    complete(result.scene_);
    result.text_ =
        std::make_shared<const SceneText>(SceneText{std::move(*json.tree), std::nullopt});
    return result;
}

Result<SceneFile> SceneFile::read(const std::filesystem::path& path) {
    auto text = read_text_file(path);
    if (!text) return tl::unexpected(std::move(text.error()));
    return parse(*text, path.string());
}

Result<void> SceneFile::use_pots_csv(const std::filesystem::path& path) {
    auto csv = PotsCsv::read(path);
    if (!csv) return tl::unexpected(std::move(csv.error()));
    Scene scene = scene_;
    scene.pots = csv->pots();
    Problems problems = csv->warnings();
    for (Problem& problem : check_meaning(scene)) {
        if (!csv->locate(problem)) text_->tree.locate(problem);
        problems.push_back(std::move(problem));
    }
    if (has_error(problems)) return tl::unexpected(std::move(problems));
    complete_pots(scene);
    scene_ = std::move(scene);
    warnings_ = std::move(problems);
    text_ = std::make_shared<const SceneText>(SceneText{text_->tree, std::move(*csv)});
    return {};
}

SceneFile SceneFile::with_pots_at(const std::vector<std::string>& spot_ids) const {
    SUNFLECK_REQUIRE(spot_ids.size() == scene_.pots.size(), "one spot for each pot");
    SceneFile moved = *this;
    for (std::size_t i = 0; i < spot_ids.size(); ++i) moved.scene_.pots[i].spot = spot_ids[i];
    return moved;
}

std::string SceneFile::text() const {
    const JsonTree& tree = text_->tree;
    JsonEdit edit(tree);
    if (text_->pots_csv) {
        // As the table gave them: what was completed in the scene stays open in the file.
        std::vector<Pot> pots = text_->pots_csv->pots();
        for (std::size_t i = 0; i < pots.size(); ++i) pots[i].spot = scene_.pots[i].spot;
        edit.set_member(tree.root(), "pots", pots_json(pots));
        return edit.text();
    }
    for (const Pot& pot : scene_.pots) {
        const JsonNode* node = tree.at(pot.label.pointer);
        SUNFLECK_REQUIRE(node != nullptr, "a pot has lost its place in the text");
        const JsonNode* spot = node->find("spot");
        if (pot.spot.empty()) {
            edit.erase_member(*node, "spot");
        } else if (spot == nullptr || nfc(spot->text) != pot.spot) {
            edit.set_member(*node, "spot", json_quoted(pot.spot), key_before_spot(*node));
        }
    }
    return edit.text();
}

Result<void> SceneFile::save(const std::filesystem::path& path) const {
    return save_text_file(path, text());
}

}  // namespace sunfleck::scene
