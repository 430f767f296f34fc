#include "geometry/mesh_file.h"

#include "geometry/flat_outline.h"
#include "geometry/polygon_soup.h"

#include <algorithm>
#include <cctype>
#include <cmath>
#include <fstream>
#include <map>
#include <optional>
#include <system_error>
#include <utility>

namespace sunfleck::geometry {
namespace {

namespace fs = std::filesystem;

constexpr std::uintmax_t most_file_bytes = std::uintmax_t{512} << 20U;
// Garden coordinates beyond this are a wrong unit or a broken file.
constexpr double farthest_m = 1e7;

tl::unexpected<Problems> refusal(std::string code, std::string message, std::string mend,
                                 ProblemKind kind = ProblemKind::input) {
    Problem problem;
    problem.kind = kind;
    problem.code = std::move(code);
    problem.message = std::move(message);
    problem.mend = std::move(mend);
    return failure(std::move(problem));
}

tl::unexpected<Problems> broken(const std::string& name, const std::string& why) {
    return refusal("mesh_broken", "The mesh file \"" + name + "\" " + why,
                   "Save it again from the program that made it.");
}

tl::unexpected<Problems> too_large(const std::string& name) {
    return refusal("mesh_too_large",
                   "The mesh file \"" + name + "\" has more than 2 million triangles.",
                   "Simplify it: a shadow needs only the main outlines.");
}

std::optional<MeshFormat> format_of(const fs::path& path) {
    std::string ending = path.extension().string();
    std::transform(ending.begin(), ending.end(), ending.begin(),
                   [](unsigned char c) { return static_cast<char>(std::tolower(c)); });
    if (ending == ".obj") return MeshFormat::obj;
    if (ending == ".ply") return MeshFormat::ply;
    if (ending == ".stl") return MeshFormat::stl;
    if (ending == ".off") return MeshFormat::off;
    return std::nullopt;
}

Result<std::string> bytes_of(const fs::path& path, const std::string& name) {
    std::error_code error;
    if (!fs::exists(path, error)) {
        return refusal("file_missing", "There is no mesh file \"" + name + "\".",
                       "Check the name and the folder.", ProblemKind::file);
    }
    const bool is_file = fs::is_regular_file(path, error);
    const std::uintmax_t size = is_file ? fs::file_size(path, error) : 0;
    if (is_file && size > most_file_bytes) return too_large(name);
    std::ifstream stream(path, std::ios::binary);
    std::string bytes(size, '\0');
    if (!is_file || error || !stream.read(bytes.data(), static_cast<std::streamsize>(size))) {
        return refusal("file_not_read", "The mesh file \"" + name + "\" can't be read.",
                       "Check that it is a file and that you may read it.", ProblemKind::file);
    }
    return bytes;
}

bool is_sane(Vec3 p) {
    return std::abs(p.x) <= farthest_m && std::abs(p.y) <= farthest_m &&
           std::abs(p.z) <= farthest_m;
}

/// The face's corners seen along the axis most square to it, counter-clockwise where its corners
/// are. Nothing when they are all in one line.
std::optional<Outline> flattened(const std::vector<Vec3>& face) {
    Vec3 normal;
    for (std::size_t i = 1; i + 1 < face.size(); ++i) {
        normal = normal + cross(face[i] - face[0], face[i + 1] - face[0]);
    }
    const Vec3 size{std::abs(normal.x), std::abs(normal.y), std::abs(normal.z)};
    const double largest = std::max({size.x, size.y, size.z});
    if (!(largest > 0.0)) return std::nullopt;
    Outline flat;
    for (const Vec3& p : face) {
        if (size.z >= largest) {
            flat.push_back({normal.z > 0.0 ? p.x : -p.x, p.y});
        } else if (size.x >= largest) {
            flat.push_back({normal.x > 0.0 ? p.y : -p.y, p.z});
        } else {
            flat.push_back({normal.y > 0.0 ? p.z : -p.z, p.x});
        }
    }
    return flat;
}

void add_fan(std::vector<Triangle>& triangles, const std::vector<Vec3>& face) {
    for (std::size_t i = 1; i + 1 < face.size(); ++i) {
        const Triangle t{face[0], face[i], face[i + 1]};
        if (length(cross(t.b - t.a, t.c - t.a)) > 0.0) triangles.push_back(t);
    }
}

/// Cuts a face into triangles. One with an inward corner is cut into convex parts first; one that
/// crosses itself is taken as a fan.
void add_face(std::vector<Triangle>& triangles, const std::vector<Vec3>& face) {
    const auto flat = face.size() > 3 ? flattened(face) : std::nullopt;
    const auto parts = flat ? convex_parts(*flat) : std::nullopt;
    if (!parts || parts->size() == 1) {
        add_fan(triangles, face);
        return;
    }
    std::map<std::pair<double, double>, Vec3> corner_at;
    for (std::size_t i = 0; i < face.size(); ++i) {
        corner_at[{(*flat)[i].x, (*flat)[i].y}] = face[i];
    }
    for (const Outline& part : *parts) {
        std::vector<Vec3> corners;
        corners.reserve(part.size());
        for (const Vec2 p : part) corners.push_back(corner_at.at({p.x, p.y}));
        add_fan(triangles, corners);
    }
}

Result<std::vector<Triangle>> triangles_of(const PolygonSoup& soup, const std::string& name) {
    if (!std::all_of(soup.corners.begin(), soup.corners.end(), is_sane)) {
        return broken(name, "has corners without a sensible place.");
    }
    std::vector<Triangle> triangles;
    std::vector<Vec3> face;
    for (const auto& indices : soup.faces) {
        face.clear();
        for (const std::size_t i : indices) {
            if (i >= soup.corners.size()) {
                return broken(name, "has a face with a corner that is not there.");
            }
            face.push_back(soup.corners[i]);
        }
        if (face.size() < 3) return broken(name, "has a face with fewer than three corners.");
        add_face(triangles, face);
        if (triangles.size() > most_mesh_triangles) return too_large(name);
    }
    if (triangles.empty()) return broken(name, "holds no face that could cast a shadow.");
    return triangles;
}

}  // namespace

Result<std::vector<Triangle>> read_mesh(const fs::path& path, const std::string& name) {
    const auto format = format_of(path);
    if (!format) {
        return refusal("mesh_format", "The mesh file \"" + name + "\" is of no known kind.",
                       "Use a file that ends in .obj, .ply, .stl or .off.");
    }
    auto bytes = bytes_of(path, name);
    if (!bytes) return tl::unexpected(std::move(bytes.error()));
    const SoupResult read = read_polygon_soup(std::move(*bytes), *format, most_mesh_triangles);
    if (read.soup) return triangles_of(*read.soup, name);
    switch (read.fault) {
        case SoupFault::too_large:
            return too_large(name);
        case SoupFault::wide_lists:
            return refusal("mesh_format",
                           "The PLY file \"" + name + "\" counts its faces' corners in 32 bits.",
                           "Save it as text, or with list lengths of type uchar.");
        case SoupFault::broken:
            break;
    }
    return broken(name, "is broken or not of the kind that its ending names.");
}

}  // namespace sunfleck::geometry
