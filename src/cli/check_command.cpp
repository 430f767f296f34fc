#include "cli/commands.h"
#include "sunfleck/output/check_report.h"
#include "sunfleck/scene/scene_file.h"

#include <ostream>

namespace sunfleck::cli {
namespace {

Result<scene::SceneFile> read_with_pots(const CommonArguments& common) {
    auto file = scene::SceneFile::read(common.scene);
    if (!file || common.pots.empty()) return file;
    if (auto used = file->use_pots_csv(common.pots); !used) return tl::unexpected(used.error());
    return file;
}

}  // namespace

Result<void> run(const CheckArguments& arguments, Terminal& terminal) {
    const CommonArguments& common = arguments.common;
    const bool is_json = common.format == Format::json;
    const auto file = read_with_pots(common);
    if (file) {
        terminal.out << (is_json ? output::sound_scene_json(*file)
                                 : output::sound_scene_text(*file));
        return {};
    }
    terminal.out << (is_json ? output::wrong_scene_json(common.scene, file.error())
                             : output::wrong_scene_text(file.error()));
    terminal.has_told_failure = true;
    return tl::unexpected(file.error());
}

}  // namespace sunfleck::cli
