#include "contestant.h"
#include "mesh_garden.h"
#include "ray_caster.h"
#include "sunfleck/base/parallel.h"

#include <algorithm>
#include <utility>

namespace sunfleck::bench {
namespace {

/// Embree's corners are single precision: within 64 m half a unit in the last place is 1.9e-6 m
/// along each axis.
constexpr double single_corner_m = 4e-6;

/// Spots that one task takes: few enough to share out evenly, enough to hide the sharing.
constexpr std::size_t spots_at_once = 4;

class PreparedCaster final : public Prepared {
  public:
    explicit PreparedCaster(std::unique_ptr<RayCaster> caster) : caster_(std::move(caster)) {}

    void answer(const SunRays& rays, Vec3 spot, std::span<float> shares) const override {
        caster_->cast(rays, 0, spot, shares.first(rays.size()));
    }

    [[nodiscard]] Sums sum(const SunRays& rays, std::span<const Vec3> spots,
                           int threads) const override {
        // Each spot's light of each day is kept, as a user would need it.
        std::vector<float> light(spots.size() * rays.days());
        const std::size_t tasks = (spots.size() + spots_at_once - 1) / spots_at_once;
        parallel_for_each_index(tasks, threads, [&](std::size_t task) {
            std::vector<float> shares(1440);
            const std::size_t end = std::min(spots.size(), (task + 1) * spots_at_once);
            for (std::size_t i = task * spots_at_once; i < end; ++i) {
                for (std::size_t day = 0; day < rays.days(); ++day) {
                    light[i * rays.days() + day] = day_light(rays, day, spots[i], shares);
                }
            }
        });
        Sums sums{.answered = spots.size() * rays.size()};
        for (const float of_day : light) sums.light_min += static_cast<double>(of_day);
        sums.light_min *= rays.step_min;
        return sums;
    }

    [[nodiscard]] std::size_t bytes() const override { return caster_->bytes(); }

  private:
    [[nodiscard]] float day_light(const SunRays& rays, std::size_t day, Vec3 spot,
                                  std::span<float> shares) const {
        const std::size_t from = rays.day_starts[day];
        const std::span<float> of_day = shares.first(rays.day_starts[day + 1] - from);
        caster_->cast(rays, from, spot, of_day);
        float light = 0.0F;
        for (const float share : of_day) light += share;
        return light;
    }

    std::unique_ptr<RayCaster> caster_;
};

using MakeCaster = std::unique_ptr<RayCaster> (*)(const MeshGarden&);

Contestant cgal(const char* name, MakeCaster make) {
    return {.name = name,
            .sees = Sees::opaque,
            .pace = Pace::slowest,
            .prepare = [make](const geometry::Garden& garden, int halvings) {
                return std::make_unique<PreparedCaster>(make(mesh_of(garden, halvings)));
            }};
}

Contestant embree(const char* name, Sees sees, EmbreeMode mode) {
    return {.name = name,
            .sees = sees,
            .corner_error_m = single_corner_m,
            .pace = Pace::slow,
            .prepare = [mode](const geometry::Garden& garden, int halvings) {
                return std::make_unique<PreparedCaster>(
                    make_embree_caster(mesh_of(garden, halvings), mode));
            }};
}

}  // namespace

std::vector<Contestant> ray_casting_contestants() {
    return {cgal("CGAL EPICK", make_cgal_exact_caster),
            cgal("CGAL Simple_cartesian", make_cgal_simple_caster),
            embree("Embree Occluded1", Sees::opaque, EmbreeMode::single),
            embree("Embree Occluded16", Sees::opaque, EmbreeMode::packets),
            embree("Embree all-hit 1", Sees::all, EmbreeMode::all_hit_single),
            embree("Embree all-hit 16 coherent", Sees::all, EmbreeMode::all_hit_coherent),
            embree("Embree all-hit 16 incoher.", Sees::all, EmbreeMode::all_hit_incoherent)};
}

}  // namespace sunfleck::bench
