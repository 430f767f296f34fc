#include "scene/findings.h"
#include "sunfleck/base/plain_words.h"

#include <algorithm>

namespace sunfleck::scene {
namespace {

/// The day of the year counted from the middle of the winter: 0 on 1 January in the north, on 1
/// July in the south.
int day_from_winter(MonthDay day, bool is_south) {
    constexpr int days_to_july = 181;
    const int of_year = day_of_year(in_year(day, 2026)) - 1;
    return is_south ? (of_year - days_to_july + 365) % 365 : of_year;
}

void check_crown(const Tree& tree, Findings& findings) {
    const std::string name = called(tree.label);
    if (tree.crown_base_m >= tree.height_m) {
        findings.error({.code = "crown_base_above_top",
                        .pointer = tree.label.pointer + "/crown_base_m",
                        .message = "The crown of " + name + " begins " +
                                   length_words(tree.crown_base_m) + " up, but the tree is " +
                                   length_words(tree.height_m) + " high.",
                        .mend = "crown_base_m is the height of the lowest leaves above the "
                                "ground."});
    }
    // Old open-grown limes and oaks are as wide as high, the widest twice (common practice).
    constexpr double widest_crown = 2.5;
    const double width_m = std::max(tree.crown_width_m, tree.crown_width_across_m);
    if (width_m > widest_crown * tree.height_m) {
        findings.warning({.code = "crown_too_wide",
                          .pointer = tree.label.pointer + "/crown_width_m",
                          .message = "The crown of " + name + " is " + length_words(width_m) +
                                     " wide, the tree " + length_words(tree.height_m) + " high.",
                          .mend = "Is one of the two a slip?"});
    }
    if (tree.trunk_diameter_m >= std::min(tree.crown_width_m, tree.crown_width_across_m)) {
        findings.warning({.code = "trunk_too_wide",
                          .pointer = tree.label.pointer + "/trunk_diameter_cm",
                          .message = "The trunk of " + name + " is as thick as its crown is wide.",
                          .mend = "Is the trunk's diameter in centimetres?"});
    }
    // The tallest broad-leaved tree of Europe is under 60 m; a garden's is seldom over 35.
    constexpr double tall_tree_m = 60.0;
    if (tree.height_m > tall_tree_m) {
        findings.warning({.code = "tall_tree",
                          .pointer = tree.label.pointer + "/height_m",
                          .message = name + " is " + length_words(tree.height_m) + " high.",
                          .mend = "Is that in metres?"});
    }
}

void check_transmission(const Tree& tree, Findings& findings) {
    if (tree.leaf_habit == LeafHabit::evergreen) return;
    // A tree that states only its crown in leaf leaves the other at 0, which is read as unknown.
    if (!(tree.transmission_bare > 0.0) || tree.transmission_in_leaf <= tree.transmission_bare) {
        return;
    }
    findings.warning({.code = "bare_darker_than_leaf",
                      .pointer = tree.label.pointer + "/transmission_bare_percent",
                      .message = called(tree.label) + " lets " +
                                 percent_words(tree.transmission_in_leaf) +
                                 " through in leaf and only " +
                                 percent_words(tree.transmission_bare) + " when bare.",
                      .mend = "Are the two swapped?"});
}

void check_leaf_dates(const Tree& tree, const Latitude latitude, Findings& findings) {
    if (tree.leaf_habit == LeafHabit::evergreen) {
        if (!tree.leaf_out && !tree.leaf_fall) return;
        findings.warning({.code = "leaf_dates_unused",
                          .pointer = tree.label.pointer + "/leaf_habit",
                          .message = called(tree.label) + " is evergreen, but has dates of leaf.",
                          .mend = "They are not used. Is it deciduous?"});
        return;
    }
    // Between the tropics trees follow the rains.
    constexpr double tropic_deg = 23.5;
    if (!tree.leaf_out || !tree.leaf_fall || std::abs(latitude.in_degrees()) < tropic_deg) return;
    const int out = day_from_winter(*tree.leaf_out, latitude.is_south());
    const int fall = day_from_winter(*tree.leaf_fall, latitude.is_south());
    const std::string dates =
        "(" + iso_month_day(*tree.leaf_out) + ", " + iso_month_day(*tree.leaf_fall) + ")";
    // The 21 days of change at either end must not run into each other.
    constexpr int shortest_leaf_days = 42;
    if (fall - out >= shortest_leaf_days) return;
    findings.error({.code = "leaves_fall_before_they_open",
                    .pointer = tree.label.pointer + "/leaf_fall",
                    .message = "The leaves of " + called(tree.label) +
                               (fall < out ? " fall before they open "
                                           : " fall within six weeks of opening ") +
                               dates + ".",
                    .mend = fall < out ? "Swap the two, or are these the other hemisphere's dates?"
                                       : "Each is the middle of 21 days of change."});
}

}  // namespace

void check_trees(const Scene& scene, Findings& findings) {
    for (const Tree& tree : scene.trees) {
        check_crown(tree, findings);
        check_transmission(tree, findings);
        check_leaf_dates(tree, scene.site.place.latitude, findings);
    }
}

}  // namespace sunfleck::scene
