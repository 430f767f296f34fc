#include "scene/scene_keys.h"

#include <algorithm>
#include <array>
#include <filesystem>

namespace sunfleck::scene {

namespace {

namespace fs = std::filesystem;

/// A mesh as its keys say it.
struct MeshDraft {
    Mesh mesh;
    std::optional<double> z_m;
};

ObjectKeys<MeshDraft> make_mesh_keys() {
    const auto mesh = within(&MeshDraft::mesh);
    ObjectKeys<MeshDraft> keys("mesh", "An imported shape, which stops all light.");
    keys.label("mesh", mesh(&Mesh::label));
    keys.text({"file", "file", "OBJ, PLY, STL or OFF, beside the scene or in a folder of it.",
               Need::required},
              TextForm::file, mesh(&Mesh::file));
    keys.position("the mesh's origin", Need::required, mesh(&Mesh::position));
    keys.number({"height_m", "height of the mesh", "Of its origin above the ground."},
                {-50.0, 100.0}, mesh(&Mesh::z_m));
    keys.number({"z_m", "level of the mesh", "Of its origin above the plan's origin."},
                {-200.0, 200.0}, &MeshDraft::z_m);
    keys.rule({.kind = KeyRule::Kind::at_most_one, .keys = {"height_m", "z_m"}});
    keys.bearing("bearing", "Where the mesh's y axis points.", Need::optional,
                 mesh(&Mesh::bearing));
    keys.number({"scale_fraction", "scale", "Metres for one unit of the mesh."}, {0.0001, 1000.0},
                mesh(&Mesh::scale));
    keys.note();
    return keys;
}

bool has_known_ending(const fs::path& file) {
    constexpr std::array<std::string_view, 4> endings{".obj", ".ply", ".stl", ".off"};
    std::string ending = file.extension().string();
    std::ranges::transform(ending, ending.begin(), [](char c) {
        return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
    });
    return std::ranges::count(endings, ending) > 0;
}

/// Whether the path, taken from the scene's folder, stays in it by its own words.
bool stays_inside(const fs::path& file) {
    const fs::path normal = file.lexically_normal();
    return file.is_relative() && !normal.empty() && *normal.begin() != "..";
}

/// Whether links lead the file out of the folder.
bool is_led_outside(const fs::path& folder, const fs::path& file) {
    std::error_code error;
    const fs::path real_folder = fs::canonical(folder, error);
    if (error) return false;
    const fs::path real_file = fs::weakly_canonical(real_folder / file, error);
    if (error) return true;
    const auto [end, ignored] = std::ranges::mismatch(real_folder, real_file);
    return end != real_folder.end();
}

void check_file(const Mesh& mesh, const Value& value, const Reading& reading) {
    const Value key{value->find("file"), pointer_to(value.pointer, "file")};
    const fs::path file(mesh.file);
    const fs::path scene_folder = fs::path(reading.tree->file()).parent_path();
    const fs::path folder = scene_folder.empty() ? fs::path(".") : scene_folder;
    if (!has_known_ending(file)) {
        reading.complain(key, "mesh_kind", "This is no mesh by its name.",
                         "Meshes end in .obj, .ply, .stl or .off.");
    } else if (!stays_inside(file) || is_led_outside(folder, file)) {
        reading.complain(key, "path_outside", "The file is not in the scene's folder.",
                         "Put it beside the scene, and name it from there.");
    } else if (std::error_code error; !fs::is_regular_file(folder / file, error)) {
        reading.complain(key, "mesh_missing", "There is no such file beside the scene.",
                         "Check the name, from the scene's folder on.");
    }
}

}  // namespace

void add_mesh_keys(ObjectKeys<Scene>& keys) {
    static const ObjectKeys<MeshDraft> mesh = make_mesh_keys();
    keys.objects({"meshes", "list of meshes", "Imported shapes."}, mesh, {0, 100}, &Scene::meshes,
                 [](MeshDraft&& draft, const Value& value, const Reading& reading) {
                     check_file(draft.mesh, value, reading);
                     if (draft.z_m) {
                         draft.mesh.z_m = *draft.z_m - reading.frame->ground_z(draft.mesh.position);
                     }
                     return std::move(draft.mesh);
                 });
}

}  // namespace sunfleck::scene
