#include "cli/commands.h"
#include "sunfleck/scene/scene_schema.h"

#include <ostream>

namespace sunfleck::cli {

Result<void> run(const SchemaArguments&, Terminal& terminal) {
    terminal.out << scene::scene_schema();
    return {};
}

}  // namespace sunfleck::cli
