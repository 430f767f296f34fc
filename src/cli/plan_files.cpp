#include "cli/plan_files.h"

#include "cli/saved_picture.h"
#include "cli/terminal.h"

#include <unistd.h>

#include <filesystem>
#include <system_error>
#include <vector>

namespace sunfleck::cli {

namespace {

Result<void> require_folder(const std::string& path) {
    if (path.empty()) return {};
    std::error_code error;
    const std::filesystem::path file(path);
    const auto trouble = [&](const char* message, const char* mend) {
        return failure({.kind = ProblemKind::file,
                        .code = "file_not_saved",
                        .file = path,
                        .message = message,
                        .mend = mend});
    };
    if (std::filesystem::is_directory(file, error)) {
        return trouble("This is a folder.", "Name a file to write.");
    }
    const std::filesystem::path folder = file.has_parent_path() ? file.parent_path() : ".";
    if (!std::filesystem::is_directory(folder, error)) {
        return trouble("There is no such folder to write to.", "Check the name and the folder.");
    }
    if (::access(folder.c_str(), W_OK) != 0) {
        return trouble("Nothing may be written in that folder.", "Choose another place.");
    }
    return {};
}

Result<void> save_plan(const scene::SceneFile& file, const placement::HarmTable& table,
                       const placement::Standing& plan, const std::string& path) {
    if (path.empty()) return {};
    std::vector<std::string> ids(file.scene().pots.size());
    for (std::size_t row = 0; row < table.rows.size(); ++row) {
        if (table.rows[row].copy == 1 && plan[row]) {
            ids[table.rows[row].pot] = table.spots[*plan[row]].id;
        }
    }
    return file.with_pots_at(ids).save(path);
}

}  // namespace

Result<void> check_plan_files(const PlanFiles& files) {
    if (auto named = check_picture_name(files.picture); !named) return named;
    if (auto place = require_folder(files.scene); !place) return place;
    return require_folder(files.picture);
}

Result<void> write_plan_files(
    const PlanFiles& files, const scene::SceneFile& scene, const placement::HarmTable& table,
    const placement::Standing& plan,
    const std::function<Result<std::string>(const output::PictureOptions&)>& draw) {
    if (auto ready = ready_to_write(); !ready) return ready;
    if (auto saved = save_plan(scene, table, plan, files.scene); !saved) return saved;
    return save_picture(files.picture, draw);
}

std::string written_words(const PlanFiles& files) {
    std::string text;
    if (!files.scene.empty()) text += "Wrote " + files.scene + ": the scene with these places.\n";
    if (!files.picture.empty()) text += "Wrote " + files.picture + ".\n";
    return text.empty() ? text : "\n" + text;
}

}  // namespace sunfleck::cli
