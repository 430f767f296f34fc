#include "rays/cone_view.h"

#include "rays/outline.h"

#include <algorithm>
#include <cmath>

namespace sunfleck::rays {
namespace {

// A spot nearer than this to a body, or an edge that points at it this closely (as a sine), leaves
// the outline to rounding.
constexpr double touching_m = 1e-5;
constexpr double narrowest = 1e-9;
constexpr double no_height = 1e-9;  // of a corner over an edge's plane, as a sine
constexpr std::size_t most_faces = 64;

double distance_to(const geometry::Plane& plane, Vec3 point) {
    return dot(plane.normal, point) - plane.offset;
}

std::uint16_t corner_number(std::vector<Vec3>& corners, Vec3 corner) {
    constexpr double same_m = 1e-8;
    for (std::size_t i = 0; i < corners.size(); ++i) {
        if (length(corners[i] - corner) < same_m) return static_cast<std::uint16_t>(i);
    }
    corners.push_back(corner);
    return static_cast<std::uint16_t>(corners.size() - 1);
}

ConeBody body_of(const Outline& outline, bool is_closed) {
    ConeBody body;
    body.is_closed = is_closed;
    body.faces = outline.faces;
    for (const OutlineEdge& edge : outline.edges) {
        if (!is_closed && edge.right >= 0) continue;
        body.edges.push_back({.a = corner_number(body.corners, edge.a),
                              .b = corner_number(body.corners, edge.b),
                              .left = static_cast<std::uint16_t>(std::max(edge.left, 0)),
                              .right = static_cast<std::uint16_t>(std::max(edge.right, 0))});
    }
    body.ball = ball_around(body.corners);
    body.top_z_m = -1e300;
    for (const Vec3& p : body.corners) {
        body.top_z_m = std::max(body.top_z_m, p.z);
        body.middle = body.middle + (1.0 / static_cast<double>(body.corners.size())) * p;
    }
    return body;
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

// The ball's declinations go from its middle's less its half-angle to that much more. Everything is
// multiplied by the square of the distance, which leaves two roots and no division.
void add_groups_before(const Ball& ball, Vec3 spot, const DayFrames& frames, std::uint16_t first,
                       std::uint16_t end, std::vector<std::uint16_t>& groups) {
    const Vec3 to_ball = ball.centre - spot;
    const auto square = static_cast<float>(dot(to_ball, to_ball));
    const auto north = static_cast<float>(dot(to_ball, frames.pole));
    const auto radius = static_cast<float>(ball.radius_m + touching_m);
    float low = -2.0F * square;
    float high = 2.0F * square;
    if (square > radius * radius) {
        const float along = std::sqrt(square - radius * radius);
        const float across = std::sqrt(std::max(0.0F, square - north * north));
        const float slack = 1e-5F * square;
        if (north < along) high = north * along + across * radius + slack;
        if (north > -along) low = north * along - across * radius - slack;
    }
    for (std::uint16_t g = first; g < end; ++g) {
        if (frames.highest_sine[g] * square >= low && frames.lowest_sine[g] * square <= high) {
            groups.push_back(g);
        }
    }
}

ConeBody cone_body(const geometry::ConvexSolid& solid) {
    const Outline outline = outline_of(solid);
    ConeBody body = body_of(outline, true);
    body.is_usable = outline.is_closed && body.faces.size() <= most_faces;
    return body;
}

ConeBody cone_body(const geometry::Sheet& flat_sheet) {
    ConeBody body = body_of(outline_of(flat_sheet), false);
    body.is_usable = body.edges.size() >= 3 && body.edges.size() <= ConePlanes::most;
    return body;
}

ConeBody cone_body_of_box(Vec3 low, Vec3 high) {
    ConeBody body = body_of(outline_of_box(low, high), true);
    body.is_usable = true;
    return body;
}

ConeBody border_of(const geometry::Sheet& sheet) {
    const Outline outline = outline_of(sheet);
    ConeBody border;
    border.is_closed = false;
    border.faces = outline.faces;
    border.corners = outline.border;
    border.middle = outline.within_border;
    border.ball = ball_around(border.corners);
    border.top_z_m = -1e300;
    for (const Vec3& corner : border.corners) {
        border.top_z_m = std::max(border.top_z_m, corner.z);
    }
    border.is_usable = border.corners.size() >= 3 && border.corners.size() <= ConePlanes::most;
    return border;
}

void ConeViewer::add(Vec3 normal) {
    const auto k = static_cast<std::size_t>(planes_.count++);
    planes_.x[k] = static_cast<float>(normal.x);
    planes_.y[k] = static_cast<float>(normal.y);
    planes_.z[k] = static_cast<float>(normal.z);
}

bool ConeViewer::add_edge(Vec3 a, Vec3 b, Vec3 to_middle) {
    const Vec3 normal = cross(a, b);
    const double size = dot(normal, normal);
    if (size <= narrowest * narrowest * dot(a, a) * dot(b, b)) return false;
    if (planes_.count == ConePlanes::most) return false;
    add(dot(normal, to_middle) > 0.0 ? -normal : normal);
    return true;
}

ConeKind ConeViewer::see(const ConeBody& body, Vec3 spot) {
    if (sun_stays_above_ && body.top_z_m <= spot.z) return ConeKind::nothing;
    planes_.count = 0;
    const ConeKind kind = body.is_closed ? see_solid(body, spot) : see_cloth(body, spot);
    if (kind == ConeKind::cone) kernels_->cone.set_arcs(*frames_, planes_);
    return kind;
}

ConeKind ConeViewer::see_cloth(const ConeBody& body, Vec3 spot) {
    if (std::abs(distance_to(body.faces.front(), spot)) < touching_m) return ConeKind::doubtful;
    const Vec3 to_middle = body.middle - spot;
    for (const ConeBody::Edge& edge : body.edges) {
        if (!add_edge(body.corners[edge.a] - spot, body.corners[edge.b] - spot, to_middle)) {
            return ConeKind::doubtful;
        }
    }
    return ConeKind::cone;
}

// Edges below the level may be left out: a convex cone that reaches above the level is parted from
// what lies beyond such an edge by a facet that is all below it.
ConeKind ConeViewer::see_solid(const ConeBody& body, Vec3 spot) {
    std::uint64_t seen = 0;
    double farthest_out = -1e300;
    for (std::size_t i = 0; i < body.faces.size(); ++i) {
        const double distance = distance_to(body.faces[i], spot);
        farthest_out = std::max(farthest_out, distance);
        seen |= std::uint64_t{distance > 0.0 ? 1U : 0U} << i;
    }
    if (farthest_out < -touching_m) return ConeKind::all_round;
    if (farthest_out < touching_m) return ConeKind::doubtful;
    const Vec3 to_middle = body.middle - spot;
    corners_.clear();
    for (const Vec3& corner : body.corners) corners_.push_back(corner - spot);
    for (const ConeBody::Edge& edge : body.edges) {
        if ((((seen >> edge.left) ^ (seen >> edge.right)) & 1U) == 0) continue;
        const Vec3 a = corners_[edge.a];
        const Vec3 b = corners_[edge.b];
        if (sun_stays_above_ && a.z < 0.0 && b.z < 0.0) continue;
        if (!add_edge(a, b, to_middle)) return ConeKind::doubtful;
    }
    return ConeKind::cone;
}

ConeKind ConeViewer::see_border(const ConeBody& border, Vec3 spot) {
    if (sun_stays_above_ && border.top_z_m <= spot.z) return ConeKind::nothing;
    int above = 0;
    for (const geometry::Plane& face : border.faces) {
        const double distance = distance_to(face, spot);
        if (std::abs(distance) < touching_m) return ConeKind::doubtful;
        above += distance > 0.0 ? 1 : 0;
    }
    if (above != 0 && above != static_cast<int>(border.faces.size())) return ConeKind::doubtful;
    planes_.count = 0;
    corners_.clear();
    for (const Vec3& corner : border.corners) corners_.push_back(corner - spot);
    const Vec3 to_cloth = border.middle - spot;
    for (std::size_t i = 0; i < corners_.size(); ++i) {
        const Vec3 a = corners_[i];
        const Vec3 b = corners_[(i + 1) % corners_.size()];
        const Vec3 normal = cross(a, b);
        // All corners on one side of each edge: convex in view.
        int outside = 0;
        int inside = 0;
        for (const Vec3& corner : corners_) {
            const double side = dot(normal, corner);
            const double none = no_height * length(normal) * length(corner);
            outside += side > none ? 1 : 0;
            inside += side < -none ? 1 : 0;
        }
        if (outside != 0 && inside != 0) return ConeKind::doubtful;
        // From within a bag of cloth the border bounds the way out.
        const Vec3 inward = outside != 0 ? normal : -normal;
        if (dot(inward, to_cloth) <= 0.0) return ConeKind::doubtful;
        if (!add_edge(a, b, inward)) return ConeKind::doubtful;
    }
    kernels_->cone.set_arcs(*frames_, planes_);
    return ConeKind::cone;
}

const ConePlanes& ConeViewer::half_space(Vec3 outward) {
    planes_.count = 0;
    add(outward);
    kernels_->cone.set_arcs(*frames_, planes_);
    return planes_;
}

}  // namespace sunfleck::rays
