#include "sunfleck/placement/harm_model.h"

#include "sunfleck/base/nearest_name.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <string>
#include <utility>
#include <vector>

namespace sunfleck::placement {

namespace {

constexpr std::array<std::string_view, 6> weight_names{"hot_sun", "light_deficit", "pot_wall",
                                                       "jump",    "lift",          "carry"};
constexpr double largest_weight = 1000.0;

constexpr double hot_hours_h = 5.0;
constexpr double tropic_deg = 23.44;

struct Knot {
    double x;
    double y;
};

/// Straight lines between knots of ascending x, level beyond the ends.
double between_knots(std::span<const Knot> knots, double x) {
    if (x <= knots.front().x) {
        return knots.front().y;
    }
    for (std::size_t i = 1; i < knots.size(); ++i) {
        if (x <= knots[i].x) {
            const double share = (x - knots[i - 1].x) / (knots[i].x - knots[i - 1].x);
            return knots[i - 1].y + share * (knots[i].y - knots[i - 1].y);
        }
    }
    return knots.back().y;
}

/// Days after the hemisphere's height of summer, -183 to 183.
double days_after_height(bool is_south, Date date) {
    const MonthDay height =
        is_south ? MonthDay{std::chrono::January / 18} : MonthDay{std::chrono::July / 20};
    int nearest = 366;
    for (const int year : {year_of(date) - 1, year_of(date), year_of(date) + 1}) {
        const int days = days_between(in_year(height, year), date);
        if (std::abs(days) < std::abs(nearest)) {
            nearest = days;
        }
    }
    return nearest;
}

double normal_max_temperature_c(const std::vector<double>& monthly_c, Date date) {
    const auto month = static_cast<std::size_t>(static_cast<unsigned>(date.month())) - 1;
    const double after_middle =
        (static_cast<double>(static_cast<unsigned>(date.day())) - 15.0) / 30.4;
    const std::size_t other = after_middle >= 0.0 ? (month + 1) % 12 : (month + 11) % 12;
    const double share = std::min(std::abs(after_middle), 1.0);
    return monthly_c[month] + share * (monthly_c[other] - monthly_c[month]);
}

double heat_of(const scene::Site& site, double days_after, bool is_tropical, Date date) {
    if (site.normals.max_temperature_c.size() == 12) {
        const double max_c = normal_max_temperature_c(site.normals.max_temperature_c, date);
        return std::clamp((max_c - 18.0) / (25.0 - 18.0), 0.0, 1.0);
    }
    if (is_tropical) {
        return 1.0;
    }
    return std::clamp((75.0 - std::abs(days_after)) / (75.0 - 35.0), 0.0, 1.0);
}

double scorch_factor(scene::ScorchRisk risk) {
    switch (risk) {
        case scene::ScorchRisk::low:
            return 0.7;
        case scene::ScorchRisk::medium:
            return 1.0;
        case scene::ScorchRisk::high:
            return 1.4;
    }
    return 1.0;
}

double scorch_hours(scene::ScorchRisk risk) {
    switch (risk) {
        case scene::ScorchRisk::low:
            return 0.5;
        case scene::ScorchRisk::medium:
            return 0.0;
        case scene::ScorchRisk::high:
            return -0.5;
    }
    return 0.0;
}

double colour_factor(scene::PotColour colour) {
    switch (colour) {
        case scene::PotColour::pale:
            return 0.3;
        case scene::PotColour::medium:
            return 0.6;
        case scene::PotColour::dark:
            return 1.0;
    }
    return 0.6;
}

/// Hours that the soil adds to what a kind bears; the smallest soil counts 0.01 L.
double soil_hours(double soil_l) {
    return std::clamp(2.0 * std::log10(std::max(soil_l, 0.01) / 0.5), -1.5, 4.0);
}

double hot_sun_rate(double drought_tolerance, scene::ScorchRisk risk) {
    return 0.2 * (1.5 - 0.2 * drought_tolerance) * scorch_factor(risk);
}

bool is_in_passing_state(const scene::Pot& pot, Date date) {
    return pot.state && date <= pot.state->until;
}

double& weight_named(HarmWeights& weights, std::size_t index) {
    const std::array<double*, 6> members{&weights.hot_sun,  &weights.light_deficit,
                                         &weights.pot_wall, &weights.jump,
                                         &weights.lift,     &weights.carry};
    return *members[index];
}

Problem weight_problem(const scene::Scene& scene, const std::string& name) {
    Problem problem;
    problem.file = scene.file;
    problem.pointer = "/harm_weights/" + name;
    return problem;
}

}  // namespace

std::span<const std::string_view> harm_weight_names() {
    return weight_names;
}

Result<HarmWeights> harm_weights_of(const scene::Scene& scene) {
    HarmWeights weights;
    Problems problems;
    for (const auto& [name, value] : scene.harm_weights) {
        const auto known = std::find(weight_names.begin(), weight_names.end(), name);
        if (known == weight_names.end()) {
            Problem problem = weight_problem(scene, name);
            problem.code = "unknown_key";
            const std::vector<std::string> names(weight_names.begin(), weight_names.end());
            problem.nearest = nearest_name(name, names);
            problem.message = "There is no harm weight \"" + name + "\".";
            problem.mend = problem.nearest.empty()
                               ? "There are hot_sun, light_deficit, pot_wall, jump, lift, carry."
                               : "Did you mean \"" + problem.nearest + "\"?";
            problems.push_back(std::move(problem));
        } else if (!(value >= 0.0 && value <= largest_weight)) {
            Problem problem = weight_problem(scene, name);
            problem.code = "value_out_of_range";
            problem.message = "The harm weight \"" + name + "\" is not between 0 and 1000.";
            problem.mend = "1 is the usual weight, 2 counts double, 0 leaves it out.";
            problems.push_back(std::move(problem));
        } else {
            weight_named(weights, static_cast<std::size_t>(known - weight_names.begin())) = value;
        }
    }
    if (!problems.empty()) {
        return tl::unexpected<Problems>(std::move(problems));
    }
    return weights;
}

DayFactors day_factors(const scene::Site& site, Date date) {
    const Latitude latitude = site.place.latitude;
    const bool is_tropical = std::abs(latitude.in_degrees()) < tropic_deg;
    const double days_after = days_after_height(latitude.is_south(), date);
    constexpr std::array past_height{Knot{0, 0}, Knot{56, 1}, Knot{133, 1}, Knot{178, 0}};
    constexpr std::array activity{Knot{-141, 0.2}, Knot{-96, 1}, Knot{72, 1}, Knot{133, 0.2}};
    constexpr std::array softness{Knot{-183, 0.1}, Knot{-141, 0.3}, Knot{-91, 1},  Knot{-25, 1},
                                  Knot{26, 0.4},   Knot{57, 0.2},   Knot{118, 0.1}};
    DayFactors factors;
    factors.heat = heat_of(site, days_after, is_tropical, date);
    factors.ripening =
        std::max(0.15, (1.0 - factors.heat) * between_knots(past_height, days_after));
    factors.activity = is_tropical ? 1.0 : between_knots(activity, days_after);
    factors.softness = is_tropical ? 0.6 : between_knots(softness, days_after);
    return factors;
}

PotNature nature_of(const scene::Pot& pot, Date date) {
    const scene::Wants& wants = pot.wants;
    PotNature nature;
    nature.wall_per_h = 0.05 * colour_factor(pot.colour) / (1.0 + pot.soil_l / 3.0);
    if (is_in_passing_state(pot, date)) {
        nature.bears_hot_h = 0.0;
        nature.hot_sun_per_h = hot_sun_rate(0.0, scene::ScorchRisk::high);
        nature.least_heat = 0.6;
        nature.wanted_sun_h = 1.5;
        nature.light_need = 0.6;
        nature.ripens = false;
        nature.jump_days = 6.0 * scorch_factor(scene::ScorchRisk::high);
        return nature;
    }
    nature.bears_hot_h =
        std::max(0.0, wants.sun_max_h - hot_hours_h + soil_hours(pot.soil_l) +
                          0.4 * (wants.drought_tolerance - 2.5) + scorch_hours(wants.scorch_risk));
    nature.hot_sun_per_h = hot_sun_rate(wants.drought_tolerance, wants.scorch_risk);
    nature.wanted_sun_h = wants.sun_min_h;
    nature.light_need = 1.2 - 0.16 * wants.shade_tolerance;
    nature.jump_days = 6.0 * scorch_factor(wants.scorch_risk);
    return nature;
}

double hot_sun_harm(const PotNature& nature, const DayFactors& factors, const SpotDay& day) {
    const double too_much_h = std::max(0.0, day.hot_effective_h - nature.bears_hot_h);
    return std::max(factors.heat, nature.least_heat) * nature.hot_sun_per_h *
           (too_much_h + too_much_h * too_much_h / hot_hours_h) / 2.0;
}

double light_deficit_harm(const PotNature& nature, const DayFactors& factors, const SpotDay& day) {
    if (!(day.open_light_wh_m2 > 0.0 && day.sun_up_h > 0.0)) {
        return 0.0;  // no sun anywhere: no spot is to blame
    }
    const double share = day.light_wh_m2 / day.open_light_wh_m2;
    const double wanted_share = std::min(1.0, nature.wanted_sun_h / day.sun_up_h);
    const double below_want = wanted_share > 0.0 ? std::max(0.0, 1.0 - share / wanted_share) : 0.0;
    const double below_open = std::max(0.0, 1.0 - share);
    const double ripening = nature.ripens ? factors.ripening : 0.0;
    return factors.activity * nature.light_need *
           ((1.0 - ripening) * below_want + ripening * below_open);
}

double pot_wall_harm(const PotNature& nature, const DayFactors& factors, const SpotDay& day) {
    return factors.heat * nature.wall_per_h * std::max(0.0, day.wall_effective_h - 2.0);
}

double jump_harm(const PotNature& nature, double softness, double share_here, double share_there) {
    return nature.jump_days * softness * std::max(0.0, share_there - share_here);
}

double move_cost(const scene::Pot& pot, const HarmWeights& weights) {
    return std::max(0.001, 2.0 * weights.lift + 0.1 * weights.carry * pot.weight_kg);
}

}  // namespace sunfleck::placement
