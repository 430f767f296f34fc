#include "sunfleck/scene/pot_defaults.h"

#include "sunfleck/scene/species.h"

#include <algorithm>
#include <array>

namespace sunfleck::scene {
namespace {

constexpr double litres_per_m3 = 1000.0;

/// Mame to dai: the worked examples of growers' drying times; the ends from the usual ranges.
constexpr std::array<PotExample, 7> examples{{
    {"keshi-tsubo", 0.03, 0.03, 0.025, 0.05, 0.06},
    {"mame", 0.06, 0.05, 0.03, 0.09, 0.09},
    {"shohin", 0.11, 0.09, 0.045, 0.18, 0.20},
    {"kifu", 0.20, 0.15, 0.06, 0.32, 0.30},
    {"chuhin", 0.34, 0.25, 0.075, 0.50, 0.48},
    {"dai", 0.52, 0.38, 0.10, 0.75, 0.85},
    {"hachi-uye", 0.95, 0.70, 0.16, 1.30, 1.30},
}};
constexpr std::size_t shohin = 2;

double soil_of(const PotExample& pot) {
    return soil_of_box_l(pot.length_m, pot.width_m, pot.height_m);
}

PotExample scaled(PotExample pot, double factor) {
    for (double* size :
         {&pot.length_m, &pot.width_m, &pot.height_m, &pot.crown_width_m, &pot.crown_height_m}) {
        *size *= factor;
    }
    return pot;
}

PotExample mixed(const PotExample& a, const PotExample& b, double share) {
    const auto mix = [share](double from, double to) { return from + share * (to - from); };
    return {a.size_class,
            mix(a.length_m, b.length_m),
            mix(a.width_m, b.width_m),
            mix(a.height_m, b.height_m),
            mix(a.crown_width_m, b.crown_width_m),
            mix(a.crown_height_m, b.crown_height_m)};
}

/// The usual pot whose `measure` is `value`: between its two neighbours in the table by
/// bisection, as soil is no straight line of the sizes; beyond the ends in proportion.
template <typename Measure>
PotExample example_with(double value, Measure measure) {
    const auto bisect = [value, &measure](auto at, double low, double high) {
        for (int step = 0; step < 60; ++step) {
            const double middle = 0.5 * (low + high);
            (measure(at(middle)) < value ? low : high) = middle;
        }
        return at(high);
    };
    if (value < measure(examples.front())) {
        return bisect([](double f) { return scaled(examples.front(), f); }, 0.0, 1.0);
    }
    for (std::size_t i = 1; i < examples.size(); ++i) {
        if (value > measure(examples[i])) continue;
        return bisect([i](double share) { return mixed(examples[i - 1], examples[i], share); }, 0.0,
                      1.0);
    }
    return bisect([](double f) { return scaled(examples.back(), f); }, 1.0, 1000.0);
}

PotExample example_for(const Pot& pot) {
    if (pot.pot_length_m > 0.0) {
        return example_with(pot.pot_length_m, [](const PotExample& e) { return e.length_m; });
    }
    if (pot.pot_width_m > 0.0) {
        return example_with(pot.pot_width_m, [](const PotExample& e) { return e.width_m; });
    }
    if (pot.soil_l > 0.0) return example_with(pot.soil_l, soil_of);
    if (pot.crown_width_m > 0.0) {
        return example_with(pot.crown_width_m, [](const PotExample& e) { return e.crown_width_m; });
    }
    if (pot.crown_height_m > 0.0) {
        return example_with(pot.crown_height_m,
                            [](const PotExample& e) { return e.crown_height_m; });
    }
    return examples[shohin];
}

void fill_sizes(Pot& pot) {
    const PotExample usual = example_for(pot);
    const auto fill = [](double& size, double guess) {
        if (!(size > 0.0)) size = guess;
    };
    fill(pot.pot_length_m, usual.length_m);
    fill(pot.pot_width_m, usual.width_m);
    fill(pot.pot_height_m, usual.height_m);
    fill(pot.crown_width_m, usual.crown_width_m);
    fill(pot.crown_height_m, usual.crown_height_m);
    fill(pot.soil_l, soil_of_box_l(pot.pot_length_m, pot.pot_width_m, pot.pot_height_m));
    fill(pot.weight_kg, wet_weight_kg(pot.soil_l));
}

void fill_wants(Pot& pot) {
    const Species* species = find_species(pot.species);
    pot.has_known_wants = species != nullptr || pot.own_wants != OwnWants{};
    pot.wants = species != nullptr ? species->wants : Wants{};
    const OwnWants& own = pot.own_wants;
    pot.wants.sun_min_h = own.sun_min_h.value_or(pot.wants.sun_min_h);
    pot.wants.sun_max_h = own.sun_max_h.value_or(pot.wants.sun_max_h);
    pot.wants.drought_tolerance = own.drought_tolerance.value_or(pot.wants.drought_tolerance);
    pot.wants.shade_tolerance = own.shade_tolerance.value_or(pot.wants.shade_tolerance);
    pot.wants.scorch_risk = own.scorch_risk.value_or(pot.wants.scorch_risk);
    pot.wants.shelter_below_c = own.shelter_below_c.value_or(pot.wants.shelter_below_c);
    // One own limit may pass the species' other one: the stated limit holds.
    if (own.sun_min_h && !own.sun_max_h) {
        pot.wants.sun_max_h = std::max(pot.wants.sun_max_h, *own.sun_min_h);
    } else if (own.sun_max_h && !own.sun_min_h) {
        pot.wants.sun_min_h = std::min(pot.wants.sun_min_h, *own.sun_max_h);
    }
}

}  // namespace

std::span<const PotExample> pot_examples() {
    return examples;
}

double soil_of_box_l(double length_m, double width_m, double height_m) {
    return 0.85 * length_m * width_m * height_m * litres_per_m3;
}

double wet_weight_kg(double soil_l) {
    return 0.05 + 2.0 * soil_l;
}

void complete_pots(Scene& scene) {
    for (Pot& pot : scene.pots) {
        fill_sizes(pot);
        fill_wants(pot);
    }
}

}  // namespace sunfleck::scene
