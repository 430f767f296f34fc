#include "cli/parse_command_line.h"

#include "sunfleck/base/nearest_name.h"
#include "sunfleck/base/version.h"
#include "sunfleck/output/text_table.h"

#include <CLI/CLI.hpp>

#include <algorithm>
#include <functional>
#include <iterator>
#include <memory>
#include <sstream>
#include <vector>

namespace sunfleck::cli {
namespace {

/// Reads a date option; CLI11 shows the message after the option's name.
void add_date(CLI::App& app, const std::string& name, std::optional<Date>& target,
              const std::string& help) {
    app.add_option_function<std::string>(
           name,
           [&target, name](const std::string& text) {
               target = parse_date(text);
               if (!target) {
                   throw CLI::ValidationError(name,
                                              "'" + text + "' is no date. Write it as 2026-06-21.");
               }
           },
           help)
        ->type_name("DATE");
}

void add_year(CLI::App& app, std::optional<int>& year) {
    app.add_option("--year", year, "Year to compute (else the scene's, else 2026)")
        ->check(CLI::Range(1950, 2100).description(""))
        ->type_name("YEAR");
}

void add_when(CLI::App& app, WhenArguments& when) {
    add_date(app, "--date", when.date, "One day");
    add_date(app, "--from", when.from, "First day of a range");
    add_date(app, "--to", when.to, "Last day of a range, included");
    app.add_option("--season", when.season, "A season of the scene, such as midsummer")
        ->type_name("SEASON");
    add_year(app, when.year);
}

void add_format(CLI::App& app, Format& format, bool has_csv) {
    auto* json = app.add_flag_callback(
        "--json", [&format] { format = Format::json; }, "Answer as one JSON object");
    if (!has_csv) return;
    app.add_flag_callback(
           "--csv", [&format] { format = Format::csv; }, "Answer as CSV")
        ->excludes(json);
}

void add_common(CLI::App& app, CommonArguments& common, bool has_csv = true,
                bool needs_scene = true) {
    app.add_option("SCENE", common.scene, "The garden's scene file")->required(needs_scene);
    app.add_option("--pots", common.pots, "Take the pots from this CSV instead of the scene's")
        ->type_name("FILE");
    app.add_option("--threads", common.threads, "Threads to use (0: all cores)")
        ->check(CLI::Range(0, 256).description(""))
        ->type_name("N");
    add_format(app, common.format, has_csv);
}

/// Help in a grower's words, at most 80 columns wide.
class PlainHelp : public CLI::Formatter {
  public:
    PlainHelp() {
        label("SUBCOMMAND", "COMMAND");
        label("Positionals", "Name");
        label("REQUIRED", "");
        label("FLOAT", "NUMBER");
        label("Excludes", "not with");
    }
    [[nodiscard]] std::string make_option_desc(const CLI::Option* option) const override {
        constexpr int columns = 80;
        return output::wrapped_text(option->get_description(),
                                    columns - static_cast<int>(get_column_width()));
    }
};

/// One command: its app, and the arguments that parsing fills.
class Commands {
  public:
    explicit Commands(CLI::App& app) : app_(app) {
        add_check();
        add_new();
        add_schema();
        add_sun();
        add_picture();
        add_exposure();
        add_place();
        add_moves();
        add_why();
        add_window();
    }

    [[nodiscard]] Arguments chosen() const { return chosen_(); }

  private:
    template <typename T>
    std::pair<CLI::App*, std::shared_ptr<T>> add(const std::string& name, const std::string& help) {
        auto arguments = std::make_shared<T>();
        CLI::App* sub = app_.add_subcommand(name, help)->group("Commands");
        sub->callback(
            [this, arguments] { chosen_ = [arguments] { return Arguments(*arguments); }; });
        return {sub, arguments};
    }

    void add_check() {
        const auto [sub, a] = add<CheckArguments>("check", "Read a scene and say what is wrong");
        add_common(*sub, a->common, false);
    }

    void add_new() {
        const auto [sub, a] = add<NewArguments>("new", "Write a first scene to fill in");
        sub->add_option("PATH", a->path, "The file to write; it must not exist")->required();
        sub->add_option("--name", a->name, "What you call the garden");
        sub->add_option("--latitude", a->latitude_deg, "Degrees, north positive");
        sub->add_option("--longitude", a->longitude_deg, "Degrees, east positive");
        sub->add_option("--zone", a->time_zone, "Time zone, such as Europe/London");
        sub->add_option("--plan-up", a->plan_up_bearing_deg,
                        "True bearing of 'up' on your plan, degrees");
        sub->add_option("--bench-length", a->bench_length_m, "Length of the first bench, m");
        sub->add_option("--bench-depth", a->bench_depth_m, "Its depth, m");
        sub->add_option("--bench-height", a->bench_height_m, "Its height, m");
        sub->add_option("--bench-bearing", a->bench_bearing_deg,
                        "True bearing of its front edge, degrees");
        sub->add_flag("--bare", a->bare, "Without the example wall, tree and pots");
        sub->add_option("--pots", a->pots,
                        "Also write a table of pots, for a spreadsheet, to this new file")
            ->type_name("FILE");
    }

    void add_schema() {
        add<SchemaArguments>("schema", "Print every key of a scene as JSON Schema");
    }

    void add_sun() {
        const auto [sub, a] = add<SunArguments>("sun", "Sunrise, noon, sunset and the sun's path");
        add_common(*sub, a->common, true, false);
        sub->add_option("--latitude", a->latitude_deg, "Degrees, north positive");
        sub->add_option("--longitude", a->longitude_deg, "Degrees, east positive");
        sub->add_option("--elevation", a->elevation_m, "Metres above the sea");
        sub->add_option("--zone", a->time_zone, "Time zone, such as Europe/London");
        add_when(*sub, a->when);
        sub->add_option("--at", a->at,
                        "An instant: 2026-06-21T13:30 by the zone's clock, or with Z for universal "
                        "time; 13:30 with --date; \"-\" reads a table from standard input")
            ->type_name("TIME");
        sub->add_option("--pressure", a->pressure_hpa, "Air pressure for refraction, hPa");
        sub->add_option("--temperature", a->temperature_c, "Air temperature for refraction, C");
    }

    void add_picture() {
        const auto [sub, a] =
            add<PictureArguments>("picture", "Draw the garden, its shadows and its day rings");
        add_common(*sub, a->common, false);
        add_when(*sub, a->when);
        sub->add_option("--at", a->at, "Clock time for the shadows, such as 14:30")
            ->type_name("TIME");
        sub->add_option("--spot", a->spot, "Draw the year sheet of this spot instead")
            ->type_name("SPOT");
        sub->add_option("--output", a->output, "Picture file, .png or .svg")->type_name("FILE");
        sub->add_option("--size", a->size, "Width and height in pixels, such as 1600x1000")
            ->type_name("WxH");
    }

    void add_exposure() {
        const auto [sub, a] =
            add<ExposureArguments>("exposure", "Hours of direct sun at every spot");
        add_common(*sub, a->common);
        add_when(*sub, a->when);
        sub->add_option("--spots", a->spots, "Only these spots or benches: A-3,B")
            ->delimiter(',')
            ->type_name("IDS");
        sub->add_flag("--hours", a->hours, "By clock hour");
        sub->add_flag("--pot-walls", a->pot_walls, "Also the four sides of the pot's wall");
        sub->add_option("--height", a->receiver_height_m,
                        "Height above the bench top to look from, m")
            ->check(CLI::Range(0.0, 5.0).description(""))
            ->type_name("M");
        sub->add_option("--picture", a->picture, "Also draw the day rings to this file")
            ->type_name("FILE");
    }

    void add_place() {
        const auto [sub, a] = add<PlaceArguments>("place", "Which pot stands where in a season");
        add_common(*sub, a->common);
        add_when(*sub, a->when);
        sub->add_option("--write", a->write, "Save the scene with this plan's places here")
            ->type_name("FILE");
        sub->add_option("--picture", a->picture, "Also draw now and after to this file")
            ->type_name("FILE");
    }

    void add_moves() {
        const auto [sub, a] =
            add<MovesArguments>("moves", "What to carry from one season's plan to the next");
        add_common(*sub, a->common);
        sub->add_option("--from", a->from_season, "The season that ends")
            ->required()
            ->type_name("SEASON");
        sub->add_option("--to", a->to_season, "The season that begins")
            ->required()
            ->type_name("SEASON");
        add_year(*sub, a->year);
        sub->add_option("--lifts", a->lifts, "Move at most so many pots")
            ->check(CLI::Range(0, 100000).description(""))
            ->type_name("N");
        sub->add_option("--write", a->write, "Save the scene with the new places here")
            ->type_name("FILE");
        sub->add_option("--picture", a->picture, "Also draw the moves to this file")
            ->type_name("FILE");
    }

    void add_why() {
        const auto [sub, a] = add<WhyArguments>("why", "Why a pot stands where the plan puts it");
        add_common(*sub, a->common, false);
        sub->add_option("POT", a->pot, "The pot's code")->required();
        sub->add_option("--instead", a->instead, "A spot to compare with")->type_name("SPOT");
        add_when(*sub, a->when);
    }

    void add_window() {
        const auto [sub, a] =
            add<WindowArguments>("window", "See the garden, its shadows and each spot's day");
        sub->add_option("SCENE", a->scene, "The garden's scene file")->required();
        add_date(*sub, "--date", a->date, "Day to open on (else today)");
        sub->add_option("--scale", a->scale, "Size of everything, 1 to 2.5")
            ->check(CLI::Range(1.0, 2.5).description(""))
            ->type_name("X");
        sub->add_option("--size", a->size, "Width and height of the window, such as 1280x800")
            ->type_name("WxH");
        sub->add_option("--script", a->script, "Play the lines of this file in place of a hand")
            ->type_name("FILE");
        sub->add_flag("--unseen", a->unseen, "Play the script without a screen");
    }

    CLI::App& app_;
    std::function<Arguments()> chosen_;
};

struct Facts {
    std::string name;
    const CommonArguments* common = nullptr;
};

Facts facts_of(const Arguments& arguments) {
    struct Visitor {
        Facts operator()(const CheckArguments& a) const { return {"check", &a.common}; }
        Facts operator()(const NewArguments&) const { return {"new", nullptr}; }
        Facts operator()(const SunArguments& a) const { return {"sun", &a.common}; }
        Facts operator()(const PictureArguments& a) const { return {"picture", &a.common}; }
        Facts operator()(const ExposureArguments& a) const { return {"exposure", &a.common}; }
        Facts operator()(const PlaceArguments& a) const { return {"place", &a.common}; }
        Facts operator()(const MovesArguments& a) const { return {"moves", &a.common}; }
        Facts operator()(const WhyArguments& a) const { return {"why", &a.common}; }
        Facts operator()(const SchemaArguments&) const { return {"schema", nullptr}; }
        Facts operator()(const WindowArguments&) const { return {"window", nullptr}; }
    };
    return std::visit(Visitor{}, arguments);
}

std::string usage_of(const CLI::App& command) {
    std::string text = "sunfleck " + command.get_name();
    for (const CLI::Option* option : command.get_options()) {
        if (!option->get_required()) continue;
        text += " " + option->get_name();
        if (!option->get_positional()) text += " " + option->get_type_name();
    }
    return text;
}

/// "The season that ends is missing." of the first option that must be given and was not.
std::string missing_words(const CLI::App& command) {
    for (const CLI::Option* option : command.get_options()) {
        if (!option->get_required() || option->count() > 0) continue;
        const std::string what = option->get_description();
        return what.substr(0, what.find(';')) + " is missing. Write: " + usage_of(command);
    }
    return {};
}

/// What is too much on the line, and what was probably meant.
std::string extra_words(const CLI::App& command, const std::string& complaint) {
    // The library names them behind a colon, the last one first.
    std::istringstream list(complaint.substr(std::min(complaint.find(": "), complaint.size() - 1)));
    const std::vector<std::string> extras(std::istream_iterator<std::string>(list >> std::ws), {});
    std::vector<std::string> known;
    for (const CLI::Option* option : command.get_options()) known.push_back(option->get_name());
    for (const std::string& word : extras) {
        if (!word.starts_with("--")) continue;
        const std::string nearest = nearest_name(word, known);
        return "There is no option " + word + " here." +
               (nearest.empty() ? "" : " Did you mean " + nearest + "?");
    }
    return extras.empty() ? "" : "\"" + extras.back() + "\" is a word too many.";
}

/// "5.000000" as "5": the library writes every decimal.
std::string without_zeros(std::string text) {
    const std::string zeros = ".000000";
    for (std::size_t at = text.find(zeros); at != std::string::npos; at = text.find(zeros)) {
        text.erase(at, zeros.size());
    }
    return text;
}

std::string unknown_command_words(const CLI::App& app, const std::string& word) {
    std::vector<std::string> known;
    std::string list;
    for (const CLI::App* command : app.get_subcommands(nullptr)) {
        known.push_back(command->get_name());
        list += (list.empty() ? "" : ", ") + command->get_name();
    }
    const std::string nearest = nearest_name(word, known);
    return "There is no command \"" + word + "\". " +
           (nearest.empty() ? "The commands are " + list + "." : "Did you mean " + nearest + "?");
}

std::string one_line_ended(std::string text) {
    while (text.ends_with('\n')) text.pop_back();
    return text + "\n";
}

/// What is wrong with the line in words of our own, as far as we know better than the library.
std::string usage_words(const CLI::App& app, const CLI::ParseError& error,
                        const std::string& first_word) {
    const std::vector<CLI::App*> chosen = app.get_subcommands();
    if (chosen.empty()) {
        if (first_word.empty()) return app.help();
        if (!first_word.starts_with('-')) {
            return output::wrapped_text(unknown_command_words(app, first_word));
        }
        return std::string(error.what()) + "\nsunfleck --help lists the commands.";
    }
    const CLI::App& command = *chosen.front();
    std::string text;
    if (dynamic_cast<const CLI::RequiredError*>(&error) != nullptr) text = missing_words(command);
    if (dynamic_cast<const CLI::ExtrasError*>(&error) != nullptr)
        text = extra_words(command, error.what());
    if (dynamic_cast<const CLI::ConversionError*>(&error) != nullptr) {
        text = std::string(error.what()) + ". A number is wanted; decimals take a point: 0.5.";
    }
    if (dynamic_cast<const CLI::ValidationError*>(&error) != nullptr)
        text = without_zeros(error.what());
    if (text.empty()) text = error.what();
    return output::wrapped_text(text) + "\nsunfleck " + command.get_name() +
           " --help lists the options.";
}

}  // namespace

std::string command_name(const Arguments& arguments) {
    return facts_of(arguments).name;
}

bool wants_json(const Arguments& arguments) {
    const auto* common = facts_of(arguments).common;
    return common != nullptr && common->format == Format::json;
}

std::string scene_path(const Arguments& arguments) {
    const auto* common = facts_of(arguments).common;
    return common != nullptr ? common->scene : std::string();
}

std::variant<Arguments, ParseEnd> parse_command_line(int argc, const char* const* argv) {
    CLI::App app("Sunfleck: sun, shade and placing for small potted trees outdoors", "sunfleck");
    app.set_version_flag("--version", std::string("sunfleck ") + std::string(program_version),
                         "Tell the version and end");
    app.formatter(std::make_shared<PlainHelp>());
    app.set_help_flag("-h,--help", "Tell this and end");
    app.footer(
        "Begin with: sunfleck new my_garden.json\n"
        "sunfleck COMMAND --help tells a command's options.");
    app.require_subcommand(1);
    const Commands commands(app);
    try {
        app.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        std::ostringstream out;
        std::ostringstream err;
        const int code = app.exit(error, out, err);
        if (code == 0) return ParseEnd{ExitCode::done, out.str()};
        return ParseEnd{ExitCode::usage,
                        one_line_ended(usage_words(app, error, argc > 1 ? argv[1] : ""))};
    }
    return commands.chosen();
}

}  // namespace sunfleck::cli
