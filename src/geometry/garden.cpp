#include "sunfleck/geometry/garden.h"

#include "geometry/builders.h"

#include <iterator>
#include <utility>

namespace sunfleck::geometry {
namespace {

/// Takes the pieces of one object after another; keeps all problems.
class GardenBuilder {
  public:
    void add(const scene::Label& label, Result<std::vector<Piece>> pieces) {
        if (!pieces) {
            problems_.insert(problems_.end(), pieces.error().begin(), pieces.error().end());
            return;
        }
        const auto object = static_cast<std::uint32_t>(garden_.objects.size());
        garden_.objects.push_back({label.id, label.name, label.pointer});
        for (Piece& piece : *pieces) {
            piece.object = object;
            fit_box(piece);
            garden_.pieces.push_back(std::move(piece));
        }
    }
    [[nodiscard]] Result<Garden> finish(Horizon horizon, const std::string& file) {
        if (!problems_.empty()) {
            for (Problem& problem : problems_) {
                if (problem.file.empty()) problem.file = file;
            }
            return tl::unexpected<Problems>(std::move(problems_));
        }
        garden_.horizon = std::move(horizon);
        return std::move(garden_);
    }

  private:
    Garden garden_;
    Problems problems_;
};

Vec3 normal_of(HeightPlane ground) {
    return normalised({-ground.rise_per_m.x, -ground.rise_per_m.y, 1.0});
}

}  // namespace

void add_solid(std::vector<Piece>& pieces, const Polyhedron& body, double transmittance) {
    ConvexSolid solid = solid_of(body, transmittance);
    // Fewer than four planes bound nothing.
    if (solid.planes.size() < 4) return;
    Piece piece;
    piece.body = std::move(solid);
    pieces.push_back(std::move(piece));
}

Problem crossing_outline(const scene::Label& label) {
    Problem problem;
    problem.code = "outline_crosses_itself";
    problem.pointer = label.pointer + "/outline_m";
    problem.message = "The outline of " + label.name + " crosses or touches itself.";
    problem.mend = "Give its corners in the order in which you meet them walking round it.";
    return problem;
}

Result<Garden> build_garden(const scene::Scene& scene) {
    const Terrain terrain(scene);
    GardenBuilder builder;
    for (const auto& bench : scene.benches) builder.add(bench.label, pieces_of(bench, terrain));
    for (const auto& stand : scene.post_stands) builder.add(stand.label, pieces_of(stand, terrain));
    for (const auto& wall : scene.walls) builder.add(wall.label, pieces_of(wall, terrain));
    for (const auto& building : scene.buildings) {
        builder.add(building.label, pieces_of(building, terrain));
    }
    for (const auto& cloth : scene.cloths) builder.add(cloth.label, pieces_of(cloth, terrain));
    for (const auto& panel : scene.lath_panels) builder.add(panel.label, pieces_of(panel, terrain));
    for (const auto& tree : scene.trees) {
        builder.add(tree.label, pieces_of(tree, terrain, scene.site.place.latitude));
    }
    for (const auto& mesh : scene.meshes) {
        builder.add(mesh.label, pieces_of(mesh, terrain, scene.file));
    }
    return builder.finish({scene.site.horizon, normal_of(terrain.ground())}, scene.file);
}

std::vector<PieceOptics> optics_on(const Garden& garden, Date date) {
    std::vector<PieceOptics> optics;
    optics.reserve(garden.pieces.size());
    for (const Piece& piece : garden.pieces) optics.push_back(optics_on(piece, date));
    return optics;
}

}  // namespace sunfleck::geometry
