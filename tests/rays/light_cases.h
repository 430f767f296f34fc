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
