#include "contestant.h"
#include "span_light.h"
#include "sunfleck/base/parallel.h"
#include "sunfleck/base/require.h"
#include "sunfleck/rays/light_tracer.h"

#include <utility>

namespace sunfleck::bench {
namespace {

/// The share that a span gives each of its samples; behind a crown it is the span's mean.
float share_of(const rays::LightSpan* span) {
    return span == nullptr ? 0.0F : span->transmittance;
}

class Solved final : public Prepared {
  public:
    Solved(geometry::Garden garden, rays::LightKind kind, std::string simd_target)
        : garden_(std::move(garden)), kind_(kind), simd_target_(std::move(simd_target)) {}

    void answer(const SunRays& rays, Vec3 spot, std::span<float> shares) const override {
        const rays::LightSpans light = traced(rays, std::span(&spot, 1), 1);
        for (std::size_t day = 0; day < rays.days(); ++day) {
            for (std::size_t i = rays.day_starts[day]; i < rays.day_starts[day + 1]; ++i) {
                shares[i] = share_of(light.at_sample(0, day, rays.samples[i]));
            }
        }
    }

    [[nodiscard]] Sums sum(const SunRays& rays, std::span<const Vec3> spots,
                           int threads) const override {
        SUNFLECK_REQUIRE(rays.step_min == 1, "the product answers every minute");
        const rays::LightSpans light = traced(rays, spots, threads);
        std::vector<float> minutes(spots.size() * rays.days());
        parallel_for_each_index(spots.size(), threads, [&](std::size_t spot) {
            for (std::size_t day = 0; day < rays.days(); ++day) {
                minutes[spot * rays.days() + day] =
                    static_cast<float>(effective_min(light, spot, day));
            }
        });
        Sums sums{.answered = spots.size() * rays.table->asked_count()};
        for (const float of_day : minutes) sums.light_min += static_cast<double>(of_day);
        sums.answer_bytes = light.byte_count();
        return sums;
    }

  private:
    [[nodiscard]] rays::LightSpans traced(const SunRays& rays, std::span<const Vec3> points,
                                          int threads) const {
        std::vector<rays::LightSpot> spots;
        spots.reserve(points.size());
        for (const Vec3& point : points) spots.push_back({.point = point, .outward = {}});
        return rays::make_solving_tracer(garden_, *rays.table)
            ->trace({.spots = spots,
                     .kind = kind_,
                     .resolves_all_laths = true,
                     .thread_count = threads,
                     .simd_target = simd_target_});
    }

    geometry::Garden garden_;
    rays::LightKind kind_;
    std::string simd_target_;
};

Contestant solved(const char* name, Sees sees, const std::string& simd_target) {
    const rays::LightKind kind =
        sees == Sees::all ? rays::LightKind::everything : rays::LightKind::opaque_only;
    return {.name = name,
            .sees = sees,
            .prepare = [kind, simd_target](const geometry::Garden& garden, int /*halvings*/) {
                return std::make_unique<Solved>(garden, kind, simd_target);
            }};
}

}  // namespace

std::vector<Contestant> product_contestants(const std::string& simd_target) {
    return {solved("Sunfleck opaque", Sees::opaque, simd_target),
            solved("Sunfleck nets and crowns", Sees::all, simd_target)};
}

}  // namespace sunfleck::bench
