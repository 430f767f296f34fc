#include "exposure/disk.h"

#include "base/within.h"
#include "exposure/edge_transit.h"
#include "exposure/traced_spot.h"

#include <catch2/catch.hpp>

#include <cmath>
#include <numbers>

using namespace sunfleck;
using namespace sunfleck::test;
using exposure::DiskPoints;

namespace {

// Share of a unit disk on one side of a straight edge at `offset`: 1 when all is visible.
double visible_share(double offset) {
    const double a = std::clamp(offset, -1.0, 1.0);
    return 1.0 - (std::acos(a) - a * std::sqrt(1.0 - a * a)) / std::numbers::pi;
}

double share_of_points(const DiskPoints& points, double offset, double around_rad) {
    std::size_t count = 0;
    for (std::size_t i = 0; i < points.size(); ++i) {
        const double along =
            std::cos(around_rad) * points.x()[i] + std::sin(around_rad) * points.y()[i];
        if (along <= offset) ++count;
    }
    return static_cast<double>(count) / static_cast<double>(points.size());
}

}  // namespace

TEST_CASE("points of the disk stand for equal areas", "[exposure][cross]") {
    struct Row {
        std::size_t pairs;
        double tolerance;
    };
    // Closed form of the circular segment. An edge decides over some four points at a time.
    for (const Row& row : {Row{32, 3.0 / 64.0}, Row{128, 4.5 / 256.0}}) {
        const DiskPoints points(row.pairs);
        for (int around = 0; around < 48; ++around) {
            for (int i = -20; i <= 20; ++i) {
                const double offset = i / 20.0;
                const double error =
                    share_of_points(points, offset, around * 0.0654498) - visible_share(offset);
                CAPTURE(row.pairs, around, offset);
                CHECK(std::abs(error) <= row.tolerance);
            }
        }
    }
}

TEST_CASE("the middle of the points is the middle of the disk", "[exposure][property]") {
    for (const std::size_t pairs : {8U, 32U, 128U}) {
        const DiskPoints points(pairs);
        double x = 0.0;
        double y = 0.0;
        double square = 0.0;
        for (std::size_t i = 0; i < points.size(); ++i) {
            x += points.x()[i];
            y += points.y()[i];
            square += points.x()[i] * points.x()[i] + points.y()[i] * points.y()[i];
        }
        CHECK(std::abs(x) < 1e-12);
        CHECK(std::abs(y) < 1e-12);
        CHECK(square / static_cast<double>(points.size()) == Approx(0.5));  // of the unit disk
    }
}

TEST_CASE("a straight edge hides the disk's share", "[exposure][published]") {
    // tests/data/shadow_geometry.json, cases "penumbra_disk_fraction": offset of the edge in
    // radii of the sun, share of the disk that is visible.
    const double rows[][2] = {
        {-1.0, 0.0}, {-0.5, 0.19550111}, {0.0, 0.5}, {0.25, 0.65748118}, {0.9, 0.98130696}};
    const Angle radius = Angle::degrees(0.2665);
    const DiskPoints points(128);
    exposure::DiskSum sum;
    for (const auto& row : rows) {
        // A wall to the east whose northern edge stands at y; seen from the origin eastwards.
        const double y = -row[0] * 10.0 * tan(radius);
        const HandGarden garden({solid_box({10, y - 50.0, -50}, {10.0001, y, 50})});
        const rays::Sights sights(garden.garden());
        const rays::Sight sight = sights.from({}, {.piece = 0});
        const rays::Sight* const only[] = {&sight};
        const auto shares = sum.shares({.centre = {1, 0, 0},
                                        .radius = radius,
                                        .sights = only,
                                        .optics = garden.optics(),
                                        .sky_edges = {},
                                        .horizon = nullptr},
                                       points);
        CAPTURE(row[0]);
        CHECK(exposure::share_beyond_edge(row[0]) == within(row[1], 1e-8));
        CHECK(shares.full == within(row[1], 4.5 / 256.0));
        CHECK(shares.filtered <= 0.0);
        CHECK(shares.effective == Approx(shares.full));
    }
}

// tests/data/shadow_geometry.json, cases "penumbra_width": from the first light to the full disk,
// square to the ray, behind an edge 2 m and 5 m away; a sun of 0.5332 degrees.
TEST_CASE("half shadow is as wide as the disk at the edge's distance", "[exposure][published]") {
    struct Row {
        double edge_m;
        double width_m;
    };
    for (const Row& row : {Row{2.0, 0.01861233}, Row{5.0, 0.04653081}}) {
        exposure::DiskSum sum;
        const auto visible = [&](double y) {
            const HandGarden garden(
                {solid_box({row.edge_m, -50, -50}, {row.edge_m + 1e-5, 0, 50})});
            const rays::Sights sights(garden.garden());
            const rays::Sight sight = sights.from({0, y, 0}, {.piece = 0});
            const rays::Sight* const only[] = {&sight};
            return sum
                .shares({.origin = {0, y, 0},
                         .centre = {1, 0, 0},
                         .radius = Angle::degrees(0.2666),
                         .sights = only,
                         .optics = garden.optics(),
                         .sky_edges = {},
                         .horizon = nullptr},
                        DiskPoints(2000))
                .full;
        };
        const auto place_of = [&](auto is_past) {
            double before = -row.width_m;
            double after = row.width_m;
            for (int i = 0; i < 40; ++i) {
                const double middle = 0.5 * (before + after);
                (is_past(visible(middle)) ? after : before) = middle;
            }
            return after;
        };
        CAPTURE(row.edge_m);
        const double first_light = place_of([](double share) { return share > 0.0; });
        const double all_light = place_of([](double share) { return share >= 1.0; });
        // The outermost of 4000 points lie 0.1 % within the rim.
        CHECK(all_light - first_light == within(row.width_m, 0.005 * row.width_m));
    }
}

TEST_CASE("layers of the disk multiply", "[exposure][property]") {
    const HandGarden garden({flat_cloth({Vec3{5, -9, -9}, {5, 9, -9}, {5, 9, 9}, {5, -9, 9}}, 0.6),
                             flat_cloth({Vec3{6, -9, -9}, {6, 0, -9}, {6, 0, 9}, {6, -9, 9}}, 0.5),
                             solid_box({7, -9, -9}, {8, 9, 0})});
    exposure::SpotSun spot = garden.spot({});
    const rays::Sights sights(garden.garden());
    std::vector<rays::Sight> seen;
    for (std::uint32_t i = 0; i < 3; ++i) seen.push_back(sights.from({}, {.piece = i}));
    const rays::Sight* const all[] = {&seen[0], &seen[1], &seen[2]};
    exposure::DiskSum sum;
    const auto shares = sum.shares({.centre = {1, 0, 0},
                                    .radius = Angle::degrees(0.2665),
                                    .sights = all,
                                    .optics = garden.optics(),
                                    .sky_edges = {},
                                    .horizon = nullptr},
                                   DiskPoints(128));
    CHECK(shares.full <= 0.0);
    CHECK(shares.filtered == within(0.5, 4.5 / 256.0));
    CHECK(shares.effective == within(0.25 * 0.6 + 0.25 * 0.3, 4.5 / 256.0));
}
