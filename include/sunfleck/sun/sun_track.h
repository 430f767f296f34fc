#pragma once

#include "sunfleck/base/units.h"
#include "sunfleck/base/vec3.h"
#include "sunfleck/sun/place.h"
#include "sunfleck/sun/solar_position.h"

#include <memory>

namespace sunfleck::sun {

/// The sun's way over one place during a stretch of time, for many cheap questions.
///
/// The slow parts (equation of time, declination, distance) are computed every 12 hours and
/// interpolated by cubics; the turn of the Earth, parallax and refraction are exact at each
/// instant. So a direction costs a few sines and differs from solar_position() by less than
/// 2e-8 degrees (sun_track_test). Cheap to copy; all questions may be asked from any thread.
class SunTrack {
  public:
    /// The track from `from` to `to` (not before `from`, at most a few years later). `air` is
    /// that of apparent_direction().
    SunTrack(const Place& place, UtcSeconds from, UtcSeconds to, const Air& air = {});

    [[nodiscard]] UtcSeconds from() const { return from_; }
    [[nodiscard]] UtcSeconds to() const { return to_; }
    [[nodiscard]] const Place& place() const { return place_; }

    // An instant outside [from, to] is a bug of the caller (InternalError).

    /// Unit vector to the sun's centre, x east, y north, z up, without refraction.
    [[nodiscard]] Vec3 true_direction(UtcSeconds instant) const;
    /// Where the centre is seen: lifted by refraction().
    [[nodiscard]] Vec3 apparent_direction(UtcSeconds instant) const;
    [[nodiscard]] Angle altitude_true(UtcSeconds instant) const;
    /// Topocentric, west positive, (-180, 180].
    [[nodiscard]] Angle hour_angle(UtcSeconds instant) const;
    [[nodiscard]] double distance_au(UtcSeconds instant) const;
    /// Half the angle of the sun's disk: 0.2665 degrees at 1 au.
    [[nodiscard]] Angle disk_radius(UtcSeconds instant) const;

  private:
    struct Nodes;
    Place place_;
    Air air_;
    UtcSeconds from_;
    UtcSeconds to_;
    std::shared_ptr<const Nodes> nodes_;
};

/// The angular radius of the sun's disk from `distance_au`: 0.2665 degrees at 1 au.
[[nodiscard]] Angle sun_disk_radius(double distance_au);

}  // namespace sunfleck::sun
