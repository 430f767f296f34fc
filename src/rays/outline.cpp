#include "rays/outline.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <limits>

namespace sunfleck::rays {
namespace {

using geometry::Plane;
using geometry::Triangle;

// Corners nearer than this are one: far below any board, far above rounding in a garden.
constexpr double same_corner_m = 1e-8;

double distance_to(const Plane& plane, Vec3 point) {
    return dot(plane.normal, point) - plane.offset;
}

bool is_same_corner(Vec3 a, Vec3 b) {
    return length(a - b) < same_corner_m;
}

double largest_distance(const Plane& plane, const Triangle& facet) {
    return std::max({std::abs(distance_to(plane, facet.a)), std::abs(distance_to(plane, facet.b)),
                     std::abs(distance_to(plane, facet.c))});
}

// The plane that carries the facet, looking the same way.
int face_of(const std::vector<Plane>& planes, const Triangle& facet) {
    const Vec3 outward = cross(facet.b - facet.a, facet.c - facet.a);
    int best = -1;
    double best_distance = std::numeric_limits<double>::infinity();
    for (std::size_t i = 0; i < planes.size(); ++i) {
        if (dot(planes[i].normal, outward) <= 0.0) continue;
        const double distance = largest_distance(planes[i], facet);
        if (distance < best_distance) {
            best_distance = distance;
            best = static_cast<int>(i);
        }
    }
    return best;
}

// Collects edges, each with the faces on its two sides.
class EdgeList {
  public:
    void add(Vec3 a, Vec3 b, int face) {
        if (is_same_corner(a, b)) return;
        for (OutlineEdge& edge : edges_) {
            const bool is_reverse = is_same_corner(edge.a, b) && is_same_corner(edge.b, a);
            const bool is_repeat = is_same_corner(edge.a, a) && is_same_corner(edge.b, b);
            if ((is_reverse || is_repeat) && edge.right < 0) {
                edge.right = face;
                return;
            }
        }
        edges_.push_back({.a = a, .b = b, .left = face, .right = -1});
    }

    void add(const Triangle& facet, int face) {
        add(facet.a, facet.b, face);
        add(facet.b, facet.c, face);
        add(facet.c, facet.a, face);
    }

    // Without the edges that lie within one face.
    [[nodiscard]] std::vector<OutlineEdge> between_faces() const {
        std::vector<OutlineEdge> kept;
        for (const OutlineEdge& edge : edges_) {
            if (edge.left != edge.right) kept.push_back(edge);
        }
        return kept;
    }

  private:
    std::vector<OutlineEdge> edges_;
};

Plane plane_of(const Triangle& facet) {
    const Vec3 normal = cross(facet.b - facet.a, facet.c - facet.a);
    if (length(normal) < same_corner_m * same_corner_m) return {};
    const Vec3 unit = normalised(normal);
    return {.normal = unit, .offset = dot(unit, facet.a)};
}

// How far the middle of three corners lies off the line through its neighbours.
double bend_m(Vec3 before, Vec3 corner, Vec3 after) {
    const double chord = length(after - before);
    if (chord < same_corner_m) return chord;
    return length(cross(corner - before, after - before)) / chord;
}

// The corners of a ring of border edges, in order, without those on a straight line; empty when
// the edges do not form one ring. Facets may run either way round.
std::vector<Vec3> border_of(const std::vector<OutlineEdge>& edges) {
    std::vector<const OutlineEdge*> left;
    for (const OutlineEdge& edge : edges) {
        if (edge.right < 0) left.push_back(&edge);
    }
    if (left.size() < 3) return {};
    std::vector<Vec3> ring{left.back()->a};
    Vec3 end = left.back()->b;
    left.pop_back();
    while (!left.empty()) {
        const auto next = std::find_if(left.begin(), left.end(), [&](const OutlineEdge* edge) {
            return is_same_corner(edge->a, end) || is_same_corner(edge->b, end);
        });
        if (next == left.end()) return {};
        ring.push_back(end);
        end = is_same_corner((*next)->a, end) ? (*next)->b : (*next)->a;
        left.erase(next);
    }
    if (!is_same_corner(end, ring.front())) return {};
    std::vector<Vec3> corners;
    for (std::size_t i = 0; i < ring.size(); ++i) {
        const Vec3 before = ring[(i + ring.size() - 1) % ring.size()];
        const Vec3 after = ring[(i + 1) % ring.size()];
        if (bend_m(before, ring[i], after) > same_corner_m) corners.push_back(ring[i]);
    }
    return corners;
}

// The middle of an edge between two facets, or of the only facet's corners.
Vec3 point_within(const std::vector<OutlineEdge>& edges) {
    for (const OutlineEdge& edge : edges) {
        if (edge.right >= 0) return 0.5 * (edge.a + edge.b);
    }
    Vec3 sum;
    for (const OutlineEdge& edge : edges) sum = sum + edge.a + edge.b;
    return edges.empty() ? sum : (0.5 / static_cast<double>(edges.size())) * sum;
}

bool has_two_faces(const OutlineEdge& edge) {
    return edge.left >= 0 && edge.right >= 0;
}

}  // namespace

Outline outline_of(const geometry::ConvexSolid& solid) {
    Outline outline;
    outline.faces = solid.planes;
    EdgeList edges;
    bool every_facet_has_a_face = true;
    for (const Triangle& facet : solid.facets) {
        const int face = face_of(solid.planes, facet);
        every_facet_has_a_face = every_facet_has_a_face && face >= 0;
        edges.add(facet, face);
    }
    outline.edges = edges.between_faces();
    outline.is_closed = every_facet_has_a_face && outline.edges.size() >= 6 &&
                        std::all_of(outline.edges.begin(), outline.edges.end(), has_two_faces);
    return outline;
}

Outline outline_of(const geometry::Sheet& sheet) {
    Outline outline;
    EdgeList edges;
    for (const Triangle& facet : sheet.facets) {
        if (!sheet.is_planar || outline.faces.empty()) outline.faces.push_back(plane_of(facet));
        edges.add(facet, static_cast<int>(outline.faces.size()) - 1);
    }
    outline.edges = edges.between_faces();
    outline.border = border_of(outline.edges);
    outline.within_border = point_within(outline.edges);
    return outline;
}

std::vector<Triangle> facets_of_box(Vec3 low, Vec3 high) {
    // Corner i has the high x, y, z where bits 0, 1, 2 of i are set. Each face runs
    // counter-clockwise as seen from outside.
    constexpr int quads[6][4] = {{0, 4, 6, 2}, {1, 3, 7, 5}, {0, 1, 5, 4},
                                 {2, 6, 7, 3}, {0, 2, 3, 1}, {4, 5, 7, 6}};
    const auto corner = [&](int i) {
        return Vec3{(i & 1) != 0 ? high.x : low.x, (i & 2) != 0 ? high.y : low.y,
                    (i & 4) != 0 ? high.z : low.z};
    };
    std::vector<Triangle> facets;
    for (const auto& quad : quads) {
        facets.push_back({corner(quad[0]), corner(quad[1]), corner(quad[2])});
        facets.push_back({corner(quad[0]), corner(quad[2]), corner(quad[3])});
    }
    return facets;
}

Outline outline_of_box(Vec3 low, Vec3 high) {
    geometry::ConvexSolid box;
    box.planes = {{{-1, 0, 0}, -low.x}, {{1, 0, 0}, high.x},  {{0, -1, 0}, -low.y},
                  {{0, 1, 0}, high.y},  {{0, 0, -1}, -low.z}, {{0, 0, 1}, high.z}};
    box.facets = facets_of_box(low, high);
    Outline outline = outline_of(box);
    outline.is_box = true;
    return outline;
}

bool is_seen_from(const Plane& face, Vec3 origin) {
    return dot(face.normal, origin) > face.offset;
}

Vec3 middle_of(const Outline& outline) {
    Vec3 sum;
    for (const OutlineEdge& edge : outline.edges) sum = sum + edge.a + edge.b;
    return (0.5 / static_cast<double>(outline.edges.size())) * sum;
}

void add_plane(Vec3 origin, Vec3 a, Vec3 b, Vec3 middle, std::vector<Vec3>& planes) {
    const Vec3 normal = cross(a - origin, b - origin);
    const double size = length(normal);
    if (size <= no_width * (1.0 + length(a - origin) * length(b - origin))) return;
    const double sign = dot(normal, middle - origin) > 0.0 ? -1.0 : 1.0;
    planes.push_back((sign / size) * normal);
}

ConeInView cone_in_view(const Outline& outline, Vec3 origin) {
    ConeInView view;
    std::vector<bool> seen(outline.faces.size());
    bool is_any_seen = false;
    for (std::size_t i = 0; i < seen.size(); ++i) {
        seen[i] = is_seen_from(outline.faces[i], origin);
        is_any_seen = is_any_seen || seen[i];
    }
    view.is_within = !is_any_seen;
    if (view.is_within) return view;
    const Vec3 middle = middle_of(outline);
    for (const OutlineEdge& edge : outline.edges) {
        const bool is_silhouette =
            seen[static_cast<std::size_t>(edge.left)] != seen[static_cast<std::size_t>(edge.right)];
        if (is_silhouette) add_plane(origin, edge.a, edge.b, middle, view.planes);
    }
    return view;
}

}  // namespace sunfleck::rays
