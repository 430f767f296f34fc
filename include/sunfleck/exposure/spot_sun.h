#pragma once

#include "sunfleck/base/vec3.h"
#include "sunfleck/exposure/exposure.h"
#include "sunfleck/exposure/sun_arc.h"
#include "sunfleck/geometry/garden.h"
#include "sunfleck/rays/engine.h"
#include "sunfleck/rays/sight.h"
#include "sunfleck/sun/civil_time.h"

#include <memory>
#include <optional>
#include <span>
#include <vector>

namespace sunfleck::exposure {

/// Shares of the sun's disk: through nothing, and through translucent things only; what is left
/// is shade. `effective` is the first plus the second weighted by transmittance.
struct DiskShares {
    double full = 0.0;
    double filtered = 0.0;
    double effective = 0.0;
};

/// A point that looks at the sun.
struct Receiver {
    Vec3 point;                   ///< in world coordinates
    std::optional<Vec3> outward;  ///< on a pot's wall: sees only where dot(outward, d) > 0
};

/// A stretch of time with the means of its shares.
struct SunSlice {
    UtcSeconds from;
    UtcSeconds to;
    DiskShares shares;
    /// The state of most of the disk holds all the time; else it is known only midway.
    bool is_settled = true;
};

/// A day at one receiver: slices and spans each follow one another without a gap.
struct DaySun {
    std::vector<SunSlice> slices;
    std::vector<SunSpan> spans;
};

/// The sun at one receiver of one garden, on any day.
///
/// A stretch of the day is taken whole when the beam swept by the disk proves it: nothing in the
/// beam (full), an opaque convex body fills it (shade), translucent ones fill it and nothing else
/// is in it (filtered). Else it is halved, down to 20 s, which are summed over 64 points of the
/// disk (256 where half of it decides). So nothing is too thin to be found. Ends of spans are
/// bisected to 0.5 s. Crowns' light is summed in stretches of at most 3 min.
///
/// Accuracy: minutes of a passing edge to 0.02 min against the closed form (tested).
class SpotSun {
  public:
    /// `engine` and `sights` are of the same garden and must outlive this.
    SpotSun(const rays::Engine& engine, const rays::Sights& sights, const Receiver& receiver);
    ~SpotSun();
    SpotSun(SpotSun&&) noexcept;
    SpotSun& operator=(SpotSun&&) noexcept;

    /// The whole arc. No slice crosses an instant of `cuts` (ascending).
    [[nodiscard]] DaySun day(const SunArc& arc, std::span<const geometry::PieceOptics> optics,
                             std::span<const UtcSeconds> cuts = {});
    /// The disk at one instant of the arc.
    [[nodiscard]] DiskShares shares_at(const SunArc& arc,
                                       std::span<const geometry::PieceOptics> optics,
                                       UtcSeconds instant);
    /// True when any full or filtered sun comes during the arc.
    [[nodiscard]] bool has_sun(const SunArc& arc, std::span<const geometry::PieceOptics> optics);

  private:
    class Tracer;
    std::unique_ptr<Tracer> tracer_;
};

/// Adds slices and spans up to the day's figures. `hours` are clock hours, ascending; those
/// without sun-up time are left out. Slices must have been cut at their ends and the hot hours'.
[[nodiscard]] DayExposure day_exposure(Date date, const DaySun& sun,
                                       std::span<const sun::CivilHour> hours, const HotHours& hot);

/// Where slices must be cut for day_exposure().
[[nodiscard]] std::vector<UtcSeconds> slice_cuts(std::span<const sun::CivilHour> hours,
                                                 const HotHours& hot);

}  // namespace sunfleck::exposure
