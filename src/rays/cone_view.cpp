#include "rays/cone_view.h"

#include "rays/outline.h"

#include <algorithm>
#include <cmath>

namespace sunfleck::rays {
namespace {

// A spot nearer than this to a body, or an edge that points at it this closely, leaves the outline
// to rounding.
constexpr double touching_m = 1e-5;
constexpr double narrowest = 1e-9;

double distance_to(const geometry::Plane& plane, Vec3 point) {
    return dot(plane.normal, point) - plane.offset;
}

std::vector<Vec3> corners_of(const Outline& outline) {
    std::vector<Vec3> corners;
    for (const OutlineEdge& edge : outline.edges) {
        corners.push_back(edge.a);
        corners.push_back(edge.b);
    }
    return corners;
}

Vec3 mean_of(const std::vector<Vec3>& points) {
    Vec3 sum;
    for (const Vec3& p : points) sum = sum + p;
    return points.empty() ? sum : (1.0 / static_cast<double>(points.size())) * sum;
}

ConeBody body_of(Outline outline) {
    ConeBody body;
    const std::vector<Vec3> corners = corners_of(outline);
    body.middle = mean_of(corners);
    body.ball = ball_around(corners);
    body.top_z_m = -1e300;
    for (const Vec3& p : corners) body.top_z_m = std::max(body.top_z_m, p.z);
    body.outline = std::move(outline);
    return body;
}

// arctan of 0 <= x <= 1, to 1e-5. Abramowitz & Stegun 4.4.49.
float arc_tangent(float x) {
    const float s = x * x;
    return x *
           (0.9998660F + s * (-0.3302995F + s * (0.1801410F + s * (-0.0851330F + s * 0.0208351F))));
}

float direction_of(float y, float x) {
    constexpr float pi = 3.14159265F;
    const float ax = std::abs(x);
    const float ay = std::abs(y);
    const float largest = std::max(ax, ay);
    if (!(largest > 0.0F)) return 0.0F;
    float angle = arc_tangent(std::min(ax, ay) / largest);
    if (ay > ax) angle = 0.5F * pi - angle;
    if (x < 0.0F) angle = pi - angle;
    return y < 0.0F ? -angle : angle;
}

}  // namespace

Ball ball_around(const std::vector<Vec3>& points) {
    if (points.empty()) return {};
    Vec3 low = points.front();
    Vec3 high = low;
    for (const Vec3& p : points) {
        low = {std::min(low.x, p.x), std::min(low.y, p.y), std::min(low.z, p.z)};
        high = {std::max(high.x, p.x), std::max(high.y, p.y), std::max(high.z, p.z)};
    }
    Ball ball{.centre = 0.5 * (low + high)};
    for (const Vec3& p : points) ball.radius_m = std::max(ball.radius_m, length(p - ball.centre));
    return ball;
}

void add_groups_before(const Ball& ball, Vec3 spot, const DayFrames& frames,
                       std::vector<std::uint16_t>& groups) {
    const Vec3 to_ball = ball.centre - spot;
    const double distance = length(to_ball);
    const double radius = ball.radius_m + touching_m;
    double low = -1.0;
    double high = 1.0;
    if (distance > radius) {
        // Sines of the declinations between which the ball is seen.
        const double wide = radius / distance;
        const double narrow = std::sqrt(1.0 - wide * wide);
        const double sine = dot(to_ball, frames.pole) / distance;
        const double cosine = std::sqrt(std::max(0.0, 1.0 - sine * sine));
        if (sine < narrow) high = sine * narrow + cosine * wide;
        if (sine > -narrow) low = sine * narrow - cosine * wide;
    }
    const auto lowest = static_cast<float>(low - 1e-6);
    const auto highest = static_cast<float>(high + 1e-6);
    for (std::size_t g = 0; g < frames.lowest_sine.size(); ++g) {
        if (frames.highest_sine[g] >= lowest && frames.lowest_sine[g] <= highest) {
            groups.push_back(static_cast<std::uint16_t>(g));
        }
    }
}

ConeBody cone_body(const geometry::ConvexSolid& solid) {
    return body_of(outline_of(solid));
}

ConeBody cone_body(const geometry::Sheet& flat_sheet) {
    Outline outline = outline_of(flat_sheet);
    std::erase_if(outline.edges, [](const OutlineEdge& edge) { return edge.right >= 0; });
    ConeBody body = body_of(std::move(outline));
    body.is_closed = false;
    return body;
}

bool is_usable(const ConeBody& body) {
    if (!body.is_closed) {
        return body.outline.edges.size() >= 3 && body.outline.edges.size() <= ConePlanes::most;
    }
    return body.outline.is_closed && body.outline.edges.size() <= std::size_t{3} * ConePlanes::most;
}

void ConeViewer::add(Vec3 normal, double size) {
    const auto k = static_cast<std::size_t>(planes_.count++);
    const auto x = static_cast<float>(normal.x);
    const auto along_pole = static_cast<float>(dot(normal, frames_->pole));
    const auto meridian = static_cast<float>(dot(normal, frames_->meridian));
    const float square = std::sqrt(meridian * meridian + x * x);
    const float whole = static_cast<float>(size);
    const float safe = std::max(square, 1e-6F * whole);
    planes_.x[k] = x;
    planes_.y[k] = static_cast<float>(normal.y);
    planes_.z[k] = static_cast<float>(normal.z);
    planes_.size[k] = whole;
    planes_.slope[k] = along_pole / safe;
    planes_.spread[k] = whole / safe;
    // Inside lies around where the equator's part of the normal points away: west is -x.
    planes_.middle[k] = direction_of(x, -meridian);
}

ConeKind ConeViewer::add_edge(Vec3 a, Vec3 b, Vec3 to_middle) {
    const Vec3 normal = cross(a, b);
    const double size = length(normal);
    if (size <= narrowest * length(a) * length(b)) return ConeKind::doubtful;
    if (planes_.count == ConePlanes::most) return ConeKind::doubtful;
    const double sign = dot(normal, to_middle) > 0.0 ? -1.0 : 1.0;
    add(sign * normal, size);
    return ConeKind::cone;
}

// Edges below the level may be left out: a convex cone that reaches above the level is parted from
// what lies beyond such an edge by a facet that is all below it.
ConeKind ConeViewer::see(const ConeBody& body, Vec3 spot) {
    if (sun_stays_above_ && body.top_z_m <= spot.z) return ConeKind::nothing;
    planes_.count = 0;
    const Outline& outline = body.outline;
    const Vec3 to_middle = body.middle - spot;
    if (!body.is_closed) {
        if (std::abs(distance_to(outline.faces.front(), spot)) < touching_m) {
            return ConeKind::doubtful;
        }
        for (const OutlineEdge& edge : outline.edges) {
            const ConeKind kind = add_edge(edge.a - spot, edge.b - spot, to_middle);
            if (kind != ConeKind::cone) return kind;
        }
        return ConeKind::cone;
    }
    seen_.resize(outline.faces.size());
    double farthest_out = -1e300;
    for (std::size_t i = 0; i < seen_.size(); ++i) {
        const double distance = distance_to(outline.faces[i], spot);
        farthest_out = std::max(farthest_out, distance);
        seen_[i] = distance > 0.0 ? 1 : 0;
    }
    if (farthest_out < -touching_m) return ConeKind::all_round;
    if (farthest_out < touching_m) return ConeKind::doubtful;
    for (const OutlineEdge& edge : outline.edges) {
        if (seen_[static_cast<std::size_t>(edge.left)] ==
            seen_[static_cast<std::size_t>(edge.right)]) {
            continue;
        }
        const Vec3 a = edge.a - spot;
        const Vec3 b = edge.b - spot;
        if (sun_stays_above_ && a.z < 0.0 && b.z < 0.0) continue;
        const ConeKind kind = add_edge(a, b, to_middle);
        if (kind != ConeKind::cone) return kind;
    }
    return ConeKind::cone;
}

const ConePlanes& ConeViewer::half_space(Vec3 outward) {
    planes_.count = 0;
    add(outward, length(outward));
    return planes_;
}

ConeKind ConeViewer::see_polygon(const std::vector<Vec3>& corners, Vec3 spot) {
    planes_.count = 0;
    const Vec3 to_middle = mean_of(corners) - spot;
    for (std::size_t i = 0; i < corners.size(); ++i) {
        const Vec3 a = corners[i] - spot;
        const Vec3 b = corners[(i + 1) % corners.size()] - spot;
        const ConeKind kind = add_edge(a, b, to_middle);
        if (kind != ConeKind::cone) return kind;
    }
    return ConeKind::cone;
}

}  // namespace sunfleck::rays
