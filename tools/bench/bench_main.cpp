// Proves that the contestants agree, then measures them: see DEVELOPERS.md, "Measure".
#include "bench_options.h"
#include "bench_result.h"
#include "drag.h"
#include "mesh_garden.h"
#include "sunfleck/rays/light_tracer.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <exception>
#include <functional>
#include <iostream>
#include <stdexcept>
#include <utility>

namespace sunfleck::bench {
namespace {

constexpr int year = 2025;
constexpr int random_gardens = 20;

Date june_21() {
    return make_date(year, 6, 21);
}

void tell(const std::string& what) {
    std::cerr << "bench: " << what << "\n";
}

std::vector<Contestant> those_that_see(const std::vector<Contestant>& all, Sees sees) {
    std::vector<Contestant> some;
    for (const Contestant& one : all) {
        if (one.sees == sees) some.push_back(one);
    }
    return some;
}

/// Keeps those whose name holds one of the texts; all when there are none.
void keep_named(const std::vector<std::string>& texts, std::vector<Contestant>& contestants) {
    if (texts.empty()) return;
    std::erase_if(contestants, [&](const Contestant& one) {
        return std::ranges::none_of(texts, [&](const std::string& text) {
            return one.name.find(text) != std::string::npos;
        });
    });
}

const Contestant& named(const std::vector<Contestant>& all, const std::string& name) {
    for (const Contestant& one : all) {
        if (one.name == name) return one;
    }
    throw std::logic_error("no contestant is called " + name);
}

/// Joins what was found in many gardens into one row for each contestant.
std::vector<Agreement> joined(const std::string& name,
                              const std::vector<std::vector<Agreement>>& gardens) {
    std::vector<Agreement> rows = gardens.front();
    for (Agreement& row : rows) row.garden = name;
    for (std::size_t i = 1; i < gardens.size(); ++i) {
        for (std::size_t k = 0; k < rows.size(); ++k) join(rows[k], gardens[i][k]);
    }
    return rows;
}

using Comparison = std::function<std::vector<Agreement>(const TestGarden&, std::size_t spots)>;

/// Compares in S, M, L and random gardens, each with a share of the spots that all rays buy.
std::vector<Agreement> in_all_gardens(std::size_t all_spots, const Comparison& compare) {
    const auto spots = [&](double share) {
        return static_cast<std::size_t>(std::ceil(share * static_cast<double>(all_spots)));
    };
    std::vector<Agreement> all = compare(make_garden(GardenSize::small), spots(0.15));
    for (const auto& [size, share] :
         {std::pair{GardenSize::medium, 0.15}, std::pair{GardenSize::large, 0.1}}) {
        for (Agreement& one : compare(make_garden(size), spots(share))) all.push_back(one);
    }
    std::vector<std::vector<Agreement>> random;
    const std::size_t spots_each = spots(0.6 / random_gardens);
    for (std::uint64_t seed = 1000; seed < 1000 + random_gardens; ++seed) {
        random.push_back(
            compare(make_random_garden(seed, 60, static_cast<int>(spots_each)), spots_each));
    }
    for (Agreement& one : joined("random", random)) all.push_back(std::move(one));
    return all;
}

std::size_t spots_for(double rays_m, const SunRays& rays) {
    return static_cast<std::size_t>(1e6 * rays_m / static_cast<double>(rays.size())) + 1;
}

void prove_rays(Proof& proof, const std::vector<Contestant>& contestants, double rays_m) {
    const SunRays rays = sun_rays(days_of_year(year, 1), 5);
    const std::vector<Contestant> opaque = those_that_see(contestants, Sees::opaque);
    tell("comparing opaque rays");
    proof.opaque =
        in_all_gardens(spots_for(rays_m, rays), [&](const TestGarden& garden, std::size_t spots) {
            return compare_opaque(garden, rays, spots, opaque, 0);
        });
    const std::vector<Contestant> exact{named(contestants, "Sunfleck nets and crowns")};
    tell("comparing rays through nets and crowns");
    proof.true_forms = in_all_gardens(spots_for(0.25 * rays_m, rays),
                                      [&](const TestGarden& garden, std::size_t spots) {
                                          return compare_true_forms(garden, rays, spots, exact, 0);
                                      });
}

/// The contestant, given the garden with one object beside its place.
Contestant misled(const Contestant& one, std::uint32_t object) {
    Contestant misled = one;
    misled.prepare = [prepare = one.prepare, object](const geometry::Garden& garden, int halvings) {
        return prepare(with_moved(garden, object, {2e-3, 0.0, 0.0}), halvings);
    };
    return misled;
}

void prove_controls(Proof& proof, const std::vector<Contestant>& contestants) {
    const SunRays rays = sun_rays(days_of_year(year, 7), 5);
    const TestGarden garden = make_garden(GardenSize::small);
    const std::uint32_t first_bench = 0;
    for (const char* name : {"CGAL Simple_cartesian", "Embree Occluded16", "Sunfleck opaque"}) {
        const std::vector<Contestant> pair{named(contestants, "CGAL EPICK"),
                                           misled(named(contestants, name), first_bench)};
        proof.controls.push_back(compare_opaque(garden, rays, 20, pair, 0).front());
    }
    const Contestant& exact = named(contestants, "Sunfleck nets and crowns");
    proof.controls.push_back(
        compare_true_forms(garden, rays, 20, {misled(exact, garden.dragged_object)}, 0).front());
}

void prove_days(Proof& proof, const std::vector<Contestant>& contestants) {
    const SunRays day = sun_rays(std::array{june_21()});
    const Contestant& all_hit = named(contestants, "Embree all-hit 16 coherent");
    tell("comparing a day's light, halving crowns' edges");
    for (const GardenSize size : {GardenSize::small, GardenSize::medium}) {
        const TestGarden garden = make_garden(size);
        proof.day_light.push_back(compare_day_light(garden, day, 100));
        proof.meshes.push_back(
            {.garden = garden.name, .steps = mesh_convergence(garden, day, 200, 5, all_hit)});
    }
    proof.day_light.push_back(compare_day_light(make_garden(GardenSize::large), day, 20));
}

Proof prove(const std::vector<Contestant>& contestants, double rays_m) {
    Proof proof;
    proof.took = measured([&] {
        prove_rays(proof, contestants, rays_m);
        prove_controls(proof, contestants);
        prove_days(proof, contestants);
    });
    return proof;
}

/// Days and a year from nothing, and a tree dragged about.
std::vector<Chore> chores_in(const TestGarden& garden, const SunRays& day, const SunRays& days,
                             const std::vector<Contestant>& contestants,
                             const std::string& simd_target, const RaceOptions& race_options) {
    std::vector<Chore> chores;
    for (const Contestant& one : contestants) {
        chores.push_back(cold("cold_day", garden, day, one, 1, race_options));
    }
    for (const Contestant& one : contestants) {
        if (one.pace != Pace::fast) continue;
        for (const int threads : {1, 2}) {
            chores.push_back(cold("cold_year", garden, days, one, threads, race_options));
        }
    }
    chores.push_back(drag_layers(garden, day, race_options, simd_target));
    for (const Contestant& one : contestants) {
        if (one.pace == Pace::slow && one.sees == Sees::all) {
            chores.push_back(drag_by_casting(garden, day, one, race_options));
        }
    }
    return chores;
}

GardenResult race_in(GardenSize size, const std::vector<Contestant>& contestants,
                     const BenchOptions& options) {
    const TestGarden garden = make_garden(size);
    const std::size_t embree_spots =
        options.embree_spots.value_or(size == GardenSize::large ? 200 : garden.spots.size());
    const RaceOptions race_options{
        .repeats = options.repeats, .cgal_spots = options.cgal_spots, .embree_spots = embree_spots};
    GardenResult result{.name = garden.name,
                        .triangles = mesh_of(garden.garden, garden.crown_halvings).triangle_count(),
                        .pieces = garden.garden.pieces.size(),
                        .spots = garden.spots.size()};
    const SunRays day = sun_rays(std::array{june_21()});
    const SunRays days = sun_rays(days_of_year(year, options.year_step));
    const std::string what =
        options.year_step == 1 ? "a year" : std::to_string(days.days()) + " days of a year";
    tell("racing in garden " + garden.name + ", a day");
    result.heats.push_back({"21 June", day.size(), race(garden, day, contestants, race_options)});
    tell("racing in garden " + garden.name + ", a year");
    result.heats.push_back({what, days.size(), race(garden, days, contestants, race_options)});
    tell("from beginning to end in garden " + garden.name);
    result.chores = chores_in(garden, day, days, contestants, options.simd_target, race_options);
    return result;
}

int run(const BenchOptions& options) {
    const std::vector<std::string> targets = rays::simd_targets();
    if (!options.simd_target.empty() && std::ranges::count(targets, options.simd_target) == 0) {
        std::cerr << "bench: this processor or build has no " << options.simd_target << "\n";
        return 2;
    }
    std::vector<Contestant> contestants = ray_casting_contestants();
    for (Contestant& one : product_contestants(options.simd_target)) {
        contestants.push_back(std::move(one));
    }
    BenchResult result{.machine = this_machine(),
                       .simd = options.simd_target.empty() ? targets.front() : options.simd_target,
                       .repeats = options.repeats,
                       .load_before = load_average()};
    if (!options.skips_proof) result.proof = prove(contestants, options.agreement_rays_m);
    keep_named(options.only, contestants);
    if (!options.only_agreement && (options.skips_proof || result.proof->holds())) {
        for (const GardenSize size : options.gardens) {
            result.gardens.push_back(race_in(size, contestants, options));
        }
    }
    result.load_after = load_average();
    std::cout << (options.is_json ? json_of(result) : text_of(result));
    return options.skips_proof || result.proof->holds() ? 0 : 1;
}

}  // namespace
}  // namespace sunfleck::bench

int main(int argc, char** argv) {
    try {
        const auto parsed = sunfleck::bench::parse_options(argc, argv);
        return parsed.exit_code ? *parsed.exit_code : sunfleck::bench::run(parsed.options);
    } catch (const std::exception& error) {
        std::cerr << "bench: " << error.what() << "\n";
        return 3;
    }
}
