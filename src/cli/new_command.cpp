#include "cli/commands.h"
#include "sunfleck/base/plain_words.h"
#include "sunfleck/base/text_file.h"
#include "sunfleck/output/check_report.h"
#include "sunfleck/scene/new_scene.h"
#include "sunfleck/scene/pots_csv.h"
#include "sunfleck/scene/scene_file.h"
#include "sunfleck/scene/spots.h"
#include "sunfleck/sun/civil_time.h"

#include <cmath>
#include <cstdio>
#include <filesystem>
#include <functional>
#include <istream>
#include <memory>
#include <ostream>

namespace sunfleck::cli {
namespace {

using scene::FirstGarden;

Problem usage(std::string code, std::string message, std::string mend) {
    return {.kind = ProblemKind::usage,
            .code = std::move(code),
            .message = std::move(message),
            .mend = std::move(mend)};
}

/// The zone that the machine keeps, as a first guess; empty when it does not say.
std::string machine_zone() {
    std::error_code error;
    const std::string link = std::filesystem::read_symlink("/etc/localtime", error).string();
    constexpr std::string_view folder = "zoneinfo/";
    const std::size_t at = link.find(folder);
    if (error || at == std::string::npos) return {};
    const std::string name = link.substr(at + folder.size());
    // Etc/UTC is where a machine stands that nobody has told.
    const bool is_place = name.find('/') != std::string::npos && !name.starts_with("Etc/");
    return is_place && sun::TimeZone::find(name) ? name : std::string();
}

/// Asks on the terminal until the answer can be used, or the answers end.
class Interview {
  public:
    explicit Interview(Terminal& terminal) : terminal_(terminal) {}

    /// `use` takes the answer and says what is wrong with it, or nothing. An empty answer is
    /// `usual`, when there is one.
    void ask(const std::string& question, const std::string& usual,
             const std::function<std::string(const std::string&)>& use) {
        while (!has_ended_) {
            terminal_.err << question << (usual.empty() ? " " : " [" + usual + "] ") << std::flush;
            std::string answer;
            if (!std::getline(terminal_.in, answer)) {
                has_ended_ = true;
                terminal_.err << '\n';
                return;
            }
            if (answer.empty()) answer = usual;
            const std::string wrong = use(answer);
            if (wrong.empty()) return;
            terminal_.err << wrong << '\n';
        }
    }
    [[nodiscard]] bool has_ended() const { return has_ended_; }

  private:
    Terminal& terminal_;
    bool has_ended_ = false;
};

std::function<std::string(const std::string&)> length_into(double& target, double least_m,
                                                           double most_m) {
    return [&target, least_m, most_m](const std::string& answer) -> std::string {
        const auto length_m = scene::spoken_length_m(answer);
        if (!length_m) return "Write a length, such as 2.4 m, 240 cm or 8 ft.";
        if (*length_m < least_m || *length_m > most_m) {
            return "It may be " + length_words(least_m) + " to " + length_words(most_m) + ".";
        }
        target = *length_m;
        return {};
    };
}

/// "51.5, -0.3" as the two together.
std::string take_place(const std::string& answer, FirstGarden& garden, bool& has_longitude) {
    const auto whole = scene::spoken_coordinate_deg(answer);
    if (whole && std::abs(*whole) <= 90.0) {
        garden.latitude_deg = *whole;
        return {};
    }
    for (const char parting : {',', ' ', ';'}) {
        for (std::size_t at = answer.find(parting); at != std::string::npos;
             at = answer.find(parting, at + 1)) {
            const auto latitude = scene::spoken_coordinate_deg(answer.substr(0, at));
            const auto longitude = scene::spoken_coordinate_deg(answer.substr(at + 1));
            if (!latitude || !longitude || std::abs(*latitude) > 90.0) continue;
            garden.latitude_deg = *latitude;
            garden.longitude_deg = *longitude;
            has_longitude = true;
            return {};
        }
    }
    return "Write degrees, north positive, such as 51.5 or 37.8 S.";
}

void ask_place(const NewArguments& a, FirstGarden& garden, Interview& interview) {
    bool has_longitude = a.longitude_deg.has_value();
    if (!a.latitude_deg) {
        interview.ask(
            "Latitude, or latitude and longitude (51.5, -0.3)?", "",
            [&](const std::string& answer) { return take_place(answer, garden, has_longitude); });
    }
    if (!has_longitude) {
        interview.ask("Longitude (east positive, so 0.3 W or -0.3)?", "",
                      [&](const std::string& answer) -> std::string {
                          const auto degrees = scene::spoken_coordinate_deg(answer);
                          if (!degrees) return "Write degrees, such as 2.2 or 0.3 W.";
                          garden.longitude_deg = *degrees;
                          return {};
                      });
    }
    if (!a.time_zone.empty()) return;
    interview.ask("Time zone, such as Europe/London?", machine_zone(),
                  [&](const std::string& answer) -> std::string {
                      if (answer.empty()) return "Write the name of its clock, as Europe/Paris.";
                      const auto zone = sun::TimeZone::find(answer);
                      if (!zone) return to_text(zone.error().front());
                      garden.time_zone = zone->name();
                      return {};
                  });
}

std::function<std::string(const std::string&)> bearing_into(double& target, double turned_deg) {
    return [&target, turned_deg](const std::string& answer) -> std::string {
        const auto degrees = scene::spoken_bearing_deg(answer);
        if (!degrees) return "Write degrees from north, clockwise, or a word such as south-east.";
        target = std::fmod(*degrees + turned_deg, 360.0);
        return {};
    };
}

void ask_bench(const NewArguments& a, FirstGarden& garden, Interview& interview) {
    if (!a.bench_length_m) {
        interview.ask("How long is your first bench?", "2.4 m",
                      length_into(garden.bench_length_m, 0.1, 60.0));
    }
    if (!a.bench_depth_m) {
        interview.ask("How deep is it, front to back?", "60 cm",
                      length_into(garden.bench_depth_m, 0.05, 20.0));
    }
    if (!a.bench_height_m) {
        interview.ask("How high is its top?", "80 cm",
                      length_into(garden.bench_height_m, 0.0, 3.0));
    }
    if (!a.bench_bearing_deg) {
        // Whoever faces the bench has its front edge running from left to right: a quarter turn
        // clockwise of the way they look.
        interview.ask("You stand before it and look at it. Which way do you look?", "north",
                      bearing_into(garden.bench_bearing_deg, 90.0));
    }
}

/// Asks for all that the options leave open.
void ask_open(const NewArguments& a, FirstGarden& garden, Interview& interview) {
    if (a.name.empty()) {
        interview.ask("What do you call the garden?", garden.name,
                      [&](const std::string& answer) -> std::string {
                          garden.name = answer;
                          return {};
                      });
    }
    ask_place(a, garden, interview);
    if (!a.plan_up_bearing_deg) {
        interview.ask("Up on your plan is which way?", "north",
                      bearing_into(garden.plan_up_bearing_deg, 0.0));
    }
    ask_bench(a, garden, interview);
}

FirstGarden stated(const NewArguments& a) {
    FirstGarden garden;
    if (!a.name.empty()) garden.name = a.name;
    garden.latitude_deg = a.latitude_deg.value_or(0.0);
    garden.longitude_deg = a.longitude_deg.value_or(0.0);
    garden.time_zone = a.time_zone;
    garden.plan_up_bearing_deg = a.plan_up_bearing_deg.value_or(garden.plan_up_bearing_deg);
    garden.bench_length_m = a.bench_length_m.value_or(garden.bench_length_m);
    garden.bench_depth_m = a.bench_depth_m.value_or(garden.bench_depth_m);
    garden.bench_height_m = a.bench_height_m.value_or(garden.bench_height_m);
    garden.bench_bearing_deg = a.bench_bearing_deg.value_or(garden.bench_bearing_deg);
    garden.has_examples = !a.bare;
    return garden;
}

Problems missing_options(const NewArguments& a) {
    std::string missing;
    const auto need = [&missing](bool is_there, const char* option) {
        if (!is_there) missing += (missing.empty() ? "" : ", ") + std::string(option);
    };
    need(a.latitude_deg.has_value(), "--latitude");
    need(a.longitude_deg.has_value(), "--longitude");
    need(!a.time_zone.empty(), "--zone");
    if (missing.empty()) return {};
    return {usage("place_unknown", "Where the garden is must be said: " + missing + ".",
                  "Give these options, or run it on a terminal to be asked.")};
}

/// Whether the option's number is one at all; JSON has no word for the others.
Problems odd_numbers(const FirstGarden& g) {
    for (const double value :
         {g.latitude_deg, g.longitude_deg, g.plan_up_bearing_deg, g.bench_length_m, g.bench_depth_m,
          g.bench_height_m, g.bench_bearing_deg}) {
        if (std::isfinite(value)) continue;
        return {usage("no_number", "An option is no number.", "Give plain figures.")};
    }
    return {};
}

/// The scene, read back: what is wrong with the answers is wrong with the command.
Result<scene::SceneFile> checked(const std::string& text, const std::string& path) {
    auto file = scene::SceneFile::parse(text, path);
    if (file) return file;
    for (Problem& problem : file.error()) {
        problem.kind = ProblemKind::usage;
        problem.file.clear();  // nothing is written yet
        problem.line = 0;
        problem.column = 0;
    }
    return file;
}

/// Writes a file that must not exist; nothing is left of it when that fails.
Result<void> save_new(const std::string& path, const std::string& text) {
    // "x" makes the file and fails when there is one, in one step.
    const std::unique_ptr<std::FILE, int (*)(std::FILE*)> made(std::fopen(path.c_str(), "wx"),
                                                               &std::fclose);
    if (!made) {
        std::error_code error;
        const bool exists = std::filesystem::exists(std::filesystem::symlink_status(path, error));
        return failure({.kind = ProblemKind::file,
                        .code = exists ? "file_exists" : "cannot_write",
                        .file = path,
                        .message = exists ? "There is a file of that name already."
                                          : "The file cannot be made.",
                        .mend = exists ? "Choose another name; nothing was changed."
                                       : "Does the folder exist, and may you write there?"});
    }
    auto saved = save_text_file(path, text);
    std::error_code error;
    if (!saved) std::filesystem::remove(path, error);
    return saved;
}

void tell(const NewArguments& a, const scene::SceneFile& file, std::ostream& out) {
    const scene::Scene& scene = file.scene();
    out << "Wrote " << a.path << ": " << scene.site.name << ", "
        << place_words(scene.site.place.latitude, scene.site.place.longitude)
        << ", with a bench of " << count_words(scene::spots_of(scene).size(), "spot")
        << (a.bare ? ".\n" : ",\nan example wall, tree and pots to change or delete.\n");
    if (!a.pots.empty()) out << "Wrote " << a.pots << ": a table of pots to fill in.\n";
    out << "Next: sunfleck check " << a.path << "\n      sunfleck picture " << a.path << '\n';
}

}  // namespace

Result<void> run(const NewArguments& arguments, Terminal& terminal) {
    FirstGarden garden = stated(arguments);
    if (terminal.in_is_screen) {
        Interview interview(terminal);
        ask_open(arguments, garden, interview);
        if (interview.has_ended()) {
            return failure(usage("answers_ended", "The answers ended before the last question.",
                                 "Nothing was written. Run it again."));
        }
    } else if (auto missing = missing_options(arguments); !missing.empty()) {
        return tl::unexpected(std::move(missing));
    }
    if (auto odd = odd_numbers(garden); !odd.empty()) return tl::unexpected(std::move(odd));
    const auto file = checked(scene::first_scene_text(garden), arguments.path);
    if (!file) return tl::unexpected(file.error());
    for (const Problem& warning : file->warnings()) {
        terminal.err << output::problem_text(warning);
    }
    if (auto saved = save_new(arguments.path, file->text()); !saved) return saved;
    if (!arguments.pots.empty()) {
        // Soil and weight follow from the pot's size until its owner states them.
        std::vector<scene::Pot> pots = file->scene().pots;
        for (scene::Pot& pot : pots) pot.soil_l = pot.weight_kg = 0.0;
        const std::string table = scene::pots_csv_text(pots);
        if (auto saved = save_new(arguments.pots, table); !saved) return saved;
    }
    tell(arguments, *file, terminal.out);
    return {};
}

}  // namespace sunfleck::cli
