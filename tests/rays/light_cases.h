#pragma once

#include "rays/hand_made_garden.h"
#include "sunfleck/geometry/passage.h"
#include "sunfleck/rays/engine.h"
#include "sunfleck/rays/light_tracer.h"

#include <algorithm>
#include <array>
#include <cmath>
#include <cstddef>
#include <numbers>
#include <vector>

/// Gardens, days and spots for tests that trace light, and what it takes to compare two tracers.
namespace sunfleck::test {

/// Asks geometry::pass of every piece: the slowest engine there is, and the plainest.
class PieceByPiece final : public rays::Engine {
  public:
    explicit PieceByPiece(const geometry::Garden& garden) : garden_(&garden) {}
    [[nodiscard]] const geometry::Garden& garden() const override { return *garden_; }
    void pass_towards(Vec3 to_sun, std::span<const geometry::PieceOptics> optics,
                      std::span<const Vec3> origins,
                      std::span<geometry::Passage> passages) const override {
        for (std::size_t i = 0; i < origins.size(); ++i) {
            passages[i] = {};
            for (std::size_t k = 0; k < garden_->pieces.size(); ++k) {
                const auto passage =
                    geometry::pass(garden_->pieces[k], optics[k], origins[i], to_sun);
                passages[i].is_met = passages[i].is_met || passage.is_met;
                passages[i].transmittance *= passage.transmittance;
            }
        }
    }
    void add_parts_in(const rays::Beam&, std::vector<rays::Part>&) const override {}

  private:
    const geometry::Garden* garden_;
};

inline sun::Place test_place(double latitude_deg, double longitude_deg = 0.0) {
    return {.latitude = Latitude::degrees(latitude_deg),
            .longitude = Longitude::degrees(longitude_deg),
            .elevation_m = 0.0};
}

/// `count` different dates of 2026, ascending.
inline std::vector<Date> random_dates(Dice& dice, int count) {
    std::vector<Date> dates;
    for (int i = 0; i < count; ++i) {
        dates.push_back(add_days(make_date(2026, 1, 1), static_cast<int>(dice.between(0, 365))));
    }
    std::sort(dates.begin(), dates.end());
    dates.erase(std::unique(dates.begin(), dates.end()), dates.end());
    return dates;
}

/// A crown of some form, wider one way than the other.
inline geometry::Piece shaped_crown(scene::CrownForm form, Vec3 base, double height_m,
                                    double half_width_m, double turn_rad, double k_per_m) {
    geometry::Crown crown;
    crown.form = form;
    crown.base_centre = base;
    crown.height_m = height_m;
    crown.half_width_m = half_width_m;
    crown.half_across_m = 0.7 * half_width_m;
    crown.axis = {std::cos(turn_rad), std::sin(turn_rad), 0.0};
    crown.diameter_m = 1.7 * half_width_m;
    geometry::Piece piece;
    piece.body = crown;
    piece.k_in_leaf_per_m = k_per_m;
    piece.k_bare_per_m = k_per_m;
    geometry::fit_box(piece);
    return piece;
}

/// A lath panel turned about z and tilted, its slats tilted too.
inline geometry::Piece turned_laths(Vec3 corner, double turn_rad, double slope_rad,
                                    double slat_tilt_deg, double slat_m, double gap_m, int count) {
    geometry::LathBody laths;
    laths.corner = corner;
    laths.along = {std::cos(turn_rad), std::sin(turn_rad), 0.0};
    laths.across = {-std::sin(turn_rad) * std::cos(slope_rad),
                    std::cos(turn_rad) * std::cos(slope_rad), std::sin(slope_rad)};
    laths.up = cross(laths.along, laths.across);
    laths.length_m = 2.0;
    laths.count = count;
    laths.pitch_m = slat_m + gap_m;
    laths.slat_width_m = slat_m;
    laths.thickness_m = 0.012;
    laths.slat_tilt = Angle::degrees(slat_tilt_deg);
    geometry::Piece piece;
    piece.body = laths;
    geometry::fit_box(piece);
    return piece;
}

/// A pyramid of four triangles and its floor, as an imported mesh.
inline geometry::Piece pyramid_mesh(Vec3 base, double half_m, double height_m) {
    const std::array<Vec3, 4> corner{
        base + Vec3{-half_m, -half_m, 0.0}, base + Vec3{half_m, -half_m, 0.0},
        base + Vec3{half_m, half_m, 0.0}, base + Vec3{-half_m, half_m, 0.0}};
    const Vec3 tip = base + Vec3{0.0, 0.0, height_m};
    geometry::MeshBody mesh;
    for (std::size_t i = 0; i < 4; ++i) {
        mesh.facets.push_back({corner[i], corner[(i + 1) % 4], tip});
    }
    mesh.facets.push_back({corner[0], corner[2], corner[1]});
    mesh.facets.push_back({corner[0], corner[3], corner[2]});
    geometry::Piece piece;
    piece.body = mesh;
    geometry::fit_box(piece);
    return piece;
}

/// random_garden with laths, crowns of every form, a mesh, dates, a sloping ground and hills.
inline geometry::Garden rich_garden(std::uint64_t seed, int solids) {
    geometry::Garden garden = random_garden(seed, solids);
    Dice dice(seed + 9000);
    std::vector<geometry::Piece>& pieces = garden.pieces;
    for (const auto form : {scene::CrownForm::dome, scene::CrownForm::cone,
                            scene::CrownForm::column, scene::CrownForm::ellipsoid}) {
        pieces.push_back(shaped_crown(form, dice.point(-4.0, 4.0), dice.between(0.8, 3.0),
                                      dice.between(0.4, 1.5), dice.between(0.0, 3.0),
                                      dice.between(0.2, 1.0)));
    }
    for (int i = 0; i < 2; ++i) {
        const Vec3 corner = dice.point(-3.0, 1.0) + Vec3{0.0, 0.0, 3.0};
        pieces.push_back(turned_laths(corner, dice.between(0.0, 6.0), dice.between(-0.4, 0.4),
                                      dice.between(-60.0, 60.0), dice.between(0.01, 0.06),
                                      dice.between(0.01, 0.06), 30));
    }
    pieces.push_back(
        pyramid_mesh(dice.point(-4.0, 4.0), dice.between(0.3, 1.0), dice.between(0.5, 3.0)));
    using namespace std::chrono;
    pieces[0].up = {{.from = March / 1, .to = September / 1}};
    pieces.back().up = {{.from = October / 15, .to = April / 10}};
    garden.horizon.ground_normal =
        normalised({dice.between(-0.15, 0.15), dice.between(-0.15, 0.15), 1.0});
    if (seed % 2 == 0) {
        for (double azimuth = 5.0; azimuth < 360.0; azimuth += 40.0) {
            garden.horizon.profile.push_back(
                {.azimuth = Angle::degrees(azimuth),
                 .altitude = Angle::degrees(dice.between(-2.0, 12.0))});
        }
    }
    return garden;
}

/// 0 full, 1 filtered, 2 shade.
inline int state_of(const rays::LightSpan* span) {
    if (span == nullptr) return 2;
    return span->is_full() ? 0 : 1;
}

/// One ray asked of an engine.
inline int state_of_ray(const rays::Engine& engine, const rays::SunTableDay& day, Vec3 spot,
                        Vec3 towards) {
    const Vec3 direction = normalised(towards);
    if (!geometry::is_over_horizon(engine.garden().horizon, direction)) return 2;
    const auto optics = geometry::optics_on(engine.garden(), day.date);
    geometry::Passage passage;
    engine.pass_towards(direction, optics, std::span(&spot, 1), std::span(&passage, 1));
    if (!(passage.transmittance > 0.0)) return 2;
    return passage.is_met ? 1 : 0;
}

/// Whether some ray within `hair` radians of this one is answered otherwise.
inline bool is_near_edge(const rays::Engine& engine, const rays::SunTableDay& day, Vec3 spot,
                         Vec3 direction, double hair) {
    const Vec3 up = std::abs(direction.z) < 0.9 ? Vec3{0, 0, 1} : Vec3{1, 0, 0};
    const Vec3 side = normalised(cross(up, direction));
    const Vec3 over = cross(direction, side);
    const int state = state_of_ray(engine, day, spot, direction);
    for (int i = 0; i < 16; ++i) {
        const double turn = i * std::numbers::pi / 8.0;
        const Vec3 beside =
            direction + (hair * std::cos(turn)) * side + (hair * std::sin(turn)) * over;
        if (state_of_ray(engine, day, spot, beside) != state) return true;
    }
    return false;
}

struct Agreement {
    long rays = 0;
    long at_edges = 0;   ///< different, but within 1e-6 radians of an edge
    long different = 0;  ///< different for no such reason
};

/// Compares all samples of two answers; `engine` gave the second.
inline void compare(const rays::SunTable& sun, const std::vector<rays::LightSpot>& spots,
                    const rays::LightSpans& fast, const rays::LightSpans& slow,
                    const rays::Engine& engine, Agreement& agreement) {
    for (std::size_t s = 0; s < spots.size(); ++s) {
        for (std::size_t d = 0; d < sun.days().size(); ++d) {
            const rays::SunTableDay& day = sun.days()[d];
            for (int i = day.first_asked(); i < day.end_asked(); ++i) {
                ++agreement.rays;
                if (state_of(fast.at_sample(s, d, i)) == state_of(slow.at_sample(s, d, i))) {
                    continue;
                }
                const bool is_edge =
                    is_near_edge(engine, day, spots[s].point, sun.direction(day, i), 1e-6);
                ++(is_edge ? agreement.at_edges : agreement.different);
            }
        }
    }
}

}  // namespace sunfleck::test
