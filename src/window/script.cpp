#include "window/script.h"

#include "sunfleck/base/plain_words.h"
#include "sunfleck/base/text_file.h"
#include "sunfleck/output/day_arch.h"
#include "window/pictures.h"
#include "window/targets.h"

#include <charconv>
#include <map>
#include <optional>
#include <sstream>
#include <utility>

namespace sunfleck::window {
namespace {

std::optional<int> whole_number(std::string_view text) {
    int value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    if (error != std::errc{} || end != text.data() + text.size()) return std::nullopt;
    return value;
}

// Minutes of "14:30".
std::optional<int> clock_minutes(std::string_view text) {
    const std::size_t colon = text.find(':');
    if (colon == std::string_view::npos) return std::nullopt;
    const auto hour = whole_number(text.substr(0, colon));
    const auto minute = whole_number(text.substr(colon + 1));
    if (!hour || !minute || *hour < 0 || *hour > 23 || *minute < 0 || *minute > 59) {
        return std::nullopt;
    }
    return 60 * *hour + *minute;
}

// "Ctrl+Shift+Up".
std::optional<KeyPressed> key_named(std::string_view name) {
    static const std::map<std::string_view, Key> keys{
        {"Left", Key::left},       {"Right", Key::right}, {"Up", Key::up},
        {"Down", Key::down},       {"Enter", Key::enter}, {"Esc", Key::escape},
        {"Tab", Key::tab},         {"F2", Key::f2},       {"F3", Key::f3},
        {"F4", Key::f4},           {"F5", Key::f5},       {"Nearer", Key::nearer},
        {"Farther", Key::farther}, {"Whole", Key::whole}};
    KeyPressed pressed;
    while (true) {
        const std::size_t plus = name.find('+');
        if (plus == std::string_view::npos) break;
        const std::string_view modifier = name.substr(0, plus);
        if (modifier == "Ctrl") pressed.held.control = true;
        if (modifier == "Shift") pressed.held.shift = true;
        if (modifier == "Alt") pressed.held.alt = true;
        name.remove_prefix(plus + 1);
    }
    if (name == "Z" && pressed.held.control) {
        pressed.key = pressed.held.shift ? Key::redo : Key::undo;
        return pressed;
    }
    if (name == "S" && pressed.held.control) {
        pressed.key = Key::keep;
        return pressed;
    }
    const auto found = keys.find(name);
    if (found == keys.end()) return std::nullopt;
    pressed.key = found->second;
    return pressed;
}

void click(ViewModel& view, SheetPoint at) {
    view.react(PointerMoved{at});
    view.react(PointerPressed{at});
    view.react(PointerReleased{at});
}

std::string rest_of(const std::vector<std::string>& words, std::size_t from) {
    std::string text;
    for (std::size_t i = from; i < words.size(); ++i) text += (i > from ? " " : "") + words[i];
    return text;
}

std::string id_of(const ViewModel& view, std::optional<std::size_t> spot) {
    return spot ? view.spots()[*spot].id : "none";
}

// What the view shows under the name of an expectation; nothing for a name that is not known.
std::optional<std::string> shown(const ViewModel& view, const std::string& name) {
    if (name == "clock") return clock_words(60.0 * view.moment().minute);
    if (name == "date") return iso_date(view.moment().date);
    if (name == "chosen") return id_of(view, view.chosen_spot());
    if (name == "open") return view.is_spot_open() ? "yes" : "no";
    if (name == "nearness") {
        const output::PlanView whole(output::shown_part(view.scene()), view.regions().ground);
        return percent_words(view.plan_view().pixels_per_m() / whole.pixels_per_m());
    }
    if (name == "kept") return view.document().is_kept() ? "yes" : "no";
    if (name == "rows") return std::to_string(view.day() ? view.day()->ranked.size() : 0);
    if (name == "found") return view.has_found_changes() ? "yes" : "no";
    if (name == "season") return view.season();
    if (name == "moves") return std::to_string(view.plan() ? view.plan()->moves.size() : 0);
    if (name == "undo") return view.document().undo_name() ? *view.document().undo_name() : "none";
    if (name == "stone") return view.stone() == Stone::sun ? "sun" : "plan";
    if (name == "first") {
        const bool has_rows = view.day() != nullptr && view.first_row() < view.day()->ranked.size();
        return has_rows ? id_of(view, view.day()->ranked[view.first_row()].spot) : "none";
    }
    return std::nullopt;
}

// The x of the arch at which a clock minute stands, by halving.
double arch_x_of(const ViewModel& view, int minute) {
    const SheetBox arch = sky_parts(view.regions()).arch;
    double low = arch.low.x;
    double high = arch.high.x;
    const output::DayArch day{
        .date = view.moment().date, .place = view.scene().site.place, .at = {}, .spans = {}};
    for (int i = 0; i < 40; ++i) {
        const double middle = 0.5 * (low + high);
        const double hour = output::arch_hour_at(arch, day, view.zone(), middle);
        (60.0 * hour < minute ? low : high) = middle;
    }
    return high;
}

}  // namespace

Result<Script> Script::read(const std::filesystem::path& path) {
    auto text = read_text_file(path);
    if (!text) return tl::unexpected(text.error());
    Script script;
    script.path_ = path;
    std::istringstream lines(*text);
    int number = 0;
    for (std::string line; std::getline(lines, line);) {
        ++number;
        std::istringstream words(line);
        Line read{.number = number, .words = {}};
        for (std::string word; words >> word;) read.words.push_back(word);
        if (!read.words.empty() && !read.words.front().starts_with('#')) {
            script.lines_.push_back(std::move(read));
        }
    }
    return script;
}

tl::unexpected<Problems> Script::trouble(const Line& line, std::string message) const {
    return failure({.kind = ProblemKind::input,
                    .code = "script_line",
                    .file = path_.string(),
                    .line = line.number,
                    .column = 1,
                    .message = std::move(message),
                    .mend = "Mend the line, or what it expects."});
}

Result<void> Script::play_next(ViewModel& view, AnswerDesk& desk, double scale) {
    const Line& line = lines_[next_];
    if (line.words.front() == "wait" && desk.is_busy()) return {};
    ++next_;
    return play(line, view, desk, scale);
}

Result<void> Script::play_pointer(const Line& line, ViewModel& view) const {
    const std::vector<std::string>& words = line.words;
    const std::string& verb = words.front();
    const std::string argument = rest_of(words, 1);
    if (verb == "click") {
        if (words.size() == 3 && words[1] == "spot") {
            const auto spot = scene::find_spot(view.spots(), words[2]);
            if (!spot) return trouble(line, "There is no spot " + words[2] + ".");
            click(view, view.plan_view().at(view.spots()[*spot].position));
            return {};
        }
        for (const Target& target : all_targets(view)) {
            if (target.name != argument) continue;
            click(view, target.box.centre());
            return {};
        }
        return trouble(line, "There is no " + argument + " to click.");
    }
    if (verb == "drag" && words.size() == 3 && words[1] == "arch") {
        const auto minute = clock_minutes(words[2]);
        if (!minute) return trouble(line, words[2] + " is no clock time.");
        const SheetBox arch = sky_parts(view.regions()).arch;
        const double y = arch.centre().y;
        view.react(PointerPressed{{arch_x_of(view, view.moment().minute), y}});
        view.react(PointerMoved{{arch_x_of(view, *minute), y}});
        view.react(PointerReleased{{arch_x_of(view, *minute), y}});
        return {};
    }
    if (verb == "drag" && words.size() == 4 && words[1] == "strip") {
        const auto across = whole_number(words[2]);
        const auto down = whole_number(words[3]);
        if (!across || !down) return trouble(line, "A place on the strip is two percentages.");
        const SheetBox strip = sky_parts(view.regions()).strip;
        const SheetPoint at{strip.low.x + 0.01 * *across * strip.width(),
                            strip.low.y + 0.01 * *down * strip.height()};
        view.react(PointerPressed{strip.centre()});
        view.react(PointerMoved{at});
        view.react(PointerReleased{at});
        return {};
    }
    if (verb == "wheel" && words.size() == 3) {
        const auto notches = whole_number(words[2]);
        const SkyParts parts = sky_parts(view.regions());
        const std::map<std::string, SheetPoint> places{{"sky", parts.arch.centre()},
                                                       {"strip", parts.strip.centre()},
                                                       {"page", view.regions().page.centre()},
                                                       {"ground", view.regions().ground.centre()}};
        const auto place = places.find(words[1]);
        if (!notches || place == places.end())
            return trouble(line, "Turn over sky, strip, page or ground.");
        view.react(WheelTurned{place->second, static_cast<double>(*notches)});
        return {};
    }
    return trouble(line, "Nothing is done by " + verb + " so.");
}

Result<void> Script::play(const Line& line, ViewModel& view, AnswerDesk& desk, double scale) {
    const std::vector<std::string>& words = line.words;
    const std::string& verb = words.front();
    const std::string argument = rest_of(words, 1);
    if (verb == "wait") {
        desk.serve(view);
        return {};
    }
    if (verb == "key") {
        const auto pressed = key_named(argument);
        if (!pressed) return trouble(line, "No key is called " + argument + ".");
        view.react(*pressed);
        return {};
    }
    if (verb == "type") {
        view.react(TextTyped{argument});
        return {};
    }
    if (verb == "click" || verb == "drag" || verb == "wheel") return play_pointer(line, view);
    if (verb == "size") {
        const std::size_t cross = argument.find('x');
        const auto width = whole_number(argument.substr(0, cross));
        const auto height =
            cross == std::string::npos ? std::nullopt : whole_number(argument.substr(cross + 1));
        if (!width || !height) return trouble(line, argument + " is no size.");
        view.react(Resized{static_cast<double>(*width), static_cast<double>(*height)});
        return {};
    }
    if (verb == "expect" && words.size() >= 2) {
        const auto found = shown(view, words[1]);
        if (!found) return trouble(line, "Nothing is called " + words[1] + ".");
        const std::string expected = rest_of(words, 2);
        if (*found == expected) return {};
        return trouble(line, words[1] + " is " + *found + ", not " + expected + ".");
    }
    if (verb == "picture") {
        return save_picture(view, scale, output::morning, path_.parent_path() / argument);
    }
    return trouble(line, "Nothing is done by " + verb + ".");
}

}  // namespace sunfleck::window
