#pragma once

#include "sunfleck/base/problem.h"
#include "sunfleck/document/command.h"
#include "sunfleck/scene/scene_file.h"

#include <cstddef>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace sunfleck::document {

/// How the file on the disk stands to what was last read from it or kept to it.
enum class OnDisk { as_kept, changed_elsewhere, gone };

/// What to do when the file was changed elsewhere since.
enum class IfChanged { refuse, replace };

/// A garden that is worked on: always a scene that reads without an error. Every change can be
/// taken back, to the same bytes.
class Document {
  public:
    /// Opens a scene file.
    [[nodiscard]] static Result<Document> open(const std::filesystem::path& path);
    /// A garden that was never kept, such as scene::first_scene_text() gives or one recovered.
    /// `path`: where it will be kept; empty: not said yet.
    [[nodiscard]] static Result<Document> from_text(std::string text,
                                                    const std::filesystem::path& path = {});

    [[nodiscard]] const std::string& text() const { return text_; }
    [[nodiscard]] const scene::SceneFile& file() const { return file_; }
    [[nodiscard]] const scene::Scene& scene() const { return file_.scene(); }
    /// Grows with every change, undo and redo; never comes back. For what is computed from it.
    [[nodiscard]] std::size_t revision() const { return revision_; }

    /// Does a command. When the garden would not be sound after it, nothing is changed and the
    /// problems say why, in the garden's own pointers.
    [[nodiscard]] Result<void> apply(const Command& command);

    /// Puts a whole text, such as one recovered, in place of the garden's; undone as one. Fails as
    /// apply() does.
    [[nodiscard]] Result<void> take_text(std::string text, const std::string& name);

    /// Names of what undo() and redo() would take back and do again; null when there is nothing.
    [[nodiscard]] const std::string* undo_name() const;
    [[nodiscard]] const std::string* redo_name() const;
    /// False when there is nothing to take back or do again.
    bool undo();
    bool redo();
    /// The next command is undone by itself, whatever its strand: a drag has ended.
    void end_strand() { is_strand_open_ = false; }

    /// Empty: never kept.
    [[nodiscard]] const std::filesystem::path& path() const { return path_; }
    /// True when the text is the one last read or kept.
    [[nodiscard]] bool is_kept() const;
    [[nodiscard]] OnDisk on_disk() const;
    /// Writes it to path(), whole or not at all; undo still goes back before it. Refused with
    /// the code "changed_elsewhere" when another program has changed the file.
    [[nodiscard]] Result<void> keep(IfChanged if_changed = IfChanged::refuse);
    /// The same to another path, which becomes path(). What stands there is replaced.
    [[nodiscard]] Result<void> keep_as(const std::filesystem::path& path);

  private:
    /// What a command did to the text: bytes in place of others.
    struct Change {
        std::string name;
        std::string strand;
        std::size_t at = 0;
        std::string before;
        std::string after;
    };
    Document(std::string text, scene::SceneFile file, std::filesystem::path path);
    [[nodiscard]] static Change change_between(const std::string& before, const std::string& after);
    [[nodiscard]] Result<void> change_to(std::string text, const std::string& name,
                                         const std::string& strand);
    void remember(const std::string& name, const std::string& strand, const std::string& before);
    void swap_in(const Change& change, const std::string& out, const std::string& in);
    void take(std::string text, scene::SceneFile file);

    std::string text_;
    scene::SceneFile file_;
    std::filesystem::path path_;
    std::optional<std::string> kept_text_;
    std::vector<Change> changes_;  ///< done, then undone from done_ on
    std::size_t done_ = 0;
    bool is_strand_open_ = false;
    std::size_t revision_ = 0;
};

}  // namespace sunfleck::document
