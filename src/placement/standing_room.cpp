#include "placement/standing_room.h"

#include <algorithm>
#include <limits>
#include <string>

namespace sunfleck::placement {

StandingRoom::StandingRoom(const scene::Scene& scene, const std::vector<scene::Spot>& spots)
    : scene_(&scene),
      spots_(&spots),
      footprints_(spots),
      max_load_kg_(spots.size(), std::numeric_limits<double>::infinity()) {
    for (const scene::LoadLimit& limit : scene::load_limits(scene)) {
        for (std::size_t spot = 0; spot < spots.size(); ++spot) {
            if (spots[spot].bench == limit.holder_id && spots[spot].tier == limit.tier) {
                max_load_kg_[spot] = limit.max_load_kg;
            }
        }
    }
}

Room StandingRoom::by_size(const scene::Pot& pot, std::size_t spot) const {
    auto covered = footprints_.cells_covered(pot, spot);
    if (!covered) return {Refusal::does_not_fit, {spot}};
    Room room{Refusal::none, std::move(*covered)};
    const double height_m = pot.pot_height_m + pot.crown_height_m;
    for (const std::size_t cell : room.covered) {
        const std::optional<double> headroom_m = (*spots_)[cell].headroom_m;
        if (headroom_m && height_m > *headroom_m) room.refusal = Refusal::too_tall;
    }
    if (pot.weight_kg > max_load_kg_[spot]) room.refusal = Refusal::too_heavy;
    return room;
}

Room StandingRoom::for_newcomer(const scene::Pot& pot, std::size_t spot) const {
    Room room = by_size(pot, spot);
    if (room.refusal == Refusal::none && is_excluded(pot, spot)) room.refusal = Refusal::excluded;
    return room;
}

bool StandingRoom::may_move(const scene::Pot& pot, bool stands_somewhere) const {
    const double liftable_kg = scene_->lifting.people * scene_->lifting.limit_kg;
    return !stands_somewhere || (!pot.pinned && pot.weight_kg <= liftable_kg);
}

bool StandingRoom::is_excluded(const scene::Pot& pot, std::size_t spot) const {
    return std::any_of(pot.not_on.begin(), pot.not_on.end(), [&](const std::string& id) {
        return id == (*spots_)[spot].id || id == (*spots_)[spot].bench;
    });
}

std::vector<std::size_t> StandingRoom::cells_held(const scene::Pot& pot, std::size_t spot) const {
    return footprints_.cells_held(pot, spot).value_or(std::vector<std::size_t>{spot});
}

std::vector<std::vector<std::size_t>> StandingRoom::cells_now(const std::vector<HarmRow>& rows,
                                                              const Standing& standing) const {
    std::vector<std::vector<std::size_t>> cells(rows.size());
    std::vector<int> holder_count(spots_->size(), 0);
    for (std::size_t row = 0; row < rows.size(); ++row) {
        if (!standing[row]) continue;
        const scene::Pot& pot = scene_->pots[rows[row].pot];
        // Under the pot alone: what is left when the crown is not asked to find room.
        scene::Pot bare = pot;
        bare.crown_width_m = 0.0;
        cells[row] = cells_held(bare, *standing[row]);
        for (const std::size_t cell : cells[row]) ++holder_count[cell];
    }
    for (std::size_t row = 0; row < rows.size(); ++row) {
        if (!standing[row]) continue;
        const auto with_crown =
            footprints_.cells_covered(scene_->pots[rows[row].pot], *standing[row]);
        if (!with_crown) continue;
        const bool has_room =
            std::all_of(with_crown->begin(), with_crown->end(), [&](std::size_t cell) {
                const bool is_own = std::binary_search(cells[row].begin(), cells[row].end(), cell);
                return holder_count[cell] == (is_own ? 1 : 0);
            });
        if (!has_room) continue;
        for (const std::size_t cell : cells[row]) --holder_count[cell];
        cells[row] = *with_crown;
        for (const std::size_t cell : cells[row]) ++holder_count[cell];
    }
    return cells;
}

std::size_t middle_of(const std::vector<std::size_t>& covered) {
    return covered[(covered.size() - 1) / 2];
}

}  // namespace sunfleck::placement
