#include "cli/commands.h"

// Commands whose own file has not landed yet; each goes from here when it does.
namespace sunfleck::cli {
namespace {

Result<void> not_built(const char* command) {
    return failure({.kind = ProblemKind::usage,
                    .code = "not_built",
                    .message = std::string("This build has no ") + command + " command."});
}

}  // namespace

Result<void> run(const NewArguments&, Terminal&) {
    return not_built("new");
}
Result<void> run(const PictureArguments&, Terminal&) {
    return not_built("picture");
}
Result<void> run(const WhyArguments&, Terminal&) {
    return not_built("why");
}

}  // namespace sunfleck::cli
