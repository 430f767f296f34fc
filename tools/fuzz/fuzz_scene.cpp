#include "sunfleck/scene/scene_file.h"

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string>
#include <string_view>
#include <vector>

namespace {

// A name beside the test scenes, so that the mesh they name is found.
constexpr const char* file_name = "tests/data/fuzz.json";

void require(bool holds) {
    if (!holds) std::abort();
}

}  // namespace

// Any bytes at all: the reader answers with a scene or with placed problems. What it read it gives
// back byte for byte, and with every pot taken off its spot it is still a scene, unless the pots
// were pinned there.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    using sunfleck::scene::SceneFile;
    const std::string_view text(reinterpret_cast<const char*>(data), size);
    const auto file = SceneFile::parse(text, file_name);
    if (!file) {
        require(!file.error().empty());
        for (const auto& problem : file.error()) require(problem.line > 0 && problem.column > 0);
        return 0;
    }
    require(file->text() == text);
    bool has_pins = false;
    for (const auto& pot : file->scene().pots) has_pins = has_pins || pot.pinned;
    const SceneFile cleared =
        file->with_pots_at(std::vector<std::string>(file->scene().pots.size()));
    require(has_pins || SceneFile::parse(cleared.text(), file_name).has_value());
    return 0;
}
