#pragma once

#include "sunfleck/base/date.h"

#include <optional>
#include <string>
#include <variant>
#include <vector>

/// What the user typed, after parsing; one struct per command. Only command_line.cpp knows the
/// parsing library.
namespace sunfleck::cli {

/// How a command answers.
enum class Format { table, json, csv };

/// The dates a command is asked for: one day, a range, a season, or (all empty) its default.
struct WhenArguments {
    std::optional<Date> date;
    std::optional<Date> from;
    std::optional<Date> to;
    std::string season;
    std::optional<int> year;
};

struct CommonArguments {
    std::string scene;  ///< path
    std::string pots;   ///< path of a pots CSV, or empty
    Format format = Format::table;
    int threads = 0;
};

struct CheckArguments {
    CommonArguments common;
};

struct NewArguments {
    std::string path;
    std::string name;
    std::optional<double> latitude_deg;
    std::optional<double> longitude_deg;
    std::string time_zone;
    std::optional<double> plan_up_bearing_deg;
    std::optional<double> bench_length_m;
    std::optional<double> bench_depth_m;
    std::optional<double> bench_height_m;
    std::optional<double> bench_bearing_deg;
    bool bare = false;  ///< without the example wall, tree and pots
    std::string pots;   ///< also write a table of pots to fill in here; empty: none
};

struct SunArguments {
    CommonArguments common;  ///< scene may be empty when the place is given
    std::optional<double> latitude_deg;
    std::optional<double> longitude_deg;
    std::optional<double> elevation_m;
    std::string time_zone;
    WhenArguments when;
    std::vector<std::string> at;  ///< instants "2026-06-21T12:00" (clock of the zone) or with
                                  ///< Z/offset; "-": CSV on standard input
    std::optional<double> pressure_hpa;
    std::optional<double> temperature_c;
};

struct PictureArguments {
    CommonArguments common;
    WhenArguments when;
    std::string at;      ///< clock time "14:30" for the shadows; empty: none
    std::string spot;    ///< the year sheet of one spot instead of the plan
    std::string output;  ///< .png or .svg; empty: beside the scene's name in the current folder
    std::string size;    ///< "1600x1000", pixels; empty: the picture's own
};

struct ExposureArguments {
    CommonArguments common;
    WhenArguments when;
    std::vector<std::string> spots;  ///< ids of spots or benches; empty: all
    bool pot_walls = false;          ///< also the four points of the pot wall
    bool hours = false;              ///< the table by clock hour
    std::optional<double> receiver_height_m;
    std::string picture;  ///< also draw the day rings to this file
};

struct PlaceArguments {
    CommonArguments common;
    WhenArguments when;
    std::string write;    ///< save the scene with the plan's places here
    std::string picture;  ///< also draw now and after to this file
};

struct MovesArguments {
    CommonArguments common;
    std::string from_season;
    std::string to_season;
    std::optional<int> year;
    std::optional<int> lifts;
    std::string write;
    std::string picture;  ///< also draw the moves to this file
};

struct WhyArguments {
    CommonArguments common;
    std::string pot;
    std::string instead;  ///< a spot to compare with
    WhenArguments when;
};

struct SchemaArguments {};

struct WindowArguments {
    std::string scene;
    double scale = 1.0;
    std::string size;          ///< "1280x800"; empty: that
    std::optional<Date> date;  ///< the day it opens on; nothing: today
    std::string script;        ///< lines to play in place of a hand; empty: none
    bool unseen = false;       ///< play the script without a screen
};

using Arguments =
    std::variant<CheckArguments, NewArguments, SunArguments, PictureArguments, ExposureArguments,
                 PlaceArguments, MovesArguments, WhyArguments, SchemaArguments, WindowArguments>;

}  // namespace sunfleck::cli
