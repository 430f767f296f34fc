#pragma once

#include "sunfleck/base/units.h"
#include "sunfleck/base/vec3.h"
#include "sunfleck/rays/engine.h"
#include "sunfleck/sun/place.h"
#include "sunfleck/sun/sun_day.h"

#include <vector>

namespace sunfleck::exposure {

/// Which sun is traced.
struct SunModel {
    bool is_refracted = true;  ///< false: the geometric sun, as some published tables have it
    bool has_disk = true;      ///< false: a point, the disk's middle
};

/// The sun's way over one day as a grower sees it, ready to be asked for any instant.
class SunArc {
  public:
    /// The arc of the given instants, such as a sun_day()'s up_from and up_to.
    SunArc(UtcSeconds from, UtcSeconds to, const sun::Place& place, const SunModel& model = {});

    [[nodiscard]] UtcSeconds from() const { return from_; }
    [[nodiscard]] UtcSeconds to() const { return to_; }
    /// Unit vector towards the middle of the disk; `instant` within the arc. Interpolated
    /// between exact positions a minute apart, within 0.001 degrees of them (tested).
    [[nodiscard]] Vec3 direction(UtcSeconds instant) const;
    /// Half the angle that the disk fills.
    [[nodiscard]] Angle disk_radius() const { return disk_radius_; }
    /// A beam from `origin` that holds the whole disk at every instant from `from` to `to`,
    /// which lie at most an hour apart.
    [[nodiscard]] rays::Beam beam(Vec3 origin, UtcSeconds from, UtcSeconds to) const;

  private:
    UtcSeconds from_;
    UtcSeconds to_;
    Angle disk_radius_;
    std::vector<Vec3> nodes_;  ///< directions, from one step before `from_`
};

/// The hot hours of a day: solar 11:00 to 16:00, counted from the meridian passage.
struct HotHours {
    UtcSeconds from;
    UtcSeconds to;
};
[[nodiscard]] HotHours hot_hours(const sun::SunDay& day);

}  // namespace sunfleck::exposure
