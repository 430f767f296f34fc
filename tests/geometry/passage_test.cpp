#include "sunfleck/geometry/passage.h"

#include "base/within.h"
#include "geometry/garden_cases.h"

#include <catch2/catch.hpp>
#include <nlohmann/json.hpp>

#include <fstream>
#include <map>

using namespace sunfleck;
using namespace sunfleck::geometry;
using nlohmann::json;
using sunfleck::test::within;

namespace {

// shadow_geometry.json: plane trigonometry, generated; tolerance as printed there.
constexpr double tolerance_m = 1e-6;

json shadow_cases() {
    return json::parse(std::ifstream(SUNFLECK_TEST_DATA "/shadow_geometry.json")).at("cases");
}

Garden built(const scene::Scene& scene) {
    auto garden = build_garden(scene);
    REQUIRE(garden);
    return std::move(*garden);
}

void check_pole(const json& in, const json& out) {
    const double altitude = in.at("altitude_deg");
    const double azimuth = in.at("azimuth_deg");
    // A post of 10 cm, turned so that its far top edge is square to the light: the shadow is
    // longer than a thin pole's by half its width.
    scene::Scene scene;
    scene::PostStand post;
    post.label = label("P");
    post.bearing = Angle::degrees(azimuth);
    post.height_m = in.at("height_m");
    post.top_side_m = post.post_width_m = 0.1;
    scene.post_stands.push_back(post);
    const Garden garden = built(scene);
    const double bearing = out.at("bearing_deg");
    const Vec3 away = on_ground(bearing);
    const auto is_lit = [&](double at_m) {
        return light_at(garden, at_m * away, to_sun(altitude, azimuth)) > 0.0;
    };
    const double length_m = edge_m(is_lit, 0.06, 50.0) - 0.05;
    CHECK(length_m == within(out.at("length_m").get<double>(), tolerance_m));
    CHECK(length_m * away.x == within(out.at("tip_east_m").get<double>(), tolerance_m));
    CHECK(length_m * away.y == within(out.at("tip_north_m").get<double>(), tolerance_m));
}

void check_wall(const json& in, const json& out) {
    const double side = in.at("receiving_side_bearing_deg");
    const Vec3 outward = on_ground(side);
    const Vec3 along = on_ground(side + 90.0);
    scene::Scene scene;
    scene::Wall wall;
    wall.label = label("W");
    wall.height_m = in.at("height_m");
    wall.thickness_m = 0.2;
    wall.line = {{-500.0 * along.x, -500.0 * along.y}, {500.0 * along.x, 500.0 * along.y}};
    scene.walls.push_back(wall);
    const Garden garden = built(scene);
    const Vec3 sun = to_sun(in.at("altitude_deg"), in.at("azimuth_deg"));
    CHECK((dot(sun, outward) > 0.0) == out.at("sunlit_side").get<bool>());
    const auto is_lit = [&](double depth_m) {
        return light_at(garden, (0.1 + depth_m) * outward, sun) > 0.0;
    };
    CHECK(edge_m(is_lit, 0.001, 50.0) == within(out.at("depth_m").get<double>(), tolerance_m));
}

void check_overhang(const json& in, const json& out) {
    const double facade = in.at("facade_bearing_deg");
    const double height = in.at("height_above_ground_m");
    scene::Scene scene;
    // The facade lies at y = 0 of a plan turned so that its y axis looks out of it.
    scene.site.plan_up_bearing = Angle::degrees(facade);
    scene::Building house;
    house.label = label("H");
    house.outline = {{-500.0, -5.0}, {500.0, -5.0}, {500.0, 0.0}, {-500.0, 0.0}};
    house.eaves_overhang_m = in.at("projection_m");
    house.eaves_height_m = height + 0.02;  // its underside is what throws this edge
    scene.buildings.push_back(house);
    const Garden garden = built(scene);
    const Vec3 sun = to_sun(in.at("altitude_deg"), in.at("azimuth_deg"));
    const auto is_lit = [&](double down_m) {
        return light_at(garden, {0.0, 0.0, height - down_m}, sun) > 0.0;
    };
    CHECK(edge_m(is_lit, 0.001, height) ==
          within(out.at("shadow_down_wall_m").get<double>(), tolerance_m));
    CHECK(out.at("ground_sun_reaches_within_m_of_wall").get<double>() == Approx(0.0));
    CHECK(light_at(garden, 0.001 * on_ground(facade), sun) == Approx(1.0));
}

void check_fin(const json& in, const json& out) {
    scene::Scene scene;
    const double facade = in.at("facade_bearing_deg");
    scene.site.plan_up_bearing = Angle::degrees(facade);
    scene::Wall fin;
    fin.label = label("F");
    fin.height_m = 100.0;
    fin.thickness_m = 0.1;
    fin.line = {{0.0, -1.0}, {0.0, in.at("projection_m").get<double>()}};
    scene.walls.push_back(fin);
    const Garden garden = built(scene);
    // The sun stands clockwise of the facade's normal: the shade lies on the other side.
    const Vec3 side = on_ground(facade - 90.0);
    const Vec3 sun = to_sun(20.0, in.at("azimuth_deg"));
    const auto is_lit = [&](double at_m) {
        return light_at(garden, Vec3{0.0, 0.0, 1.0} + (0.05 + at_m) * side, sun) > 0.0;
    };
    CHECK(edge_m(is_lit, 0.001, 5.0) ==
          within(out.at("shadow_width_m").get<double>(), tolerance_m));
}

void check_sphere(const json& in, const json& out) {
    Crown crown;
    const double radius = in.at("radius_m");
    crown.base_centre = {0.0, 0.0, in.at("centre_height_m").get<double>() - radius};
    crown.height_m = 2.0 * radius;
    crown.half_width_m = crown.half_across_m = radius;
    crown.axis = on_ground(77.0);
    const Piece piece = piece_of(crown);
    const Vec3 sun = to_sun(in.at("altitude_deg"), in.at("azimuth_deg"));
    const double bearing = out.at("bearing_deg");
    const Vec3 away = on_ground(bearing);
    const Vec3 side = on_ground(bearing + 90.0);
    const double centre = out.at("centre_distance_m");
    const auto edge = [&](Vec3 towards) {
        const auto is_lit = [&](double at_m) {
            return crown_path_m(crown, centre * away + at_m * towards, sun) <= 0.0;
        };
        return edge_m(is_lit, 0.0, 20.0);
    };
    const double along = out.at("semi_axis_along_m");
    const double across = out.at("semi_axis_across_m");
    CHECK(edge(away) == within(along, tolerance_m));
    CHECK(edge(-away) == within(along, tolerance_m));
    CHECK(edge(side) == within(across, tolerance_m));
    // The drawn outline is a 128-gon with its corners on the ellipse.
    const auto outlines = shadow_outlines(piece, sun, 0.0);
    REQUIRE(outlines.size() == 1);
    double area = 0.0;
    for (std::size_t i = 0; i < outlines[0].size(); ++i) {
        area += 0.5 * cross(outlines[0][i], outlines[0][(i + 1) % outlines[0].size()]);
    }
    constexpr double step = 2.0 * std::numbers::pi / 128.0;
    CHECK(area / std::sin(step) * step ==
          Approx(out.at("area_m2").get<double>()).epsilon(tolerance_m));
}

void check_net(const json& in, const json& out) {
    scene::Scene scene;
    scene::Cloth net;
    net.label = label("N");
    const double bench_m = 0.8;
    const double height = bench_m + in.at("net_height_above_bench_m").get<double>();
    const std::vector<Vec2> corners = {{0.0, 0.0}, {3.0, 0.0}, {3.0, 2.0}, {0.0, 2.0}};
    for (const Vec2 corner : corners) net.corners.push_back({corner, {height, false}});
    net.shade_factor = 0.4;
    scene.cloths.push_back(net);
    const Garden garden = built(scene);
    const Vec3 sun = to_sun(in.at("altitude_deg"), in.at("azimuth_deg"));
    const Vec2 shift{out.at("shadow_shift_east_m"), out.at("shadow_shift_north_m")};
    REQUIRE(garden.pieces.size() == 1);
    const auto outlines = shadow_outlines(garden.pieces[0], sun, bench_m);
    REQUIRE(outlines.size() == 1);
    REQUIRE(outlines[0].size() == 4);
    for (std::size_t i = 0; i < 4; ++i) {
        CHECK(length(outlines[0][i] - corners[i] - shift) < tolerance_m);
    }
    const auto light = [&](double x, double y) {
        return light_at(garden, {x + shift.x, y + shift.y, bench_m}, sun);
    };
    CHECK(light(2.0 * tolerance_m, 1.0) == Approx(0.6));
    CHECK(light(-2.0 * tolerance_m, 1.0) == Approx(1.0));
    CHECK(light(1.0, 2.0 - 2.0 * tolerance_m) == Approx(0.6));
    CHECK(light(1.0, 2.0 + 2.0 * tolerance_m) == Approx(1.0));
}

void check_laths(const json& in, const json& out) {
    scene::Scene scene;
    scene::LathPanel panel;
    panel.label = label("L");
    panel.height = {2.0, false};
    panel.bearing = Angle::degrees(in.at("slat_bearing_deg").get<double>());
    panel.length_m = 1000.0;
    panel.width_m = 1000.0;
    panel.slat_width_m = in.at("slat_width_m");
    panel.gap_m = in.at("gap_m");
    panel.thickness_m = in.at("thickness_m");
    scene.lath_panels.push_back(panel);
    const Garden garden = built(scene);
    const Vec3 sun = to_sun(in.at("altitude_deg"), in.at("azimuth_deg"));
    const auto& laths = std::get<LathBody>(garden.pieces.at(0).body);
    const double slope = dot(sun, laths.across) / dot(sun, laths.up);
    CHECK(std::abs(slope) == within(out.at("tan_profile_zenith").get<double>(), 1e-8));
    const double expected = out.at("direct_transmittance");
    CHECK(mean_lath_transmittance(laths, slope) == within(expected, 1e-8));
    // The same by meeting the laths one by one, over one pitch in fine steps.
    const Vec3 middle = laths.corner + 500.0 * (laths.along + laths.across) - 0.7 * sun;
    constexpr int steps = 20000;
    double sum = 0.0;
    for (int i = 0; i < steps; ++i) {
        sum += light_at(garden, middle + ((i + 0.5) / steps * laths.pitch_m) * laths.across, sun);
    }
    CHECK(sum / steps == within(expected, 2.0 / steps));
}

}  // namespace

TEST_CASE("shadows lie where plane trigonometry puts them", "[geometry][published]") {
    const std::map<std::string, void (*)(const json&, const json&)> checks = {
        {"pole", check_pole},
        {"wall_shadow_depth", check_wall},
        {"overhang", check_overhang},
        {"vertical_fin", check_fin},
        {"sphere_crown", check_sphere},
        {"horizontal_net_offset", check_net},
        {"lath_panel_direct", check_laths},
    };
    int checked = 0;
    for (const json& row : shadow_cases()) {
        const auto check = checks.find(row.at("case").get<std::string>());
        // Penumbra, sun and incidence angles are other modules' business.
        if (check == checks.end()) continue;
        CAPTURE(row.dump());
        check->second(row.at("inputs"), row.at("outputs"));
        ++checked;
    }
    CHECK(checked == 18);
}

TEST_CASE("a receiver on a surface sees past it, one within is in the dark",
          "[geometry][property]") {
    scene::Scene scene;
    scene::Wall wall;
    wall.label = label("W");
    wall.line = {{0.0, 0.0}, {4.0, 0.0}};
    wall.height_m = 2.0;
    wall.thickness_m = 0.2;
    scene.walls.push_back(wall);
    const Garden garden = built(scene);
    CHECK(light_at(garden, {2.0, 0.1, 1.0}, to_sun(5.0, 0.0)) == Approx(1.0));
    CHECK(light_at(garden, {2.0, 0.1, 1.0}, to_sun(5.0, 180.0)) == Approx(0.0));
    CHECK(light_at(garden, {2.0, 0.0, 2.0}, to_sun(0.1, 90.0)) == Approx(1.0));
    CHECK(light_at(garden, {2.0, 0.0, 1.0}, {0.0, 0.0, 1.0}) == Approx(0.0));
    CHECK(light_at(garden, {2.0, 5.0, 0.0}, {0.0, 0.0, 1.0}) == Approx(1.0));
    CHECK(light_at(garden, {-1.0, 0.0, 1.0}, {1.0, 0.0, 0.0}) == Approx(0.0));
    CHECK(light_at(garden, {-1.0, 0.0, 1.0}, {-1.0, 0.0, 0.0}) == Approx(1.0));
}
