// A year of sun at one spot beside a tree, with Sunfleck as a library.
#include <sunfleck/geometry/garden.h>
#include <sunfleck/rays/light_sums.h>
#include <sunfleck/rays/light_tracer.h>

#include <cstdio>
#include <vector>

using namespace sunfleck;

namespace {

// A garden can be read from a scene file, or put together by hand as here: a crown in full leaf.
geometry::Garden small_garden() {
    geometry::Crown crown;
    crown.base_centre = {3.0, -3.0, 1.8};
    crown.height_m = 3.0;
    crown.half_width_m = 1.5;
    crown.half_across_m = 1.5;
    crown.axis = {1.0, 0.0, 0.0};
    crown.diameter_m = 3.0;
    geometry::Piece piece;
    piece.body = crown;
    piece.k_in_leaf_per_m = 0.7;
    piece.k_bare_per_m = 0.7;
    geometry::fit_box(piece);
    geometry::Garden garden;
    garden.objects.push_back({.id = "tree", .name = "tree", .pointer = ""});
    garden.pieces.push_back(piece);
    return garden;
}

}  // namespace

int main() {
    const sun::Place place{.latitude = Latitude::degrees(51.5),
                           .longitude = Longitude::degrees(0.0)};
    const std::vector<Date> dates =
        rays::dates_from_to(make_date(2026, 1, 1), make_date(2026, 12, 31));
    const rays::SunTable sun(dates, place);
    const geometry::Garden garden = small_garden();
    const std::vector<rays::LightSpot> spots{{.point = {0.0, 0.0, 0.9}, .outward = {}}};
    const rays::LightSpans light = rays::make_solving_tracer(garden, sun)->trace({.spots = spots});

    double effective_min = 0.0;
    double full_min = 0.0;
    for (std::size_t day = 0; day < sun.days().size(); ++day) {
        const rays::LightMinutes minutes = rays::day_minutes(sun, light, 0, day);
        effective_min += minutes.effective_min;
        full_min += minutes.full_min;
    }
    std::printf("%.1f minutes of sun in the year, %.1f of them full\n", effective_min, full_min);
}
