#include "sunfleck/base/json_text.h"
#include "sunfleck/base/text_file.h"
#include "sunfleck/scene/scene_file.h"
#include "sunfleck/scene/scene_schema.h"

#include <iostream>
#include <string>

using namespace sunfleck;

/// What the reader says of many scenes, for a test that asks an independent validator the same.
/// `--schema` prints the schema. Else each line of standard input is the path of a text and, after
/// a tab, the name under which to read it; each line of the answer is a list of [code, pointer].
int main(int argc, char** argv) {
    if (argc > 1 && std::string(argv[1]) == "--schema") {
        std::cout << scene::scene_schema();
        return 0;
    }
    for (std::string line; std::getline(std::cin, line);) {
        const auto tab = line.find('\t');
        const auto text = read_text_file(line.substr(0, tab));
        if (!text || tab == std::string::npos) return 1;
        const auto file = scene::SceneFile::parse(*text, line.substr(tab + 1));
        std::string verdict = "[";
        if (!file) {
            for (const Problem& problem : file.error()) {
                if (problem.severity == Severity::warning) continue;
                verdict += (verdict.size() > 1 ? ", [" : "[") + json_quoted(problem.code) + ", " +
                           json_quoted(problem.pointer) + "]";
            }
        }
        std::cout << verdict << "]\n";
    }
    return 0;
}
