#include "sunfleck/scene/scene_file.h"

#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

// Any bytes at all: the reader answers with a scene or with problems, and what it read it can
// write and read again.
extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
    const std::string_view text(reinterpret_cast<const char*>(data), size);
    const auto file = sunfleck::scene::SceneFile::parse(text, "fuzz.json");
    if (!file) {
        if (file.error().empty()) std::abort();
        return 0;
    }
    if (!sunfleck::scene::SceneFile::parse(file->text(), "fuzz.json")) std::abort();
    return 0;
}
