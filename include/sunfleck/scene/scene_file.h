#pragma once

#include "sunfleck/base/problem.h"
#include "sunfleck/scene/scene.h"

#include <filesystem>
#include <memory>
#include <string>
#include <string_view>
#include <vector>

namespace sunfleck::scene {

/// The versions of the scene format that are read; the newest is written.
inline constexpr int oldest_scene_version = 1;
inline constexpr int newest_scene_version = 1;

struct SceneText;  ///< the file's own tree of keys, order and number text

/// A scene and the text it came from, so that it can be saved again without loss.
class SceneFile {
  public:
    /// Reads and checks a scene. All errors at once; warnings do not stop it.
    [[nodiscard]] static Result<SceneFile> read(const std::filesystem::path& path);
    /// The same from text in memory; `file` names it in messages and sets where meshes lie.
    [[nodiscard]] static Result<SceneFile> parse(std::string_view text, std::string file);

    [[nodiscard]] const Scene& scene() const { return scene_; }
    [[nodiscard]] const Problems& warnings() const { return warnings_; }

    /// Takes pots from a CSV beside the scene in place of the scene's own.
    [[nodiscard]] Result<void> use_pots_csv(const std::filesystem::path& path);

    /// The same scene with each pot standing at the spot of that index in `spot_ids` (one per
    /// pot of scene().pots; an empty id: nowhere). All else keeps its text.
    [[nodiscard]] SceneFile with_pots_at(const std::vector<std::string>& spot_ids) const;

    /// The text to save: same keys, same order, same number text where nothing was edited.
    [[nodiscard]] std::string text() const;
    /// Saves `text()` whole or not at all.
    [[nodiscard]] Result<void> save(const std::filesystem::path& path) const;

  private:
    Scene scene_;
    Problems warnings_;
    std::shared_ptr<const SceneText> text_;
};

}  // namespace sunfleck::scene
