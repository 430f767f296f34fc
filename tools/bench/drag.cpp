#include "drag.h"

#include "machine.h"
#include "span_light.h"
#include "sunfleck/rays/light_layers.h"

#include <array>

namespace sunfleck::bench {
namespace {

constexpr Vec3 drag_m{0.3, 0.0, 0.0};
/// Drags a repeat is the mean of: one alone is as short as the clock's noise.
constexpr std::size_t drags = 10;

std::vector<geometry::Piece> pieces_of(const geometry::Garden& garden, std::uint32_t object) {
    std::vector<geometry::Piece> pieces;
    for (const geometry::Piece& piece : garden.pieces) {
        if (piece.object == object) pieces.push_back(piece);
    }
    return pieces;
}

}  // namespace

Chore drag_layers(const TestGarden& garden, const SunRays& day, const RaceOptions& options,
                  const std::string& simd_target) {
    const std::uint32_t object = garden.dragged_object;
    const std::array places{pieces_of(with_moved(garden.garden, object, drag_m), object),
                            pieces_of(garden.garden, object)};
    std::vector<rays::LightSpot> spots;
    for (const Vec3& point : garden.spots) spots.push_back({.point = point, .outward = {}});
    const std::size_t before = allocated_bytes();
    rays::LightLayers layers(garden.garden, *day.table,
                             {.spots = spots,
                              .resolves_all_laths = true,
                              .thread_count = 1,
                              .simd_target = simd_target});
    Chore chore{.contestant = "Sunfleck nets and crowns",
                .what = "drag_day",
                .bytes = allocated_bytes() - before};
    std::vector<double> minutes(garden.spots.size());
    std::vector<double> cpu_ms;
    std::vector<double> wall_ms;
    for (int repeat = 0; repeat < options.repeats; ++repeat) {
        const Span span = measured([&] {
            for (std::size_t i = 0; i < drags; ++i) {
                const auto changed = layers.replace_object(object, places[i % 2]);
                for (const std::uint32_t spot : changed) {
                    minutes[spot] = effective_min(layers.light(), spot, 0);
                }
            }
        });
        cpu_ms.push_back(1e3 * span.cpu_s / static_cast<double>(drags));
        wall_ms.push_back(1e3 * span.wall_s / static_cast<double>(drags));
    }
    chore.cpu_ms = spread(cpu_ms);
    chore.wall_ms = spread(wall_ms);
    return chore;
}

Chore drag_by_casting(const TestGarden& garden, const SunRays& day, const Contestant& contestant,
                      const RaceOptions& options) {
    const geometry::Garden moved = with_moved(garden.garden, garden.dragged_object, drag_m);
    const std::vector<Vec3> spots = spots_for(contestant, garden, options);
    const double scale =
        static_cast<double>(garden.spots.size()) / static_cast<double>(spots.size());
    std::vector<double> cpu_ms;
    std::vector<double> wall_ms;
    for (int repeat = 0; repeat < options.repeats; ++repeat) {
        std::unique_ptr<Prepared> prepared;
        const Span building =
            measured([&] { prepared = contestant.prepare(moved, garden.crown_halvings); });
        const Span casting = measured([&] { (void)prepared->sum(day, spots, 1); });
        cpu_ms.push_back(1e3 * (building.cpu_s + scale * casting.cpu_s));
        wall_ms.push_back(1e3 * (building.wall_s + scale * casting.wall_s));
    }
    return {.contestant = contestant.name,
            .what = "drag_day",
            .cpu_ms = spread(cpu_ms),
            .wall_ms = spread(wall_ms)};
}

}  // namespace sunfleck::bench
