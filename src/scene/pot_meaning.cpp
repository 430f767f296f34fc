#include "scene/findings.h"
#include "sunfleck/base/plain_words.h"
#include "sunfleck/scene/pot_defaults.h"
#include "sunfleck/scene/species.h"

#include <algorithm>
#include <cmath>

namespace sunfleck::scene {
namespace {

/// "1.5 l", "0.38 l".
std::string litres(double volume_l) {
    return fixed_words(volume_l, volume_l < 1.0 ? 2 : 1) + " l";
}

/// Whom the table has of its kind, for one that is named too broadly.
std::string kin_words(const std::string& name) {
    constexpr std::size_t most_told = 4;
    const std::vector<std::string> kin = kindred_species(name);
    if (kin.empty()) return "It is planned as a middling tree, unless you state its wants.";
    std::string words = "Is it ";
    const std::size_t told = std::min(kin.size(), most_told);
    for (std::size_t i = 0; i < told; ++i) {
        words += (i == 0 ? "" : i + 1 == told ? " or " : ", ") + kin[i];
    }
    return words + "? Else it is planned as a middling tree.";
}

void check_species(const Pot& pot, Findings& findings) {
    if (pot.species.empty() || find_species(pot.species) != nullptr) return;
    const std::string nearest = nearest_species(pot.species);
    findings.warning(
        {.code = "unknown_species",
         .pointer = pot.label.pointer + "/species",
         .message = "The table has no species \"" + pot.species + "\".",
         .mend = nearest.empty() ? kin_words(pot.species) : "Did you mean " + nearest + "?",
         .nearest = nearest});
}

/// One warning for all pots of which nothing is known: there may be many.
void check_known_wants(const Scene& scene, Findings& findings) {
    const Pot* first = nullptr;
    std::size_t count = 0;
    for (const Pot& pot : scene.pots) {
        if (pot.has_known_wants || !pot.species.empty()) continue;
        if (first == nullptr) first = &pot;
        ++count;
    }
    if (first == nullptr) return;
    findings.warning(
        {.code = "unknown_wants",
         .pointer = first->label.pointer,
         .message = count_words(count, "pot") + " " + (count == 1 ? "has" : "have") +
                    " neither species nor wants; the first is " + called(first->label) + ".",
         .mend = "Such a pot is planned as a middling tree. A species makes the plan truer."});
}

void check_wants(const Pot& pot, Findings& findings) {
    const OwnWants& own = pot.own_wants;
    if (!own.sun_min_h || !own.sun_max_h || *own.sun_min_h <= *own.sun_max_h) return;
    findings.error({.code = "wants_swapped",
                    .pointer = pot.label.pointer + "/wants/sun_min_h",
                    .message = called(pot.label) + " wants at least " +
                               duration_words(60.0 * *own.sun_min_h) + " of sun and at most " +
                               duration_words(60.0 * *own.sun_max_h) + ".",
                    .mend = "Swap the two."});
}

/// Sizes that fit each other badly: another unit, or a point forgotten.
void check_sizes(const Pot& given, const Pot& pot, Findings& findings) {
    const double box_l = soil_of_box_l(pot.pot_length_m, pot.pot_width_m, pot.pot_height_m) / 0.85;
    const bool has_box =
        given.pot_length_m > 0.0 && given.pot_width_m > 0.0 && given.pot_height_m > 0.0;
    if (has_box && given.soil_l > 1.05 * box_l) {
        findings.warning({.code = "soil_overflows",
                          .pointer = pot.label.pointer + "/soil_l",
                          .message = called(pot.label) + " has " + litres(pot.soil_l) +
                                     " of soil, but its pot holds at most " + litres(box_l) + ".",
                          .mend = "Did you mean " + litres(0.85 * box_l) +
                                  "? Pots are measured in cm, soil in litres."});
    }
    // A watered pot with its tree weighs 1.3 to 3 kg per litre of soil (common practice).
    constexpr double heaviest_kg_per_l = 6.0;
    constexpr double lightest_kg_per_l = 0.6;
    if (given.weight_kg > 2.0 + heaviest_kg_per_l * pot.soil_l ||
        (given.weight_kg > 0.0 && given.weight_kg < lightest_kg_per_l * pot.soil_l)) {
        findings.warning({.code = "odd_weight",
                          .pointer = pot.label.pointer + "/weight_kg",
                          .message = called(pot.label) + " weighs " + weight_words(pot.weight_kg) +
                                     " with " + litres(pot.soil_l) + " of soil.",
                          .mend = "Did you mean " + weight_words(wet_weight_kg(pot.soil_l)) + "?"});
    }
    constexpr double widest_crown = 10.0;
    if (given.crown_width_m > widest_crown * pot.pot_length_m && given.pot_length_m > 0.0) {
        findings.warning({.code = "crown_too_wide",
                          .pointer = pot.label.pointer + "/crown_width_cm",
                          .message = "The crown of " + called(pot.label) + " is " +
                                     length_words(pot.crown_width_m) + " wide over a pot of " +
                                     length_words(pot.pot_length_m) + ".",
                          .mend = "Pots and crowns are measured in cm."});
    }
}

void check_lifting(const Pot& pot, const Lifting& lifting, Findings& findings) {
    const double limit_kg = lifting.people * lifting.limit_kg;
    if (pot.pinned || pot.weight_kg <= limit_kg) return;
    const int people = static_cast<int>(std::ceil(pot.weight_kg / lifting.limit_kg - 1e-9));
    constexpr int most_round_a_pot = 8;
    findings.warning({.code = "too_heavy_to_lift",
                      .pointer = pot.label.pointer,
                      .message = called(pot.label) + " weighs " + weight_words(pot.weight_kg) +
                                 "; " + std::to_string(lifting.people) +
                                 (lifting.people == 1 ? " person lifts " : " people lift ") +
                                 weight_words(limit_kg) + ".",
                      .mend = people > most_round_a_pot
                                  ? "It stays where it stands: it wants a lift."
                                  : "It stays where it stands. It wants " + std::to_string(people) +
                                        " people or a trolley."});
}

void check_batch(const Pot& pot, Findings& findings) {
    if (pot.count <= 1 || !pot.pinned) return;
    findings.error({.code = "pinned_batch",
                    .pointer = pot.label.pointer + "/pinned",
                    .message = called(pot.label) + " is a batch of " + std::to_string(pot.count) +
                               " and cannot be pinned to one spot.",
                    .mend = "List the pots that must stay one by one."});
}

}  // namespace

void check_pots(const CheckedGarden& garden, Findings& findings) {
    for (const Pot& pot : garden.scene.pots) {
        check_species(pot, findings);
        check_wants(pot, findings);
        check_lifting(pot, garden.scene.lifting, findings);
        check_batch(pot, findings);
    }
    check_known_wants(garden.scene, findings);
}

void check_pot_sizes(const Scene& given, const CheckedGarden& garden, Findings& findings) {
    for (std::size_t i = 0; i < given.pots.size(); ++i) {
        check_sizes(given.pots[i], garden.scene.pots[i], findings);
    }
}

}  // namespace sunfleck::scene
