#include "base/scratch_folder.h"
#include "geometry/garden_scenes.h"
#include "geometry/mesh_file.h"

#include <catch2/catch.hpp>

#include <array>
#include <cstring>
#include <filesystem>
#include <fstream>

using namespace sunfleck;
using namespace sunfleck::geometry;
using sunfleck::test::ScratchFolder;
namespace fs = std::filesystem;

namespace {

// A box of 2 x 1 x 3 m: its corners and, counter-clockwise from outside, its six faces.
const std::array<std::array<int, 3>, 8> corners = {
    {{0, 0, 0}, {2, 0, 0}, {2, 1, 0}, {0, 1, 0}, {0, 0, 3}, {2, 0, 3}, {2, 1, 3}, {0, 1, 3}}};
const std::array<std::array<int, 4>, 6> faces = {
    {{3, 2, 1, 0}, {4, 5, 6, 7}, {0, 1, 5, 4}, {1, 2, 6, 5}, {2, 3, 7, 6}, {3, 0, 4, 7}}};

std::string corner_lines(const std::string& before) {
    std::string text;
    for (const auto& c : corners) {
        text += before + std::to_string(c[0]) + ' ' + std::to_string(c[1]) + ' ' +
                std::to_string(c[2]) + '\n';
    }
    return text;
}

std::string face_lines(const std::string& before, int first) {
    std::string text;
    for (const auto& f : faces) {
        text += before;
        for (const int i : f) text += ' ' + std::to_string(i + first);
        text += '\n';
    }
    return text;
}

std::string obj_box() {
    return "# a shed\no shed\n" + corner_lines("v ") + face_lines("f", 1);
}
std::string off_box() {
    return "OFF\n8 6 0\n" + corner_lines("") + face_lines("4", 0);
}
std::string ply_header(const std::string& format, const std::string& length_type) {
    return "ply\nformat " + format +
           " 1.0\ncomment a shed\nelement vertex 8\nproperty float x\nproperty float y\n"
           "property float z\nelement face 6\nproperty list " +
           length_type + " int vertex_indices\nend_header\n";
}
std::string ply_box(const std::string& length_type = "uchar") {
    return ply_header("ascii", length_type) + corner_lines("") + face_lines("4", 0);
}

template <typename T>
void append(std::string& bytes, T value) {
    std::array<char, sizeof(T)> raw{};
    std::memcpy(raw.data(), &value, sizeof(T));
    bytes.append(raw.data(), raw.size());
}

std::string binary_ply_box() {
    std::string bytes = ply_header("binary_little_endian", "uchar");
    for (const auto& c : corners) {
        for (const int x : c) append(bytes, static_cast<float>(x));
    }
    for (const auto& f : faces) {
        append(bytes, static_cast<unsigned char>(4));
        for (const int i : f) append(bytes, i);
    }
    return bytes;
}

/// The box's twelve triangles.
std::vector<std::array<int, 3>> box_triangles() {
    std::vector<std::array<int, 3>> triangles;
    for (const auto& f : faces) {
        triangles.push_back({f[0], f[1], f[2]});
        triangles.push_back({f[0], f[2], f[3]});
    }
    return triangles;
}

std::string stl_box() {
    std::string text = "solid shed\n";
    for (const auto& t : box_triangles()) {
        text += "facet normal 0 0 0\nouter loop\n";
        for (const int i : t) {
            const auto& c = corners[static_cast<std::size_t>(i)];
            text += "vertex " + std::to_string(c[0]) + ' ' + std::to_string(c[1]) + ' ' +
                    std::to_string(c[2]) + '\n';
        }
        text += "endloop\nendfacet\n";
    }
    return text + "endsolid shed\n";
}

std::string binary_stl_box() {
    std::string bytes(80, ' ');
    append(bytes, std::uint32_t{12});
    for (const auto& t : box_triangles()) {
        for (int i = 0; i < 3; ++i) append(bytes, 0.0F);
        for (const int i : t) {
            for (const int x : corners[static_cast<std::size_t>(i)]) {
                append(bytes, static_cast<float>(x));
            }
        }
        append(bytes, std::uint16_t{0});
    }
    return bytes;
}

scene::Scene scene_in(const ScratchFolder& folder, const std::string& mesh_file) {
    scene::Scene scene;
    scene.file = (folder.path() / "garden.json").string();
    scene::Mesh mesh;
    mesh.label = {"M", "Shed", "/meshes/0"};
    mesh.file = mesh_file;
    scene.meshes.push_back(mesh);
    return scene;
}

/// The code of the one problem that the mesh gives; empty when it gives none.
std::string code_of(const ScratchFolder& folder, const std::string& name) {
    const scene::Scene scene = scene_in(folder, name);
    const auto garden = build_garden(scene);
    if (garden) return {};
    REQUIRE(garden.error().size() == 1);
    const Problem& problem = garden.error()[0];
    CHECK(problem.file == scene.file);
    CHECK(problem.pointer == "/meshes/0/file");
    CHECK(problem.message.find(name) != std::string::npos);
    CHECK_FALSE(problem.mend.empty());
    return problem.code;
}

}  // namespace

TEST_CASE("the same shed in every format throws the same shadow", "[geometry][property]") {
    const ScratchFolder folder;
    const std::vector<std::pair<std::string, std::string>> files = {
        {"a.obj", obj_box()},           {"b.off", off_box()},        {"c.ply", ply_box()},
        {"d.ply", ply_box("int")},      {"e.ply", binary_ply_box()}, {"f.stl", stl_box()},
        {"sub/G.STL", binary_stl_box()}};
    // The box as a wall of the garden says what is right.
    scene::Scene as_wall;
    as_wall.walls.push_back(wall_along({{0.0, 0.5}, {2.0, 0.5}}, 3.0, 1.0));
    const auto wall = build_garden(as_wall);
    REQUIRE(wall);
    for (const auto& [name, text] : files) {
        folder.with(name, text);
        const auto garden = build_garden(scene_in(folder, name));
        CAPTURE(name);
        REQUIRE(garden);
        REQUIRE(garden->pieces.size() == 1);
        CHECK(std::get<MeshBody>(garden->pieces[0].body).facets.size() == 12);
        Dice dice(9);
        int met = 0;
        for (int i = 0; i < 2000; ++i) {
            const Vec3 origin = dice.point(6.0);
            const Vec3 aim{dice.between(-0.5, 2.5), dice.between(-0.5, 1.5),
                           dice.between(-0.5, 3.5)};
            const Vec3 direction = normalised(aim - origin);
            const double light = light_at(*garden, origin, direction);
            CHECK(light == Approx(light_at(*wall, origin, direction)));
            if (light < 0.5) ++met;
        }
        CHECK(met > 500);
        CHECK(met < 1900);
    }
}

TEST_CASE("a mesh is placed, turned and scaled as stated", "[geometry][property]") {
    const ScratchFolder folder;
    folder.with("a.obj", obj_box());
    scene::Scene scene = scene_in(folder, "a.obj");
    scene.ground = {Angle::degrees(5.0), Angle::degrees(180.0)};
    scene.meshes[0].position = {10.0, 20.0};
    scene.meshes[0].bearing = Angle::degrees(90.0);  // its y axis looks east, its x axis south
    scene.meshes[0].scale = 2.0;
    scene.meshes[0].z_m = 0.5;
    const auto garden = build_garden(scene);
    REQUIRE(garden);
    const double ground = 20.0 * std::tan(Angle::degrees(5.0).in_radians());
    const Piece& piece = garden->pieces.at(0);
    CHECK(length(piece.low - Vec3{10.0, 16.0, ground + 0.5}) < 1e-9);
    CHECK(length(piece.high - Vec3{12.0, 20.0, ground + 6.5}) < 1e-9);
}

TEST_CASE("faces with inward corners are cut, not spanned", "[geometry][property]") {
    const ScratchFolder folder;
    // An L, upright in the plane y = 0.
    folder.with("l.obj", "v 0 0 0\nv 2 0 0\nv 2 0 1\nv 1 0 1\nv 1 0 2\nv 0 0 2\nf 2 3 4 5 6 1\n");
    const auto garden = build_garden(scene_in(folder, "l.obj"));
    REQUIRE(garden);
    const auto light = [&](double x, double z) {
        return light_at(*garden, {x, -1.0, z}, {0.0, 1.0, 0.0});
    };
    CHECK(light(0.5, 1.5) == Approx(0.0));
    CHECK(light(1.5, 0.5) == Approx(0.0));
    CHECK(light(1.5, 1.5) == Approx(1.0));
    CHECK(light(1.05, 1.05) == Approx(1.0));
}

TEST_CASE("files that are no meshes are refused by name", "[geometry][property]") {
    const ScratchFolder folder;
    const std::vector<std::tuple<std::string, std::string, std::string>> files = {
        {"empty.obj", "", "mesh_broken"},
        {"empty.off", "", "mesh_broken"},
        {"empty.ply", "", "mesh_broken"},
        {"empty.stl", "", "mesh_broken"},
        {"text.obj", "Dear Sir or Madam\n", "mesh_broken"},
        {"text.stl", "solid nothing at all", "mesh_broken"},
        {"index.obj", "v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 7\n", "mesh_broken"},
        {"negative.obj", "v 0 0 0\nv 1 0 0\nv 0 1 0\nf -1 -2 -9\n", "mesh_broken"},
        {"zero.obj", "v 0 0 0\nv 1 0 0\nv 0 1 0\nf 0 1 2\n", "mesh_broken"},
        {"two.obj", "v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2\n", "mesh_broken"},
        {"line.obj", "v 0 0 0\nv 1 0 0\nv 0 1 0\nf 1 2 3\nf 1 2\n", "mesh_broken"},
        {"flat.obj", "v 0 0 0\nv 1 0 0\nv 2 0 0\nf 1 2 3\n", "mesh_broken"},
        {"huge.obj", "v 0 0 1e300\nv 1 0 0\nv 0 1 0\nf 1 2 3\n", "mesh_broken"},
        {"nan.obj", "v 0 0 nan\nv 1 0 0\nv 0 1 0\nf 1 2 3\n", "mesh_broken"},
        {"faces.off", "OFF\n3 2000000000 0\n0 0 0\n1 0 0\n0 1 0\n3 0 1 2\n", "mesh_too_large"},
        {"corners.off", "OFF\n2000000000 1 0\n0 0 0\n", "mesh_too_large"},
        {"corner_count.off", "OFF\n3 1 0\n0 0 0\n1 0 0\n0 1 0\n1999999999 0 1 2\n",
         "mesh_too_large"},
        {"short.off", "OFF\n3 1 0\n0 0 0\n1 0 0\n", "mesh_broken"},
        {"minus.off", "OFF\n3 -1 0\n0 0 0\n1 0 0\n0 1 0\n", "mesh_broken"},
        {"weight.off", "4OFF\n3 1 0\n0 0 0 0\n1 0 0 0\n0 1 0 0\n3 0 1 2\n", "mesh_broken"},
        {"items.ply",
         "ply\nformat ascii 1.0\nelement vertex 4000000000\nelement face 1\n"
         "property list uchar int vertex_indices\nend_header\n",
         "mesh_broken"},
        {"endless.ply",
         "ply\nformat ascii 1.0\nelement nothing 18446744073709551615\n" +
             ply_box().substr(ply_box().find("comment")),
         "mesh_broken"},
        {"orphan.ply",
         "ply\nformat ascii 1.0\nproperty float x\n" + ply_box().substr(ply_box().find("comment")),
         "mesh_broken"},
        {"whole.ply",
         "ply\nformat ascii 1.0\nelement vertex 3\nproperty int x\nproperty float y\n"
         "property float z\nelement face 1\nproperty list uchar int vertex_indices\n"
         "end_header\n0 0 0\n1 0 0\n0 1 0\n3 0 1 2\n",
         "mesh_broken"},
        {"headless.ply", "ply\nformat ascii 1.0\nelement vertex 3\n", "mesh_broken"},
        {"wide.ply", ply_header("binary_little_endian", "int") + std::string(200, '\x7f'),
         "mesh_format"},
        {"cut.ply", binary_ply_box().substr(0, 250), "mesh_broken"},
        {"cut.stl", binary_stl_box().substr(0, 300), "mesh_broken"},
        {"count.stl", std::string(80, ' ') + std::string(4, '\x7f') + std::string(50, 'a'),
         "mesh_broken"},
        {"shed.dae", "<xml/>", "mesh_format"},
        {"shed", obj_box(), "mesh_format"},
    };
    for (const auto& [name, text, code] : files) {
        folder.with(name, text);
        CAPTURE(name);
        CHECK(code_of(folder, name) == code);
    }
}

TEST_CASE("any damage to a mesh file is refused or harmless", "[geometry][property]") {
    const ScratchFolder folder;
    Dice dice(13);
    const std::vector<std::pair<std::string, std::string>> files = {
        {"a.obj", obj_box()},        {"b.off", off_box()}, {"c.ply", ply_box()},
        {"e.ply", binary_ply_box()}, {"f.stl", stl_box()}, {"g.stl", binary_stl_box()}};
    int refused = 0;
    for (const auto& [name, text] : files) {
        for (int i = 0; i < 80; ++i) {
            std::string damaged = text;
            for (int k = 0; k < 3; ++k) {
                const auto at = static_cast<std::size_t>(
                    dice.between(0.0, static_cast<double>(damaged.size())));
                damaged[at] = static_cast<char>(static_cast<int>(dice.between(0.0, 256.0)));
            }
            if (i % 4 == 0) damaged.resize(damaged.size() * static_cast<std::size_t>(i) / 80);
            folder.with(name, damaged);
            const auto garden = build_garden(scene_in(folder, name));
            if (!garden) {
                CHECK_FALSE(garden.error()[0].message.empty());
                ++refused;
                continue;
            }
            const double light = light_at(*garden, {-5.0, 0.5, 1.0}, {1.0, 0.0, 0.0});
            CHECK((light >= 0.0 && light <= 1.0));
        }
    }
    CHECK(refused > 100);
}

TEST_CASE("a mesh never lies outside the scene's folder", "[geometry][property]") {
    const ScratchFolder folder;
    const ScratchFolder elsewhere;
    elsewhere.with("a.obj", obj_box());
    folder.with("a.obj", obj_box());
    folder.with("deep/b.obj", obj_box());
    CHECK(code_of(folder, "deep/b.obj").empty());
    CHECK(code_of(folder, "deep/../a.obj").empty());
    CHECK(code_of(folder, "missing.obj") == "file_missing");
    CHECK(code_of(folder, "deep/none/missing.obj") == "file_missing");
    CHECK(code_of(folder, (elsewhere.path() / "a.obj").string()) == "path_leaves_folder");
    CHECK(code_of(folder, (folder.path() / "a.obj").string()) == "path_leaves_folder");
    CHECK(code_of(folder, "../" + elsewhere.path().filename().string() + "/a.obj") ==
          "path_leaves_folder");
    CHECK(code_of(folder, "deep/../../" + elsewhere.path().filename().string() + "/a.obj") ==
          "path_leaves_folder");
    fs::create_symlink(elsewhere.path() / "a.obj", folder.path() / "link.obj");
    CHECK(code_of(folder, "link.obj") == "path_leaves_folder");
    fs::create_symlink(elsewhere.path(), folder.path() / "linked");
    CHECK(code_of(folder, "linked/a.obj") == "path_leaves_folder");
    fs::create_directory(folder.path() / "folder.obj");
    CHECK(code_of(folder, "folder.obj") == "file_not_read");
}

TEST_CASE("more than two million triangles are refused", "[geometry][property]") {
    const ScratchFolder folder;
    // A single face repeated: 12 bytes each.
    std::string text = "v 0 0 0\nv 1 0 0\nv 0 1 0\n";
    constexpr std::size_t lines = most_mesh_triangles + 1;
    text.reserve(text.size() + lines * 8);
    for (std::size_t i = 0; i < lines; ++i) text += "f 1 2 3\n";
    folder.with("many.obj", text);
    const auto mesh = read_mesh(folder.path() / "many.obj", "many.obj");
    REQUIRE_FALSE(mesh);
    CHECK(mesh.error()[0].code == "mesh_too_large");
}
