#include "sunfleck/scene/spots.h"

#include "scene/plan_outline.h"
#include "sunfleck/base/unicode_text.h"
#include "sunfleck/scene/bench_frame.h"

#include <algorithm>
#include <cmath>
#include <span>

namespace sunfleck::scene {
namespace {

/// How many pitches fit, forgiving what is lost when metres are written with few digits.
int whole_pitches(double room_m, double pitch_m) {
    constexpr double slack = 1e-6;
    if (!(pitch_m > 0.0)) return 1;
    return std::max(1, static_cast<int>(std::floor(room_m / pitch_m + slack)));
}

/// A place on a tier in the bench's own measures.
struct Cell {
    int row = 0;
    int column = 0;
    Vec2 centre;
    double length_m = 0.0;
    double depth_m = 0.0;
};

/// Cuts one stretch of a row into cells, centred in it.
void add_cells(std::vector<Cell>& cells, Interval stretch, double pitch_m, Cell first) {
    const double room_m = stretch.to - stretch.from;
    const int count = whole_pitches(room_m, pitch_m);
    const double step_m = count == 1 ? room_m : pitch_m;
    const double start_m = 0.5 * (stretch.from + stretch.to) - 0.5 * (count - 1) * step_m;
    for (int i = 0; i < count; ++i) {
        Cell cell = first;
        cell.column += i;
        cell.centre.x = start_m + i * step_m;
        cell.length_m = step_m;
        cells.push_back(cell);
    }
}

std::vector<Cell> cells_of(std::span<const Vec2> outline, const Bench& bench, Strip strip) {
    const double depth_m = strip.back_m - strip.front_m;
    const int rows = std::max(1, bench.rows.value_or(whole_pitches(depth_m, bench.spot_pitch_m)));
    const double row_depth_m = depth_m / rows;
    // A bench shorter than this holds no pot; it also drops the slivers of pointed outlines.
    const double shortest_m = 0.02;
    std::vector<Cell> cells;
    for (int row = 0; row < rows; ++row) {
        const double front_m = strip.front_m + row * row_depth_m;
        // Half a millimetre in from the row's edges, which may be the outline itself.
        const double edge_m = std::min(0.0005, 0.25 * row_depth_m);
        int column = 0;
        for (const Interval stretch :
             stretches_inside(outline, front_m + edge_m, front_m + row_depth_m - edge_m,
                              std::min(shortest_m, bench.length_m))) {
            const Cell first{.row = row,
                             .column = column,
                             .centre = {0.0, front_m + 0.5 * row_depth_m},
                             .depth_m = row_depth_m};
            add_cells(cells, stretch, bench.spot_pitch_m, first);
            column = cells.back().column + 2;  // the one between is the break
        }
    }
    return cells;
}

/// Half the room of a spot placed by hand towards a side that ends at `distance_m`.
double shared_room(double room_m, double distance_m) {
    return std::min(room_m, std::max(0.0, distance_m));
}

/// Shrinks a cell about its centre until its corners lie inside the outline.
void shrink_into(std::span<const Vec2> outline, Cell& cell) {
    const auto is_within = [&outline](const Cell& c) {
        const auto corners = rectangle_about(c.centre, {1.0, 0.0}, c.length_m, c.depth_m);
        return std::all_of(corners.begin(), corners.end(),
                           [&outline](Vec2 corner) { return is_inside(outline, corner); });
    };
    for (int step = 0; step < 60 && !is_within(cell); ++step) {
        cell.length_m *= 0.95;
        cell.depth_m *= 0.95;
    }
}

/// The room of a spot placed by hand: to the ends of its tier, halfway to each neighbour on the
/// axis on which the two are farther apart.
Cell cell_of(const Bench& bench, Strip strip, std::size_t index, std::span<const Vec2> outline) {
    const ExplicitSpot& spot = bench.explicit_spots[index];
    double first_m = 0.0;
    double last_m = 0.0;
    for (const Vec2 corner : outline) {
        first_m = std::min(first_m, corner.x);
        last_m = std::max(last_m, corner.x);
    }
    Cell cell{.column = static_cast<int>(index), .centre = {spot.along_m, spot.from_front_m}};
    cell.length_m = 2.0 * std::min(spot.along_m - first_m, last_m - spot.along_m);
    cell.depth_m =
        2.0 * std::min(spot.from_front_m - strip.front_m, strip.back_m - spot.from_front_m);
    for (std::size_t i = 0; i < bench.explicit_spots.size(); ++i) {
        const ExplicitSpot& other = bench.explicit_spots[i];
        if (i == index || other.tier != spot.tier) continue;
        const double along_m = std::abs(other.along_m - spot.along_m);
        const double across_m = std::abs(other.from_front_m - spot.from_front_m);
        if (along_m >= across_m) {
            cell.length_m = shared_room(cell.length_m, along_m);
        } else {
            cell.depth_m = shared_room(cell.depth_m, across_m);
        }
    }
    cell.length_m = std::max(0.0, cell.length_m);
    cell.depth_m = std::max(0.0, cell.depth_m);
    if (!bench.is_rectangle) shrink_into(outline, cell);
    return cell;
}

/// Builds the spots of one bench, in order.
class BenchSpots {
  public:
    BenchSpots(const PlanFrame& plan, const Bench& bench, int holder)
        : bench_(bench), frame_(plan, bench), holder_(holder) {
        for (const Vec2 corner : bench.outline) outline_.push_back(frame_.to_bench(corner));
    }

    std::vector<Spot> build() {
        if (bench_.explicit_spots.empty()) {
            add_grid();
        } else {
            add_explicit();
        }
        return std::move(spots_);
    }

  private:
    void add_grid() {
        for (std::size_t tier = 0; tier < bench_.tiers.size(); ++tier) {
            for (const Cell& cell : cells_of(outline_, bench_, strip(tier))) add(cell, tier);
        }
    }

    void add_explicit() {
        for (std::size_t i = 0; i < bench_.explicit_spots.size(); ++i) {
            const ExplicitSpot& placed = bench_.explicit_spots[i];
            const int last = static_cast<int>(bench_.tiers.size());
            const auto tier = static_cast<std::size_t>(std::clamp(placed.tier, 1, last) - 1);
            add(cell_of(bench_, strip(tier), i, outline_), tier);
            Spot& spot = spots_.back();
            spot.is_explicit = true;
            if (!placed.name.empty()) spot.name = placed.name;
            if (placed.receiver_height_m) spot.receiver_height_m = placed.receiver_height_m;
        }
    }

    void add(const Cell& cell, std::size_t tier) {
        Spot spot;
        spot.number = static_cast<int>(spots_.size()) + 1;
        spot.id = bench_.label.id + '-' + std::to_string(spot.number);
        spot.bench = bench_.label.id;
        spot.name = bench_.label.name + ' ' + std::to_string(spot.number);
        spot.tier = static_cast<int>(tier) + 1;
        spot.row = cell.row;
        spot.column = cell.column;
        spot.position = frame_.to_plan(cell.centre);
        spot.top_z_m = frame_.base_z_m() + bench_.tiers[tier].height_m;
        spot.length_m = cell.length_m;
        spot.depth_m = cell.depth_m;
        spot.headroom_m = headroom(cell, tier);
        spot.receiver_height_m = bench_.receiver_height_m;
        spot.holder = holder_;
        spots_.push_back(std::move(spot));
    }

    /// Up to the underside of the lowest higher tier that reaches over the cell.
    [[nodiscard]] std::optional<double> headroom(const Cell& cell, std::size_t tier) const {
        constexpr double touch_m = 0.001;  // edges that only meet leave the spot open
        std::optional<double> least;
        for (std::size_t above = 0; above < bench_.tiers.size(); ++above) {
            const double rise_m = bench_.tiers[above].height_m - bench_.tiers[tier].height_m;
            const Strip over = strip(above);
            const double front_m = cell.centre.y - 0.5 * cell.depth_m;
            const double back_m = cell.centre.y + 0.5 * cell.depth_m;
            const bool reaches = over.front_m < back_m - touch_m && over.back_m > front_m + touch_m;
            if (above == tier || rise_m <= 0.0 || !reaches) continue;
            const double room_m = std::max(0.0, rise_m - bench_.thickness_m);
            least = std::min(least.value_or(room_m), room_m);
        }
        return least;
    }

    [[nodiscard]] Strip strip(std::size_t tier) const {
        return strip_of(frame_, bench_, bench_.tiers[tier]);
    }

    const Bench& bench_;
    BenchFrame frame_;
    int holder_ = 0;
    std::vector<Vec2> outline_;
    std::vector<Spot> spots_;
};

Spot post_spot(const PlanFrame& frame, const PostStand& stand, int holder) {
    Spot spot;
    spot.id = stand.label.id;
    spot.bench = stand.label.id;
    spot.name = stand.label.name;
    spot.position = stand.position;
    spot.top_z_m = base_z_of(frame, stand.base_z_m, stand.position) + stand.height_m;
    spot.length_m = stand.top_side_m;
    spot.depth_m = stand.top_side_m;
    spot.receiver_height_m = stand.receiver_height_m;
    spot.holder = holder;
    return spot;
}

}  // namespace

std::vector<Spot> spots_of(const Scene& scene) {
    const PlanFrame frame(scene);
    std::vector<Spot> spots;
    int holder = 0;
    for (const Bench& bench : scene.benches) {
        std::vector<Spot> own = BenchSpots(frame, bench, holder++).build();
        spots.insert(spots.end(), std::make_move_iterator(own.begin()),
                     std::make_move_iterator(own.end()));
    }
    for (const PostStand& stand : scene.post_stands) {
        spots.push_back(post_spot(frame, stand, holder++));
    }
    return spots;
}

std::optional<std::size_t> find_spot(const std::vector<Spot>& spots, std::string_view id) {
    const std::string wanted = nfc(id);
    const auto found = std::find_if(spots.begin(), spots.end(),
                                    [&wanted](const Spot& spot) { return spot.id == wanted; });
    if (found == spots.end()) return std::nullopt;
    return static_cast<std::size_t>(found - spots.begin());
}

std::vector<LoadLimit> load_limits(const Scene& scene) {
    std::vector<LoadLimit> limits;
    for (const Bench& bench : scene.benches) {
        for (std::size_t i = 0; i < bench.tiers.size(); ++i) {
            if (const auto max_kg = bench.tiers[i].max_load_kg) {
                limits.push_back({bench.label.id, static_cast<int>(i) + 1, *max_kg});
            }
        }
    }
    for (const PostStand& stand : scene.post_stands) {
        if (stand.max_load_kg) limits.push_back({stand.label.id, 1, *stand.max_load_kg});
    }
    return limits;
}

}  // namespace sunfleck::scene
