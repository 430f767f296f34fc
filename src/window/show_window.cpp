#include "sunfleck/window/window.h"
#include "window/answer_desk.h"
#include "window/change_keeper.h"
#include "window/pictures.h"
#include "window/screen.h"
#include "window/script.h"

#include <chrono>
#include <optional>
#include <thread>
#include <utility>

namespace sunfleck::window {
namespace {

using Clock = std::chrono::steady_clock;

constexpr double playing_patience_s = 0.008;
constexpr double busy_patience_s = 0.03;
constexpr double idle_patience_s = 0.25;

bool is_stopped(const WindowOptions& options) {
    return options.is_stopped && options.is_stopped();
}

// Plays the whole script without a screen.
Result<void> play_unseen(const WindowOptions& options, ViewModel& view, Script& script,
                         ChangeKeeper& keeper) {
    AnswerDesk desk;
    while (!script.is_done() && !is_stopped(options)) {
        desk.serve(view);
        keeper.save(view);
        if (auto played = script.play_next(view, desk, options.scale); !played) return played;
        if (desk.is_busy()) std::this_thread::sleep_for(std::chrono::milliseconds(2));
    }
    return {};
}

Result<void> run(const WindowOptions& options, ViewModel& view, Screen& screen,
                 std::optional<Script>& script, ChangeKeeper& keeper) {
    AnswerDesk desk;
    Pictures pictures(options.scale);
    auto before = Clock::now();
    while (!screen.is_closed() && !is_stopped(options)) {
        desk.serve(view);
        keeper.save(view);
        pictures.draw(view, output::morning);
        screen.show(pictures);
        const double patience_s = script || view.is_playing() ? playing_patience_s
                                  : desk.is_busy()            ? busy_patience_s
                                                              : idle_patience_s;
        for (const Input& input : screen.inputs(patience_s)) view.react(input);
        const auto now = Clock::now();
        view.let_pass(std::chrono::duration<double>(now - before).count());
        before = now;
        if (!script) continue;
        if (script->is_done()) return {};
        if (auto played = script->play_next(view, desk, options.scale); !played) return played;
    }
    return {};
}

}  // namespace

Result<void> show_window(const WindowOptions& options) {
    auto document = document::Document::open(options.scene);
    if (!document) return tl::unexpected(document.error());
    const auto zone = sun::TimeZone::find(document->scene().site.time_zone);
    if (!zone) return tl::unexpected(zone.error());
    std::optional<Script> script;
    if (!options.script.empty()) {
        auto read = Script::read(options.script);
        if (!read) return tl::unexpected(read.error());
        script = std::move(*read);
    }
    const std::string title = document->scene().site.name;
    ViewModel view(std::move(*document), *zone, {options.today, options.minute});
    view.react(Resized{options.width, options.height});
    ChangeKeeper keeper(options);
    keeper.offer_found(view);
    const auto played = [&]() -> Result<void> {
        if (options.is_unseen && script) return play_unseen(options, view, *script, keeper);
        auto screen = Screen::open(title.empty() ? "Sunfleck" : title + " · Sunfleck",
                                   options.width, options.height, options.scale);
        if (!screen) return tl::unexpected(screen.error());
        return run(options, view, **screen, script, keeper);
    }();
    // What is not kept when the window closes is offered when the garden is opened again.
    keeper.save(view, true);
    return played;
}

}  // namespace sunfleck::window
