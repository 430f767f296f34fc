#include "agreement.h"

#include "mesh_garden.h"
#include "sunfleck/base/parallel.h"
#include "sunfleck/base/require.h"
#include "sunfleck/geometry/horizon.h"
#include "true_forms.h"

#include <algorithm>
#include <cmath>
#include <functional>
#include <numbers>

namespace sunfleck::bench {
namespace {

constexpr double excused_rad = 1e-6;
constexpr std::size_t differences_kept = 20;

using Answer = std::function<void(Vec3 spot, std::span<float> shares)>;

using Edge = std::function<EdgeDistance(Vec3 spot, Vec3 to_sun)>;

enum class Light { shade, filtered, full, nonsense };

Light light_of(double share) {
    if (!(share >= 0.0 && share <= 1.0)) return Light::nonsense;
    if (share >= 1.0) return Light::full;
    return share > 0.0 ? Light::filtered : Light::shade;
}

/// The least power of ten by which a ray must be turned, one of eight ways, to be told otherwise.
EdgeDistance edge_by_turning(const TrueForms& truth, Vec3 spot, Vec3 to_sun) {
    const Light light = light_of(truth.share(spot, to_sun));
    const Vec3 side = normalised(cross({0.31, 0.52, 0.79}, to_sun));
    const Vec3 over = cross(to_sun, side);
    EdgeDistance edge;
    for (edge.angle_rad = 1e-9; edge.angle_rad < 1.0; edge.angle_rad *= 10.0) {
        for (int i = 0; i < 8; ++i) {
            const double around = i * 0.25 * std::numbers::pi;
            const Vec3 turned = to_sun + (edge.angle_rad * std::cos(around)) * side +
                                (edge.angle_rad * std::sin(around)) * over;
            if (light_of(truth.share(spot, normalised(turned))) != light) return edge;
        }
    }
    return edge;
}

struct Examined {
    const Contestant* contestant = nullptr;
    std::unique_ptr<Prepared> prepared;
};

/// Everything that is compared in one garden.
struct Examination {
    std::string garden;
    const geometry::Horizon* horizon = nullptr;
    const SunRays* rays = nullptr;
    Answer truth;
    Edge edge;
    std::vector<Examined> examined;
};

void add(Difference difference, const Edge& edge, double corner_error_m, Agreement& into) {
    difference.edge = edge(difference.spot, difference.to_sun);
    const double distance_m = std::max(difference.edge.distance_m, 1e-3);
    const double allowed_rad = excused_rad + corner_error_m / distance_m;
    ++into.different;
    const bool is_nonsense = light_of(difference.share) == Light::nonsense;
    if (is_nonsense || !(difference.edge.angle_rad <= allowed_rad)) ++into.wrong;
    into.farthest_rad = std::max(into.farthest_rad, difference.edge.angle_rad);
    if (into.differences.size() < differences_kept) into.differences.push_back(difference);
}

Agreement judged(const Examination& all, const Examined& one, Vec3 spot,
                 std::span<const float> shares, std::span<const float> expected) {
    Agreement agreement{.garden = all.garden, .contestant = one.contestant->name};
    for (std::size_t i = 0; i < shares.size(); ++i) {
        const Vec3 to_sun = all.rays->to_sun[i];
        if (!geometry::is_over_horizon(*all.horizon, to_sun)) continue;
        const auto share = static_cast<double>(shares[i]);
        const auto right = static_cast<double>(expected[i]);
        ++agreement.rays;
        if (right < 1.0) ++agreement.shaded;
        if (light_of(share) == light_of(right)) continue;
        add({.spot = spot, .to_sun = to_sun, .share = share, .expected = right}, all.edge,
            one.contestant->corner_error_m, agreement);
    }
    return agreement;
}

std::vector<Agreement> compare(const Examination& all, const std::vector<Vec3>& spots,
                               int threads) {
    std::vector<std::vector<Agreement>> by_spot(spots.size());
    parallel_for_each_index(spots.size(), threads, [&](std::size_t s) {
        std::vector<float> expected(all.rays->size());
        std::vector<float> shares(all.rays->size());
        all.truth(spots[s], expected);
        for (const Examined& one : all.examined) {
            one.prepared->answer(*all.rays, spots[s], shares);
            by_spot[s].push_back(judged(all, one, spots[s], shares, expected));
        }
    });
    std::vector<Agreement> agreements;
    for (std::size_t i = 0; i < all.examined.size(); ++i) {
        agreements.push_back(
            {.garden = all.garden, .contestant = all.examined[i].contestant->name});
        for (const auto& parts : by_spot) join(agreements.back(), parts[i]);
    }
    return agreements;
}

}  // namespace

std::vector<Vec3> some_spots(const std::vector<Vec3>& spots, std::size_t about) {
    SUNFLECK_REQUIRE(about > 0, "no spots asked for");
    const std::size_t step = std::max<std::size_t>(1, spots.size() / about);
    std::vector<Vec3> some;
    for (std::size_t i = 0; i < spots.size(); i += step) some.push_back(spots[i]);
    return some;
}

void join(Agreement& all, const Agreement& part) {
    all.rays += part.rays;
    all.shaded += part.shaded;
    all.different += part.different;
    all.wrong += part.wrong;
    all.farthest_rad = std::max(all.farthest_rad, part.farthest_rad);
    for (const Difference& difference : part.differences) {
        if (all.differences.size() < differences_kept) all.differences.push_back(difference);
    }
}

std::vector<Agreement> compare_opaque(const TestGarden& garden, const SunRays& rays,
                                      std::size_t spots, const std::vector<Contestant>& contestants,
                                      int threads) {
    const geometry::Garden opaque = opaque_part(garden.garden);
    const std::vector<geometry::Triangle> facets = mesh_of(opaque, 0).opaque;
    Examination all{.garden = garden.name, .horizon = &opaque.horizon, .rays = &rays};
    std::unique_ptr<Prepared> truth;
    for (const Contestant& contestant : contestants) {
        std::unique_ptr<Prepared> prepared = contestant.prepare(opaque, garden.crown_halvings);
        if (contestant.name == "CGAL EPICK") {
            truth = std::move(prepared);
        } else {
            all.examined.push_back({.contestant = &contestant, .prepared = std::move(prepared)});
        }
    }
    SUNFLECK_REQUIRE(truth != nullptr, "CGAL EPICK is the truth that the others are held to");
    all.truth = [&](Vec3 spot, std::span<float> shares) { truth->answer(rays, spot, shares); };
    all.edge = [&](Vec3 spot, Vec3 to_sun) { return nearest_edge(facets, spot, to_sun); };
    return compare(all, some_spots(garden.spots, spots), threads);
}

std::vector<Agreement> compare_true_forms(const TestGarden& garden, const SunRays& rays,
                                          std::size_t spots,
                                          const std::vector<Contestant>& contestants, int threads) {
    const TrueForms truth(garden.garden);
    Examination all{.garden = garden.name, .horizon = &garden.garden.horizon, .rays = &rays};
    for (const Contestant& contestant : contestants) {
        all.examined.push_back(
            {.contestant = &contestant,
             .prepared = contestant.prepare(garden.garden, garden.crown_halvings)});
    }
    all.truth = [&](Vec3 spot, std::span<float> shares) {
        for (std::size_t i = 0; i < rays.size(); ++i) {
            shares[i] = static_cast<float>(truth.share(spot, rays.to_sun[i]));
        }
    };
    all.edge = [&](Vec3 spot, Vec3 to_sun) { return edge_by_turning(truth, spot, to_sun); };
    return compare(all, some_spots(garden.spots, spots), threads);
}

std::vector<MeshStep> mesh_convergence(const TestGarden& garden, const SunRays& day,
                                       std::size_t about_spots, int steps,
                                       const Contestant& all_hit) {
    const TrueForms truth(garden.garden);
    const std::vector<Vec3> spots = some_spots(garden.spots, about_spots);
    std::vector<double> expected;
    for (const Vec3& spot : spots) {
        double light = 0.0;
        for (const Vec3& to_sun : day.to_sun) light += truth.share(spot, to_sun);
        expected.push_back(light * day.step_min);
    }
    std::vector<MeshStep> convergence;
    for (int halvings = 0; halvings < steps; ++halvings) {
        const std::unique_ptr<Prepared> meshes = all_hit.prepare(garden.garden, halvings);
        MeshStep step{.triangles = 8 << (2 * halvings)};
        for (std::size_t i = 0; i < spots.size(); ++i) {
            const Sums sums = meshes->sum(day, std::span(spots).subspan(i, 1), 1);
            const double off = std::abs(sums.light_min - expected[i]);
            step.mean_off_min += off / static_cast<double>(spots.size());
            step.most_off_min = std::max(step.most_off_min, off);
        }
        convergence.push_back(step);
    }
    return convergence;
}

}  // namespace sunfleck::bench
