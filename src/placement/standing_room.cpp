#include "placement/standing_room.h"

#include <algorithm>
#include <limits>
#include <string>

namespace sunfleck::placement {

StandingRoom::StandingRoom(const scene::Scene& scene, const std::vector<scene::Spot>& spots)
    : scene_(&scene),
      spots_(&spots),
      max_load_kg_(spots.size(), std::numeric_limits<double>::infinity()) {
    for (const scene::LoadLimit& limit : scene::load_limits(scene)) {
        for (std::size_t spot = 0; spot < spots.size(); ++spot) {
            if (spots[spot].bench == limit.holder_id && spots[spot].tier == limit.tier) {
                max_load_kg_[spot] = limit.max_load_kg;
            }
        }
    }
}

bool StandingRoom::may_move(const scene::Pot& pot, std::optional<std::size_t> start_spot) const {
    if (!start_spot) return true;
    const double liftable_kg = scene_->lifting.people * scene_->lifting.limit_kg;
    return !pot.pinned && pot.weight_kg <= liftable_kg;
}

bool StandingRoom::is_excluded(const scene::Pot& pot, std::size_t spot) const {
    return std::any_of(pot.not_on.begin(), pot.not_on.end(), [&](const std::string& id) {
        return id == (*spots_)[spot].id || id == (*spots_)[spot].bench;
    });
}

Refusal StandingRoom::refusal_by_size(const scene::Pot& pot, std::size_t spot) const {
    const scene::Spot& place = (*spots_)[spot];
    if (pot.pot_length_m > place.length_m || pot.pot_width_m > place.depth_m) {
        return Refusal::does_not_fit;
    }
    if (place.headroom_m && pot.pot_height_m + pot.crown_height_m > *place.headroom_m) {
        return Refusal::too_tall;
    }
    if (pot.weight_kg > max_load_kg_[spot]) return Refusal::too_heavy;
    return Refusal::none;
}

Room StandingRoom::at(const scene::Pot& pot, std::optional<std::size_t> start_spot,
                      std::size_t spot) const {
    Room room;
    room.covered = {spot};
    if (!may_move(pot, start_spot)) {
        if (spot != *start_spot) {
            room.refusal = pot.pinned ? Refusal::pinned_elsewhere : Refusal::unliftable;
        }
        return room;
    }
    room.refusal = refusal_by_size(pot, spot);
    if (room.refusal == Refusal::none && is_excluded(pot, spot)) room.refusal = Refusal::excluded;
    return room;
}

}  // namespace sunfleck::placement
