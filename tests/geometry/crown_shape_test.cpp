#include "base/within.h"
#include "geometry/garden_cases.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <array>
#include <fstream>

using namespace sunfleck;
using namespace sunfleck::geometry;
using nlohmann::json;
using scene::CrownForm;
using sunfleck::test::within;

namespace {

constexpr std::array all_forms = {CrownForm::ellipsoid, CrownForm::cone, CrownForm::dome,
                                  CrownForm::column};

Crown crown_of(CrownForm form) {
    Crown crown;
    crown.form = form;
    crown.base_centre = {0.3, -0.2, 1.0};
    crown.height_m = 4.0;
    crown.half_width_m = 1.5;
    crown.half_across_m = 1.0;
    crown.axis = on_ground(30.0);
    return crown;
}

/// Is the point in the crown, by the definition of its form?
bool is_inside(const Crown& crown, Vec3 p) {
    const Vec3 from = p - crown.base_centre;
    const Vec3 side{-crown.axis.y, crown.axis.x, 0.0};
    const double x = dot(from, crown.axis) / crown.half_width_m;
    const double y = dot(from, side) / crown.half_across_m;
    const double z = from.z / crown.height_m;
    if (z < 0.0 || z > 1.0) return false;
    switch (crown.form) {
        case CrownForm::ellipsoid:
            return x * x + y * y + (2.0 * z - 1.0) * (2.0 * z - 1.0) <= 1.0;
        case CrownForm::dome:
            return x * x + y * y + z * z <= 1.0;
        case CrownForm::cone:
            return std::sqrt(x * x + y * y) <= 1.0 - z;
        case CrownForm::column:
            break;
    }
    return x * x + y * y <= 1.0;
}

/// Path length by marching in small steps from the origin.
double marched_m(const Crown& crown, Vec3 origin, Vec3 direction, double step_m) {
    double path = 0.0;
    for (double t = 0.5 * step_m; t < 20.0; t += step_m) {
        if (is_inside(crown, origin + t * direction)) path += step_m;
    }
    return path;
}

}  // namespace

TEST_CASE("chords of a spherical crown are those of the table", "[geometry][published]") {
    // crown_path.json: chord of a sphere, generated; tolerance as stated there.
    const json table = json::parse(std::ifstream(SUNFLECK_TEST_DATA "/crown_path.json"));
    int rows = 0;
    for (const json& row : table.at("cases")) {
        CAPTURE(row.dump());
        const double radius = row.at("radius_m");
        Crown crown;
        crown.base_centre = row.at("cx_m").get<double>() * on_ground(180.0);
        crown.base_centre.z = row.at("cz_m").get<double>() - radius;
        crown.height_m = 2.0 * radius;
        crown.half_width_m = crown.half_across_m = radius;
        crown.axis = on_ground(0.0);
        const Vec3 sun = to_sun(row.at("altitude_deg"), row.at("azimuth_deg"));
        CHECK(crown_path_m(crown, {}, sun) ==
              within(row.at("path_m").get<double>(), table.at("tolerance_m").get<double>()));
        ++rows;
    }
    CHECK(rows == 5);
}

TEST_CASE("a crown dims light by the law of Monsi and Saeki", "[geometry][published]") {
    // beer_lambert.json, crown: tau = exp(-0.5 a s) (Monsi & Saeki 1953), generated.
    const json table = json::parse(std::ifstream(SUNFLECK_TEST_DATA "/beer_lambert.json"));
    int rows = 0;
    for (const json& row : table.at("crown")) {
        CAPTURE(row.dump());
        Crown crown;
        crown.form = CrownForm::column;
        crown.height_m = row.at("path_m");
        crown.half_width_m = crown.half_across_m = 1.0;
        crown.base_centre = {0.0, 0.0, 2.0};
        crown.axis = on_ground(0.0);
        const PieceOptics optics{true, 0.5 * row.at("leaf_area_density").get<double>()};
        const Passage passage = pass(piece_of(crown), optics, {}, {0.0, 0.0, 1.0});
        CHECK(passage.is_met);
        CHECK(passage.transmittance == within(row.at("tau").get<double>(), 1e-6));
        ++rows;
    }
    CHECK(rows == 3);
}

TEST_CASE("paths through every crown form agree with marching through it", "[geometry][cross]") {
    Dice dice(20260621);
    for (const CrownForm form : all_forms) {
        const Crown crown = crown_of(form);
        int met = 0;
        for (int i = 0; i < 60; ++i) {
            // From around and from within.
            const Vec3 origin = crown.base_centre + Vec3{0.0, 0.0, 2.0} + dice.point(4.0);
            const Vec3 aim = crown.base_centre + Vec3{0.0, 0.0, 2.0} + dice.point(1.2);
            const Vec3 direction = normalised(aim - origin);
            const double path = crown_path_m(crown, origin, direction);
            CAPTURE(static_cast<int>(form), i, path);
            CHECK(std::abs(path - marched_m(crown, origin, direction, 1e-3)) <= 1.001e-3);
            if (path > 0.0) ++met;
        }
        CHECK(met > 30);
    }
}

TEST_CASE("a path is the same backwards, turned and moved", "[geometry][property]") {
    Dice dice(7);
    for (const CrownForm form : all_forms) {
        Crown crown = crown_of(form);
        for (int i = 0; i < 300; ++i) {
            const Vec3 direction = dice.direction();
            const Vec3 middle = crown.base_centre + Vec3{0.0, 0.0, 2.0} + dice.point(2.0);
            const double path = crown_path_m(crown, middle - 30.0 * direction, direction);
            CAPTURE(static_cast<int>(form), i);
            CHECK(crown_path_m(crown, middle + 30.0 * direction, -direction) == within(path, 1e-9));
            const double c = std::cos(0.01 * i);
            const double s = std::sin(0.01 * i);
            const auto turned = [&](Vec3 v) {
                return Vec3{c * v.x - s * v.y, s * v.x + c * v.y, v.z};
            };
            const Vec3 moved = dice.point(5.0);
            Crown other = crown;
            other.axis = turned(crown.axis);
            other.base_centre = turned(crown.base_centre) + moved;
            CHECK(crown_path_m(other, turned(middle - 30.0 * direction) + moved,
                               turned(direction)) == within(path, 1e-9));
        }
    }
}

TEST_CASE("a crown's path starts at a receiver within it", "[geometry][property]") {
    for (const CrownForm form : all_forms) {
        CAPTURE(static_cast<int>(form));
        const Crown crown = crown_of(form);
        const Vec3 axis_point = crown.base_centre + Vec3{0.0, 0.0, 1.0};
        CHECK(crown_path_m(crown, axis_point, {0.0, 0.0, 1.0}) == Approx(3.0));
        CHECK(crown_path_m(crown, axis_point, {0.0, 0.0, -1.0}) == Approx(1.0));
        CHECK(crown_path_m(crown, crown.base_centre + Vec3{0.0, 0.0, 4.5}, {0.0, 0.0, 1.0}) ==
              within(0.0, 1e-12));
    }
}

TEST_CASE("rays along a crown's axes, faces and tangents give plain numbers",
          "[geometry][property]") {
    const std::array<Vec3, 6> axes = {Vec3{1, 0, 0},  Vec3{0, 1, 0},  Vec3{0, 0, 1},
                                      Vec3{-1, 0, 0}, Vec3{0, -1, 0}, Vec3{0, 0, -1}};
    for (const CrownForm form : all_forms) {
        Crown crown = crown_of(form);
        crown.axis = {1.0, 0.0, 0.0};
        crown.base_centre = {};
        for (const Vec3 direction : axes) {
            for (const double x : {-1.5, 0.0, 1.5, 2.0}) {
                for (const double y : {-1.0, 0.0, 1.0}) {
                    for (const double z : {-1.0, 0.0, 2.0, 4.0, 5.0}) {
                        const double path = crown_path_m(crown, {x, y, z}, direction);
                        CHECK(path >= 0.0);
                        CHECK(path <= 4.0 + 1e-12);
                    }
                }
            }
        }
        // Along the cone's own side, where the quadratic has no square term.
        const Vec3 side = normalised({-1.5, 0.0, 4.0});
        const double path = crown_path_m(crown, Vec3{1.4, 0.0, 0.0} - 3.0 * side, side);
        CHECK(std::isfinite(path));
        CHECK(path > 0.0);
    }
}
