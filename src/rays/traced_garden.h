#pragma once

#include "rays/cone_view.h"
#include "rays/day_frames.h"
#include "rays/embree_mesh.h"
#include "sunfleck/geometry/garden.h"
#include "sunfleck/rays/light_tracer.h"

#include <cstdint>
#include <memory>
#include <vector>

namespace sunfleck::rays {

/// How a piece is traced.
enum class TraceKind {
    cone,        ///< solved as a convex cone
    crown,       ///< solved as an ellipsoid, or followed step by step
    sheet,       ///< a cloth that sags: the cone of its border where it is seen from one side
    laths,       ///< lath by lath from near, as a mean from afar
    mesh,        ///< asked of Embree while its box is before the sun
    ray_by_ray,  ///< asked at every sample while its box is before the sun
};

/// A piece made ready for tracing.
struct TracedPiece {
    std::uint32_t piece = 0;  ///< index into the garden
    TraceKind kind = TraceKind::ray_by_ray;
    bool is_opaque = false;
    float transmittance = 0.0F;  ///< below 0: varies
    ConeBody cone;               ///< of a sheet: its border; of laths: their mean's panel
    ConeBody box;                ///< where the piece may be met at all; of some kinds only
    std::vector<ConeBody> laths;
    std::shared_ptr<const EmbreeMesh> mesh;
    Ball ball;
    std::vector<std::uint8_t> hangs;            ///< for each day; empty: always
    std::vector<geometry::PieceOptics> optics;  ///< for each day; empty: always the same
    /// Whether it is there on the day and does anything to light.
    [[nodiscard]] bool dims_on(std::size_t day) const {
        return (hangs.empty() || hangs[day] != 0) &&
               (kind != TraceKind::crown || optics[day].k_per_m > 0.0);
    }
    [[nodiscard]] geometry::PieceOptics optics_on(std::size_t day) const {
        return optics.empty() ? geometry::PieceOptics{} : optics[day];
    }
};

/// What is asked of the garden.
struct TraceChoice {
    LightKind kind = LightKind::everything;
    bool resolves_all_laths = false;
};

/// Appends what the piece is traced as: nothing when it does no harm to light.
void add_traced_piece(const geometry::Garden& garden, std::uint32_t piece, const SunTable& sun,
                      const TraceChoice& choice, std::vector<TracedPiece>& traced);

}  // namespace sunfleck::rays
