#include "rays/outline.h"
#include "sunfleck/base/require.h"
#include "sunfleck/rays/engine.h"

#include <CGAL/AABB_traits.h>
#include <CGAL/AABB_tree.h>
#include <CGAL/AABB_triangle_primitive.h>
#include <CGAL/Exact_predicates_inexact_constructions_kernel.h>

#include <algorithm>
#include <cmath>
#include <utility>
#include <variant>

// Why its answers can be trusted: all triangles hold the garden's own double coordinates, and the
// kernel decides ray against triangle exactly for them. Two triangles that share an edge share its
// corners bit for bit, so a ray through the edge is met by at least one. Bodies that are not made
// of triangles are found by their bounding boxes, which hold them whole, and then asked.

namespace sunfleck::rays {
namespace {

using Kernel = CGAL::Exact_predicates_inexact_constructions_kernel;
using Triangles = std::vector<Kernel::Triangle_3>;
using Primitive = CGAL::AABB_triangle_primitive<Kernel, Triangles::const_iterator>;
using Traits = CGAL::AABB_traits<Kernel, Primitive>;
using Tree = CGAL::AABB_tree<Traits>;

constexpr double box_margin_m = 1e-6;

Kernel::Point_3 point(Vec3 a) {
    return {a.x, a.y, a.z};
}

// A beam against boxes: true unless the box is surely apart. The box's surrounding ball is apart
// when the angle between beam and ball centre exceeds the sum of both half-angles.
class BeamTest {
  public:
    explicit BeamTest(const Beam& beam)
        : origin_(beam.origin),
          axis_(beam.axis),
          sine_(sin(beam.half_angle)),
          cosine_(cos(beam.half_angle)) {}

    [[nodiscard]] bool may_meet(const CGAL::Bbox_3& box) const {
        const Vec3 low{box.xmin(), box.ymin(), box.zmin()};
        const Vec3 high{box.xmax(), box.ymax(), box.zmax()};
        const double radius = 0.5 * length(high - low) + box_margin_m;
        const Vec3 to_centre = 0.5 * (low + high) - origin_;
        const double along = dot(to_centre, axis_);
        const double distance_squared = dot(to_centre, to_centre);
        if (distance_squared <= radius * radius) return true;
        // Signed distance of the centre from the beam's surface, for centres not behind it; a
        // centre behind the origin is at least `distance` away, hence apart.
        const double off_axis = std::sqrt(std::max(0.0, distance_squared - along * along));
        const double to_surface = off_axis * cosine_ - along * sine_;
        const bool is_nearest_at_apex = along * cosine_ + off_axis * sine_ <= 0.0;
        return !is_nearest_at_apex && to_surface <= radius;
    }

  private:
    Vec3 origin_;
    Vec3 axis_;
    double sine_;
    double cosine_;
};

// Walks the tree down to every primitive whose box the beam may meet.
class BeamWalk {
  public:
    BeamWalk(const BeamTest& test, const Triangles& triangles, const std::vector<Part>& owners,
             std::vector<Part>& found)
        : test_(&test), triangles_(&triangles), owners_(&owners), found_(&found) {}

    [[nodiscard]] static constexpr bool go_further() { return true; }
    void intersection(const BeamTest& test, const Primitive& primitive) {
        if (!test.may_meet(primitive.datum().bbox())) return;
        found_->push_back(
            (*owners_)[static_cast<std::size_t>(primitive.id() - triangles_->begin())]);
    }
    [[nodiscard]] bool do_intersect(const BeamTest& test,
                                    const CGAL::AABB_node<Traits>& node) const {
        return test.may_meet(node.bbox());
    }

  private:
    const BeamTest* test_;
    const Triangles* triangles_;
    const std::vector<Part>* owners_;
    std::vector<Part>* found_;
};

// Triangles, each with the part it belongs to, and a tree over them.
class Forest {
  public:
    void add(const geometry::Triangle& facet, Part owner) {
        Kernel::Triangle_3 triangle(point(facet.a), point(facet.b), point(facet.c));
        if (triangle.is_degenerate()) return;
        triangles_.push_back(triangle);
        owners_.push_back(owner);
    }

    void build() {
        tree_.rebuild(triangles_.cbegin(), triangles_.cend());
        tree_.build();
    }

    void add_parts_in(const Beam& beam, std::vector<Part>& parts) const {
        if (triangles_.empty()) return;
        const BeamTest test(beam);
        BeamWalk walk(test, triangles_, owners_, parts);
        tree_.traversal(test, walk);
    }

    // The parts that own a triangle met by the ray, ascending, each once.
    void parts_on(const Kernel::Ray_3& ray, std::vector<Part>& parts) const {
        parts.clear();
        if (triangles_.empty()) return;
        std::vector<Primitive::Id> met;
        tree_.all_intersected_primitives(ray, std::back_inserter(met));
        for (const Primitive::Id& id : met) {
            parts.push_back(owners_[static_cast<std::size_t>(id - triangles_.begin())]);
        }
        std::sort(parts.begin(), parts.end());
        parts.erase(std::unique(parts.begin(), parts.end()), parts.end());
    }

  private:
    Triangles triangles_;
    std::vector<Part> owners_;
    Tree tree_;
};

bool is_opaque(const geometry::Piece& piece) {
    if (const auto* solid = std::get_if<geometry::ConvexSolid>(&piece.body)) {
        return solid->transmittance <= 0.0;
    }
    return std::holds_alternative<geometry::MeshBody>(piece.body);
}

std::vector<geometry::Triangle> box_facets(const geometry::Piece& piece) {
    const Vec3 margin{box_margin_m, box_margin_m, box_margin_m};
    const Vec3 low = piece.low - margin;
    const Vec3 high = piece.high + margin;
    return facets_of_box(low, high);
}

const std::vector<geometry::Triangle>* facets_of(const geometry::Piece& piece) {
    if (const auto* solid = std::get_if<geometry::ConvexSolid>(&piece.body)) {
        return &solid->facets;
    }
    if (const auto* sheet = std::get_if<geometry::Sheet>(&piece.body)) return &sheet->facets;
    if (const auto* mesh = std::get_if<geometry::MeshBody>(&piece.body)) return &mesh->facets;
    return nullptr;
}

class ReferenceEngine final : public Engine {
  public:
    explicit ReferenceEngine(const geometry::Garden& garden) : garden_(&garden) {
        for (std::size_t i = 0; i < garden.pieces.size(); ++i) {
            plant(garden.pieces[i], static_cast<std::uint32_t>(i));
        }
        forest_.build();
        mesh_facets_.build();
    }

    [[nodiscard]] const geometry::Garden& garden() const override { return *garden_; }

    void pass_towards(Vec3 to_sun, std::span<const geometry::PieceOptics> optics,
                      std::span<const Vec3> origins,
                      std::span<geometry::Passage> passages) const override {
        SUNFLECK_REQUIRE(optics.size() == garden_->pieces.size(), "one optics per piece");
        SUNFLECK_REQUIRE(origins.size() == passages.size(), "one passage per origin");
        std::vector<Part> met;
        for (std::size_t i = 0; i < origins.size(); ++i) {
            passages[i] = pass_one(to_sun, optics, origins[i], met);
        }
    }

    // Whole pieces by their boxes, one each; only the facets of meshes need a tree.
    void add_parts_in(const Beam& beam, std::vector<Part>& parts) const override {
        const auto first_new = static_cast<std::ptrdiff_t>(parts.size());
        const BeamTest test(beam);
        for (const auto& [index, box] : whole_pieces_) {
            if (test.may_meet(box)) parts.push_back({.piece = index});
        }
        mesh_facets_.add_parts_in(beam, parts);
        std::sort(parts.begin() + first_new, parts.end());
        parts.erase(std::unique(parts.begin() + first_new, parts.end()), parts.end());
    }

  private:
    void plant(const geometry::Piece& piece, std::uint32_t index) {
        const bool is_mesh = std::holds_alternative<geometry::MeshBody>(piece.body);
        const auto* own = facets_of(piece);
        const std::vector<geometry::Triangle> box =
            own == nullptr ? box_facets(piece) : std::vector<geometry::Triangle>{};
        const std::vector<geometry::Triangle>& facets = own == nullptr ? box : *own;
        for (std::size_t f = 0; f < facets.size(); ++f) {
            Part part{.piece = index};
            if (is_mesh) part.facet = static_cast<std::uint32_t>(f);
            forest_.add(facets[f], part);
            if (is_mesh) mesh_facets_.add(facets[f], part);
        }
        if (!is_mesh) {
            whole_pieces_.emplace_back(
                index, CGAL::Bbox_3(piece.low.x, piece.low.y, piece.low.z, piece.high.x,
                                    piece.high.y, piece.high.z));
        }
    }

    [[nodiscard]] geometry::Passage pass_one(Vec3 to_sun,
                                             std::span<const geometry::PieceOptics> optics,
                                             Vec3 origin, std::vector<Part>& met) const {
        forest_.parts_on({point(origin), Kernel::Vector_3(to_sun.x, to_sun.y, to_sun.z)}, met);
        geometry::Passage all;
        for (const Part& part : met) {
            const geometry::PieceOptics& own = optics[part.piece];
            if (!own.hangs) continue;
            const geometry::Piece& piece = garden_->pieces[part.piece];
            if (is_opaque(piece)) return {.is_met = true, .transmittance = 0.0};
            const geometry::Passage passage = layer(piece, own, origin, to_sun);
            all.is_met = all.is_met || passage.is_met;
            all.transmittance *= passage.transmittance;
        }
        return all;
    }

    // A triangle of a fence or cloth was met: that is enough. A box was met: ask the body.
    [[nodiscard]] static geometry::Passage layer(const geometry::Piece& piece,
                                                 const geometry::PieceOptics& optics, Vec3 origin,
                                                 Vec3 to_sun) {
        if (const auto* solid = std::get_if<geometry::ConvexSolid>(&piece.body)) {
            return {.is_met = true, .transmittance = solid->transmittance};
        }
        if (const auto* sheet = std::get_if<geometry::Sheet>(&piece.body);
            sheet != nullptr && sheet->is_planar) {
            return {.is_met = true, .transmittance = sheet->transmittance};
        }
        return geometry::pass(piece, optics, origin, to_sun);
    }

    const geometry::Garden* garden_;
    Forest forest_;
    std::vector<std::pair<std::uint32_t, CGAL::Bbox_3>> whole_pieces_;
    Forest mesh_facets_;
};

}  // namespace

std::unique_ptr<Engine> make_reference_engine(const geometry::Garden& garden) {
    return std::make_unique<ReferenceEngine>(garden);
}

}  // namespace sunfleck::rays
