#include "garden_maker.h"

#include "dice.h"
#include "garden_bed.h"
#include "geometry/polyhedron.h"

#include <algorithm>
#include <cmath>
#include <numbers>
#include <utility>

namespace sunfleck::bench {
namespace {

/// How many of each thing, on a grid of cells of which each holds one bench.
struct Recipe {
    std::uint64_t seed;
    const char* name;
    int columns;
    int rows;
    int benches;
    int spots_per_tier;
    int nets;
    int sheds;
    int walls;
    int fences;
    int trees;
    int lath_panels;
    int crown_halvings;
};

constexpr Recipe small_recipe{1, "S", 1, 1, 1, 100, 1, 1, 1, 0, 5, 0, 0};
constexpr Recipe medium_recipe{2, "M", 3, 2, 5, 200, 2, 2, 4, 2, 12, 0, 1};
constexpr Recipe large_recipe{3, "L", 8, 5, 40, 250, 4, 6, 11, 2, 30, 10, 3};

constexpr double cell_length_m = 7.0;
constexpr double cell_depth_m = 5.0;
constexpr double bench_length_m = 5.0;

Vec2 turned_east(double radians) {
    return {std::cos(radians), std::sin(radians)};
}

/// Plants one recipe; the dice decide what a gardener would.
class Planting {
  public:
    explicit Planting(const Recipe& recipe) : recipe_(recipe), dice_(recipe.seed) {}

    TestGarden plant() {
        for (int i = 0; i < recipe_.benches; ++i) add_bench(i);
        for (int i = 0; i < recipe_.nets; ++i) add_net(i);
        for (int i = 0; i < recipe_.lath_panels; ++i) add_lath_panel(i);
        for (int i = 0; i < recipe_.sheds; ++i) add_shed();
        for (int i = 0; i < recipe_.walls; ++i) add_wall(i);
        for (int i = 0; i < recipe_.fences; ++i) add_fence(i);
        for (int i = 0; i < recipe_.trees; ++i) add_tree(i);
        return {.name = recipe_.name,
                .garden = bed_.garden(),
                .spots = bed_.spots(),
                .dragged_object = dragged_,
                .crown_halvings = recipe_.crown_halvings};
    }

  private:
    [[nodiscard]] double width_m() const { return recipe_.columns * cell_length_m; }
    [[nodiscard]] double depth_m() const { return recipe_.rows * cell_depth_m; }

    [[nodiscard]] Vec2 cell(int i) const {
        return {(i % recipe_.columns) * cell_length_m, (i / recipe_.columns) * cell_depth_m};
    }

    void add_bench(int i) {
        bed_.begin("bench");
        const Vec2 corner = cell(i) + Vec2{dice_.between(0.6, 1.4), dice_.between(1.4, 2.2)};
        bed_.add_bench({corner, turned_east(dice_.between(-0.25, 0.25))}, bench_length_m,
                       recipe_.spots_per_tier);
    }

    /// Nets hang over the first benches, laths over the last.
    void add_net(int i) {
        bed_.begin("net");
        const Vec2 corner = cell(i) + Vec2{dice_.between(0.8, 1.4), dice_.between(0.8, 1.3)};
        bed_.add_net({corner, turned_east(dice_.between(-0.15, 0.15))}, 4.2, 2.4,
                     dice_.between(2.2, 2.5), dice_.between(-0.1, 0.1), dice_.between(0.4, 0.65));
    }

    void add_lath_panel(int i) {
        bed_.begin("laths");
        const Vec2 corner = cell(recipe_.benches - 1 - 3 * i) +
                            Vec2{dice_.between(0.8, 1.6), dice_.between(0.8, 1.2)};
        bed_.add_laths({corner, turned_east(dice_.between(-0.3, 0.3))},
                       {.length_m = 3.5,
                        .z_m = dice_.between(2.2, 2.5),
                        .laths = 40,
                        .slat_m = 0.03,
                        .gap_m = 0.03,
                        .thickness_m = 0.01});
    }

    void add_shed() {
        bed_.begin("shed");
        const Vec2 corner{dice_.between(0.0, width_m() - 3.0), depth_m() + dice_.between(0.2, 1.0)};
        bed_.add_shed({corner, {1.0, 0.0}}, dice_.between(2.0, 3.0), dice_.between(1.6, 2.2),
                      dice_.between(1.9, 2.3));
    }

    /// Walls stand round the plot, the first in the west; where there are many, also within.
    void add_wall(int i) {
        bed_.begin("wall");
        const double thick_m = 0.24;
        const double top_m = dice_.between(1.7, 2.6);
        if (i == 0 || i == 1) {
            const double x = i == 0 ? -1.0 : width_m() + 1.0;
            bed_.add_board({{x, 0.0}, {1.0, 0.0}},
                           {.length_m = thick_m, .depth_m = depth_m(), .top_z_m = top_m});
            return;
        }
        const double row = i == 2 ? -0.8 : std::floor(dice_.between(0.0, recipe_.rows));
        const double x = dice_.between(0.0, 0.5 * width_m());
        bed_.add_board({{x, row * cell_depth_m + 0.2}, {1.0, 0.0}},
                       {.length_m = dice_.between(2.0, 0.4 * width_m() + 1.0),
                        .depth_m = thick_m,
                        .top_z_m = top_m});
    }

    void add_fence(int i) {
        bed_.begin("fence");
        const Stand stand{{i == 0 ? 0.5 : 0.6 * width_m(), -1.5}, {1.0, 0.0}};
        const double length_m = 0.3 * width_m();
        bed_.add_board(stand, {.length_m = 0.1, .depth_m = 0.1, .top_z_m = 1.8});
        bed_.add_board({stand.corner + Vec2{length_m, 0.0}, stand.along},
                       {.length_m = 0.1, .depth_m = 0.1, .top_z_m = 1.8});
        bed_.add_board({stand.corner + Vec2{0.0, 0.03}, stand.along},
                       {.length_m = length_m,
                        .depth_m = 0.03,
                        .foot_z_m = 0.1,
                        .top_z_m = dice_.between(1.5, 1.75)});
    }

    void add_tree(int i) {
        const std::uint32_t object = bed_.begin("tree");
        if (i == 0) dragged_ = object;
        Tree tree;
        const double row = std::floor(dice_.between(0.0, recipe_.rows + 0.99));
        tree.middle = {dice_.between(-0.5, width_m() + 0.5),
                       row * cell_depth_m + dice_.between(-0.4, 0.4)};
        tree.trunk_diameter_m = dice_.between(0.12, 0.35);
        tree.crown_base_m = dice_.between(1.7, 2.6);
        tree.height_m = tree.crown_base_m + dice_.between(2.0, 4.0);
        tree.width_m = dice_.between(2.0, 4.2);
        tree.across_m = tree.width_m * dice_.between(0.7, 1.0);
        tree.axis = turned_east(dice_.between(0.0, std::numbers::pi));
        tree.transmission = dice_.between(0.08, 0.35);
        bed_.add_tree(tree);
    }

    Recipe recipe_;
    Dice dice_;
    GardenBed bed_;
    std::uint32_t dragged_ = 0;
};

/// A block of half sizes along three directions square to each other, right-handed.
geometry::ConvexSolid block(Vec3 middle, Vec3 x, Vec3 y, Vec3 z) {
    const auto corner = [&](double i, double j, double k) {
        return middle + i * x + j * y + k * z;
    };
    geometry::Polyhedron faces;
    faces.push_back({corner(-1, -1, -1), corner(-1, 1, -1), corner(1, 1, -1), corner(1, -1, -1)});
    faces.push_back({corner(-1, -1, 1), corner(1, -1, 1), corner(1, 1, 1), corner(-1, 1, 1)});
    faces.push_back({corner(-1, -1, -1), corner(1, -1, -1), corner(1, -1, 1), corner(-1, -1, 1)});
    faces.push_back({corner(1, -1, -1), corner(1, 1, -1), corner(1, 1, 1), corner(1, -1, 1)});
    faces.push_back({corner(1, 1, -1), corner(-1, 1, -1), corner(-1, 1, 1), corner(1, 1, 1)});
    faces.push_back({corner(-1, 1, -1), corner(-1, -1, -1), corner(-1, -1, 1), corner(-1, 1, 1)});
    return geometry::solid_of(faces);
}

geometry::ConvexSolid turned_block(Dice& dice, Vec3 middle) {
    const double turn = dice.between(0.0, std::numbers::pi);
    const double tilt = dice.between(-0.6, 0.6);
    const Vec3 half{dice.between(0.01, 0.7), dice.between(0.01, 0.7), dice.between(0.01, 0.7)};
    const Vec3 east{std::cos(turn), std::sin(turn), 0.0};
    const Vec3 side{-std::sin(turn) * std::cos(tilt), std::cos(turn) * std::cos(tilt),
                    std::sin(tilt)};
    return block(middle, half.x * east, half.y * side, half.z * cross(east, side));
}

/// One lath of a panel, its width and thickness turned by the slats' tilt.
geometry::ConvexSolid lath(const geometry::LathBody& laths, int number) {
    const double c = cos(laths.slat_tilt);
    const double s = sin(laths.slat_tilt);
    const Vec3 wide = c * laths.across + s * laths.up;
    const Vec3 thick = c * laths.up - s * laths.across;
    const Vec3 middle = laths.corner + (0.5 * laths.length_m) * laths.along +
                        (number * laths.pitch_m) * laths.across;
    return block(middle, (0.5 * laths.length_m) * laths.along, (0.5 * laths.slat_width_m) * wide,
                 (0.5 * laths.thickness_m) * thick);
}

Vec3 random_point(Dice& dice) {
    const double x = dice.between(-5.0, 5.0);
    const double y = dice.between(-5.0, 5.0);
    return {x, y, dice.between(0.0, 4.0)};
}

bool is_opaque(const geometry::Piece& piece) {
    if (std::holds_alternative<geometry::LathBody>(piece.body)) return true;
    const auto* solid = std::get_if<geometry::ConvexSolid>(&piece.body);
    return solid != nullptr && !(solid->transmittance > 0.0);
}

void move(std::vector<geometry::Triangle>& facets, Vec3 by) {
    for (geometry::Triangle& t : facets) t = {t.a + by, t.b + by, t.c + by};
}

void move(geometry::Piece& piece, Vec3 by) {
    if (auto* solid = std::get_if<geometry::ConvexSolid>(&piece.body)) {
        for (geometry::Plane& plane : solid->planes) plane.offset += dot(plane.normal, by);
        move(solid->facets, by);
    } else if (auto* crown = std::get_if<geometry::Crown>(&piece.body)) {
        crown->base_centre = crown->base_centre + by;
    } else if (auto* sheet = std::get_if<geometry::Sheet>(&piece.body)) {
        move(sheet->facets, by);
    } else if (auto* laths = std::get_if<geometry::LathBody>(&piece.body)) {
        laths->corner = laths->corner + by;
    }
    geometry::fit_box(piece);
}

}  // namespace

TestGarden make_garden(GardenSize size) {
    switch (size) {
        case GardenSize::small:
            return Planting(small_recipe).plant();
        case GardenSize::medium:
            return Planting(medium_recipe).plant();
        case GardenSize::large:
            break;
    }
    return Planting(large_recipe).plant();
}

TestGarden make_random_garden(std::uint64_t seed, int blocks, int spots) {
    Dice dice(seed);
    GardenBed bed;
    bed.begin("tree");
    bed.add_tree({.middle = {dice.between(-4.0, 4.0), dice.between(-4.0, 4.0)},
                  .trunk_diameter_m = 0.2,
                  .crown_base_m = 2.0,
                  .height_m = dice.between(3.0, 6.0),
                  .width_m = dice.between(1.0, 4.0),
                  .across_m = dice.between(1.0, 4.0),
                  .axis = turned_east(dice.between(0.0, 3.0)),
                  .transmission = 0.2});
    bed.begin("net");
    bed.add_net(
        {{dice.between(-4.0, 2.0), dice.between(-4.0, 2.0)}, turned_east(dice.between(0.0, 3.0))},
        2.5, 2.0, 2.5, dice.between(-0.4, 0.4), 0.5);
    bed.begin("laths");
    bed.add_laths(
        {{dice.between(-4.0, 3.0), dice.between(-4.0, 3.0)}, turned_east(dice.between(0.0, 3.0))},
        {.length_m = 2.0,
         .z_m = dice.between(2.0, 3.5),
         .laths = 20,
         .slat_m = dice.between(0.01, 0.06),
         .gap_m = dice.between(0.01, 0.05),
         .thickness_m = dice.between(0.002, 0.02),
         .slat_tilt_deg = dice.between(-60.0, 60.0)});
    TestGarden made{.name = "random " + std::to_string(seed), .garden = bed.garden()};
    for (int i = 0; i < blocks; ++i) {
        geometry::Piece piece;
        piece.body = turned_block(dice, random_point(dice));
        geometry::fit_box(piece);
        made.garden.pieces.push_back(std::move(piece));
    }
    for (int i = 0; i < spots; ++i) made.spots.push_back(random_point(dice));
    return made;
}

geometry::Garden with_single_laths(const geometry::Garden& garden) {
    geometry::Garden single{.objects = garden.objects, .horizon = garden.horizon};
    for (const geometry::Piece& piece : garden.pieces) {
        const auto* laths = std::get_if<geometry::LathBody>(&piece.body);
        if (laths == nullptr) {
            single.pieces.push_back(piece);
            continue;
        }
        for (int i = 0; i < laths->count; ++i) {
            geometry::Piece one = piece;
            one.body = lath(*laths, i);
            geometry::fit_box(one);
            single.pieces.push_back(std::move(one));
        }
    }
    return single;
}

geometry::Garden opaque_part(const geometry::Garden& garden) {
    geometry::Garden part = garden;
    std::erase_if(part.pieces, [](const geometry::Piece& piece) { return !is_opaque(piece); });
    return part;
}

geometry::Garden with_moved(const geometry::Garden& garden, std::uint32_t object, Vec3 by) {
    geometry::Garden moved = garden;
    for (geometry::Piece& piece : moved.pieces) {
        if (piece.object == object) move(piece, by);
    }
    return moved;
}

}  // namespace sunfleck::bench
