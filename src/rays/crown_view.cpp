#include "rays/crown_view.h"

#include <algorithm>
#include <cmath>

namespace sunfleck::rays {
namespace {

CrownShape shape_of(scene::CrownForm form) {
    switch (form) {
        case scene::CrownForm::ellipsoid:
            return CrownShape::ellipsoid;
        case scene::CrownForm::dome:
            return CrownShape::dome;
        case scene::CrownForm::cone:
            return CrownShape::cone;
        case scene::CrownForm::column:
            break;
    }
    return CrownShape::column;
}

// Rows that take a direction to the crown's frame, where it is as wide as it is high.
struct Frame {
    Vec3 x;
    Vec3 y;
    Vec3 z;
};

void set_ball(const Ball& ball, Vec3 spot, const DayFrames& frames, CrownView& view) {
    const Vec3 to_ball = ball.centre - spot;
    const double distance = length(to_ball);
    constexpr double all_round = 1.5;
    view.reach = static_cast<float>(all_round);
    if (distance > 1.02 * ball.radius_m) {
        const double reach = std::asin(ball.radius_m / distance) + 1e-5;
        view.reach = static_cast<float>(reach);
        const double sine = dot(to_ball, frames.pole) / distance;
        view.sine = static_cast<float>(sine);
        view.cosine = static_cast<float>(std::sqrt(std::max(0.0, 1.0 - sine * sine)));
        view.middle = static_cast<float>(std::atan2(-to_ball.x, dot(to_ball, frames.meridian)));
    }
}

}  // namespace

Ball ball_around(const geometry::Crown& crown, Vec3 low, Vec3 high) {
    if (crown.form != scene::CrownForm::ellipsoid) return ball_around({low, high});
    const double half = 0.5 * crown.height_m;
    return {.centre = crown.base_centre + Vec3{0.0, 0.0, half},
            .radius_m = std::max({half, crown.half_width_m, crown.half_across_m})};
}

CrownView crown_view(const geometry::Crown& crown, Vec3 spot) {
    CrownView view;
    view.shape = shape_of(crown.form);
    const bool is_ellipsoid = view.shape == CrownShape::ellipsoid;
    const Vec3 side{-crown.axis.y, crown.axis.x, 0.0};
    const double per_height = (is_ellipsoid ? 2.0 : 1.0) / crown.height_m;
    const Frame frame{(1.0 / crown.half_width_m) * crown.axis,
                      (1.0 / crown.half_across_m) * side,
                      {0.0, 0.0, per_height}};
    const Vec3 from_base = spot - crown.base_centre;
    const Vec3 place{dot(frame.x, from_base), dot(frame.y, from_base),
                     dot(frame.z, from_base) - (is_ellipsoid ? 1.0 : 0.0)};
    // Rows of place x (turn d).
    const Frame arm{place.y * frame.z - place.z * frame.y, place.z * frame.x - place.x * frame.z,
                    place.x * frame.y - place.y * frame.x};
    const auto store = [](const Frame& from, std::array<float, 9>& to) {
        std::size_t i = 0;
        for (const Vec3& row : {from.x, from.y, from.z}) {
            to[i++] = static_cast<float>(row.x);
            to[i++] = static_cast<float>(row.y);
            to[i++] = static_cast<float>(row.z);
        }
    };
    store(frame, view.turn);
    store(arm, view.arm);
    view.place = {static_cast<float>(place.x), static_cast<float>(place.y),
                  static_cast<float>(place.z)};
    view.is_within = dot(place, place) <= 1.0;
    return view;
}

CrownView crown_view(const geometry::Crown& crown, const Ball& ball, Vec3 spot,
                     const DayFrames& frames) {
    CrownView view = crown_view(crown, spot);
    set_ball(ball, spot, frames, view);
    return view;
}

}  // namespace sunfleck::rays
