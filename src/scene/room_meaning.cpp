#include "scene/findings.h"
#include "scene/plan_outline.h"
#include "sunfleck/base/plain_words.h"

#include <algorithm>
#include <limits>
#include <vector>

namespace sunfleck::scene {
namespace {

/// Things drawn with a tape stand this much into each other without harm.
constexpr double tape_slack_m = 0.05;
/// Tops nearer in height than this cannot both hold trees.
constexpr double tree_room_m = 0.10;

struct Box {
    Vec2 low{std::numeric_limits<double>::infinity(), std::numeric_limits<double>::infinity()};
    Vec2 high{-std::numeric_limits<double>::infinity(), -std::numeric_limits<double>::infinity()};

    void hold(std::span<const Vec2> points) {
        for (const Vec2 p : points) {
            low = {std::min(low.x, p.x), std::min(low.y, p.y)};
            high = {std::max(high.x, p.x), std::max(high.y, p.y)};
        }
    }
    [[nodiscard]] bool meets(const Box& other) const {
        return low.x < other.high.x && other.low.x < high.x && low.y < other.high.y &&
               other.low.y < high.y;
    }
};

/// The spots of one bench or stand.
struct Holder {
    const Label* label = nullptr;
    std::size_t first = 0;  ///< index of its first spot
    std::size_t count = 0;
    bool has_own_level = false;
    Box box;
};

std::vector<Holder> holders_of(const CheckedGarden& garden) {
    std::vector<Holder> holders;
    const Scene& scene = garden.scene;
    for (std::size_t i = 0; i < garden.spots.size(); ++i) {
        const Spot& spot = garden.spots[i];
        const auto index = static_cast<std::size_t>(spot.holder);
        if (i == 0 || spot.holder != garden.spots[i - 1].holder) {
            const bool has_own_level =
                index < scene.benches.size()
                    ? scene.benches[index].base_z_m.has_value()
                    : scene.post_stands[index - scene.benches.size()].base_z_m.has_value();
            holders.push_back({&holder_label(scene, spot), i, 0, has_own_level, {}});
        }
        ++holders.back().count;
        holders.back().box.hold(garden.cells[i]);
    }
    return holders;
}

class RoomCheck {
  public:
    RoomCheck(const CheckedGarden& garden, Findings& findings)
        : garden_(garden), findings_(findings), holders_(holders_of(garden)) {}

    void run() {
        for (const Holder& holder : holders_) {
            check_ground(holder);
            for (const Building& building : garden_.scene.buildings) {
                check_building(holder, building);
            }
            for (const Wall& wall : garden_.scene.walls) check_wall(holder, wall);
            for (const Tree& tree : garden_.scene.trees) check_trunk(holder, tree);
            for (const Cloth& cloth : garden_.scene.cloths) check_cloth(holder, cloth);
        }
        for (std::size_t i = 0; i < holders_.size(); ++i) {
            for (std::size_t j = 0; j < i; ++j) check_pair(holders_[j], holders_[i]);
        }
        for (const Tree& tree : garden_.scene.trees) {
            for (const Building& building : garden_.scene.buildings) {
                check_indoor_tree(tree, building);
            }
        }
    }

  private:
    /// Spots of the holder for which `holds` is true.
    template <typename Question>
    [[nodiscard]] std::size_t count(const Holder& holder, Question holds) const {
        std::size_t found = 0;
        for (std::size_t i = holder.first; i < holder.first + holder.count; ++i) {
            if (holds(i)) ++found;
        }
        return found;
    }

    void check_ground(const Holder& holder) {
        const std::size_t buried = count(holder, [this](std::size_t i) {
            const Spot& spot = garden_.spots[i];
            return spot.top_z_m < garden_.frame.ground_z(spot.position);
        });
        if (buried == 0) return;
        const Findings::Words words{
            .code = "bench_below_ground",
            .pointer = holder.label->pointer,
            .message = std::to_string(buried) + " of " + count_words(holder.count, "spot") +
                       " of " + called(*holder.label) + " are below the ground.",
            .mend =
                "Heights start from the ground under the first corner; z_m sets another "
                "level. Check the slope too."};
        // A terrace dug into the slope has its own level.
        holder.has_own_level ? findings_.warning(words) : findings_.error(words);
    }

    [[nodiscard]] double base_z(const Building& building) const {
        return base_z_of(garden_.frame, building.base_z_m, building.outline.front());
    }

    void check_building(const Holder& holder, const Building& building) {
        // A storey above, drawn as a building with a level of its own, has air under it.
        const double floor_z = base_z(building);
        const double eaves_z = floor_z + building.eaves_height_m;
        const std::size_t inside = count(holder, [&](std::size_t i) {
            const double top_z = garden_.spots[i].top_z_m;
            return top_z >= floor_z && top_z < eaves_z &&
                   is_inside(building.outline, garden_.spots[i].position);
        });
        if (inside == 0) return;
        const bool is_whole = inside == holder.count;
        findings_.warning(
            {.code = "no_ray_reaches",
             .pointer = holder.label->pointer,
             .message =
                 (is_whole ? called(*holder.label) + " stands inside "
                           : std::to_string(inside) + " of " + count_words(holder.count, "spot") +
                                 " of " + called(*holder.label) + " lie inside ") +
                 called(building.label) + ": no sun reaches " + (inside == 1 ? "it." : "them."),
             .mend = "Move one of the two. A glasshouse is no building: draw its frame only."});
    }

    void check_wall(const Holder& holder, const Wall& wall) {
        for (std::size_t k = 0; k + 1 < wall.line.size(); ++k) {
            const Vec2 way = wall.line[k + 1] - wall.line[k];
            const double size_m = length(way);
            if (!(size_m > 0.0)) continue;
            const auto stretch = rectangle_about(0.5 * (wall.line[k] + wall.line[k + 1]),
                                                 (1.0 / size_m) * way, size_m, wall.thickness_m);
            Box box;
            box.hold(stretch);
            if (!box.meets(holder.box)) continue;
            const double least_m = std::min(tape_slack_m, 0.5 * wall.thickness_m);
            const std::size_t met = count(holder, [&](std::size_t i) {
                const Spot& spot = garden_.spots[i];
                const double top_z =
                    base_z_of(garden_.frame, wall.base_z_m, wall.line[k]) + wall.height_m;
                return top_z > spot.top_z_m && overlap_depth(garden_.cells[i], stretch) > least_m;
            });
            if (met == 0) continue;
            findings_.warning(
                {.code = "wall_through_bench",
                 .pointer = holder.label->pointer,
                 .message = called(wall.label) + " runs through " + called(*holder.label) + ".",
                 .mend = "Move one of the two."});
            return;
        }
    }

    void check_trunk(const Holder& holder, const Tree& tree) {
        const std::size_t met = count(holder, [&](std::size_t i) {
            return is_inside(garden_.cells[i], tree.position) &&
                   garden_.spots[i].top_z_m <
                       base_z_of(garden_.frame, tree.base_z_m, tree.position) + tree.height_m;
        });
        if (met == 0) return;
        findings_.warning({.code = "trunk_through_bench",
                           .pointer = tree.label.pointer,
                           .message = "The trunk of " + called(tree.label) +
                                      " stands on a spot of " + called(*holder.label) + ".",
                           .mend = "For a bench round a tree, place its spots by hand."});
    }

    void check_cloth(const Holder& holder, const Cloth& cloth) {
        std::vector<Vec2> outline;
        double highest_z = -std::numeric_limits<double>::infinity();
        for (const ClothCorner& corner : cloth.corners) {
            outline.push_back(corner.position);
            highest_z = std::max(highest_z, garden_.frame.z_of(corner.height, corner.position));
        }
        const auto is_in_plan = [&](std::size_t i) {
            return is_inside(outline, garden_.spots[i].position);
        };
        const std::size_t in_plan = count(holder, is_in_plan);
        const std::size_t over = count(holder, [&](std::size_t i) {
            return is_in_plan(i) && garden_.spots[i].top_z_m > highest_z;
        });
        if (in_plan == 0 || over < in_plan) return;
        findings_.warning({.code = "cloth_under_bench",
                           .pointer = cloth.label.pointer,
                           .message = called(cloth.label) + " hangs lower than the top of " +
                                      called(*holder.label) + ", so it shades nothing there.",
                           .mend = "The corners' heights start from the ground, not from the "
                                   "bench."});
    }

    void check_pair(const Holder& a, const Holder& b) {
        if (!a.box.meets(b.box)) return;
        const std::size_t met = count(a, [&](std::size_t i) {
            return count(b, [&](std::size_t j) {
                       const double rise_m = garden_.spots[i].top_z_m - garden_.spots[j].top_z_m;
                       return std::abs(rise_m) < tree_room_m &&
                              overlap_depth(garden_.cells[i], garden_.cells[j]) > tape_slack_m;
                   }) > 0;
        });
        if (met == 0) return;
        findings_.warning(
            {.code = "benches_inside_each_other",
             .pointer = b.label->pointer,
             .message = called(*b.label) + " stands in the place of " + called(*a.label) + ".",
             .mend = "A bench lies to the left of its front edge. Check corner "
                     "and bearing."});
    }

    void check_indoor_tree(const Tree& tree, const Building& building) {
        if (!is_inside(building.outline, tree.position)) return;
        findings_.warning({.code = "trunk_inside_building",
                           .pointer = tree.label.pointer,
                           .message = "The trunk of " + called(tree.label) + " stands inside " +
                                      called(building.label) + ".",
                           .mend = "Move one of the two."});
    }

    const CheckedGarden& garden_;
    Findings& findings_;
    std::vector<Holder> holders_;
};

}  // namespace

void check_room(const CheckedGarden& garden, Findings& findings) {
    RoomCheck(garden, findings).run();
}

}  // namespace sunfleck::scene
