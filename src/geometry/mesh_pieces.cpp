#include "geometry/builders.h"
#include "geometry/mesh_file.h"

#include <algorithm>
#include <filesystem>
#include <system_error>

namespace sunfleck::geometry {
namespace {

namespace fs = std::filesystem;

/// The path of a file that must lie in the scene's folder, links followed; nothing when it lies
/// outside.
std::optional<fs::path> path_in_folder(const std::string& scene_file, const std::string& name) {
    const fs::path wanted(name);
    if (wanted.empty() || wanted.is_absolute() || wanted.has_root_name()) return std::nullopt;
    std::error_code error;
    // A scene made in memory lies in the working folder.
    const fs::path scene_path = fs::absolute(scene_file.empty() ? "scene" : scene_file, error);
    if (error) return std::nullopt;
    const fs::path folder = fs::weakly_canonical(scene_path.parent_path(), error);
    if (error) return std::nullopt;
    const fs::path path = fs::weakly_canonical(folder / wanted, error);
    if (error) return std::nullopt;
    const auto [end, rest] = std::mismatch(folder.begin(), folder.end(), path.begin(), path.end());
    if (end != folder.end() || rest == path.end()) return std::nullopt;
    return path;
}

Problem outside_folder(const scene::Mesh& mesh) {
    Problem problem;
    problem.kind = ProblemKind::input;
    problem.code = "path_leaves_folder";
    problem.message = "The mesh file \"" + mesh.file + "\" does not lie in the scene's folder.";
    problem.mend = "Put it beside the scene or in a folder below, and name it from there.";
    return problem;
}

/// From the mesh's own axes to the world's: its y axis along the bearing, z up.
struct Placing {
    Vec2 right;
    Vec2 forward;
    Vec3 origin;
    double scale = 1.0;
    [[nodiscard]] Vec3 operator()(Vec3 p) const {
        const Vec2 level = p.x * right + p.y * forward;
        return origin + scale * Vec3{level.x, level.y, p.z};
    }
};

Placing placing_of(const scene::Mesh& mesh, const Terrain& terrain) {
    const Vec2 middle = terrain.world(mesh.position);
    const Vec2 forward = terrain.towards(mesh.bearing);
    return {{forward.y, -forward.x},
            forward,
            {middle.x, middle.y, terrain.ground()(middle) + mesh.z_m},
            mesh.scale};
}

}  // namespace

Result<std::vector<Piece>> pieces_of(const scene::Mesh& mesh, const Terrain& terrain,
                                     const std::string& scene_file) {
    const auto at_mesh = [&](Problem problem) {
        problem.file = scene_file;
        problem.pointer = mesh.label.pointer + "/file";
        return problem;
    };
    const auto path = path_in_folder(scene_file, mesh.file);
    if (!path) return failure(at_mesh(outside_folder(mesh)));
    auto triangles = read_mesh(*path, mesh.file);
    if (!triangles) {
        Problems problems;
        for (const Problem& problem : triangles.error()) problems.push_back(at_mesh(problem));
        return tl::unexpected<Problems>(std::move(problems));
    }
    const Placing place = placing_of(mesh, terrain);
    MeshBody body;
    body.facets = std::move(*triangles);
    for (Triangle& t : body.facets) t = {place(t.a), place(t.b), place(t.c)};
    body.tree = build_triangle_tree(body.facets);
    std::vector<Piece> pieces(1);
    pieces[0].body = std::move(body);
    return pieces;
}

}  // namespace sunfleck::geometry
