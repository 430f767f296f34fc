#include "cli/commands.h"
#include "sunfleck/output/check_report.h"
#include "sunfleck/scene/scene_file.h"

#include <ostream>

namespace sunfleck::cli {

Result<void> run(const CheckArguments& arguments, Terminal& terminal) {
    const CommonArguments& common = arguments.common;
    const bool is_json = common.format == Format::json;
    const auto file = scene::SceneFile::read(common.scene);
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
