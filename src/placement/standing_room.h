#pragma once

#include "sunfleck/placement/harm_table.h"
#include "sunfleck/scene/footprint.h"
#include "sunfleck/scene/scene.h"
#include "sunfleck/scene/spots.h"

#include <cstddef>
#include <optional>
#include <vector>

namespace sunfleck::placement {

/// Whether a pot may stand at a spot, and what it takes up there.
struct Room {
    Refusal refusal = Refusal::none;
    std::vector<std::size_t> covered;  ///< spots, ascending; at least the spot itself
};

/// The rules that no harm outweighs, pot by spot.
class StandingRoom {
  public:
    /// Scene and spots must outlive this.
    StandingRoom(const scene::Scene& scene, const std::vector<scene::Spot>& spots);

    /// What size, height and weight allow, wherever the pot stands now.
    [[nodiscard]] Room by_size(const scene::Pot& pot, std::size_t spot) const;
    /// By size and by the pot's exclusions.
    [[nodiscard]] Room for_newcomer(const scene::Pot& pot, std::size_t spot) const;
    /// False for pots that stand somewhere and are pinned there or too heavy for all hands.
    [[nodiscard]] bool may_move(const scene::Pot& pot, bool stands_somewhere) const;

    /// What each row's pot holds where it stands: with room for its crown where the neighbours
    /// leave it, else the spots under the pot alone (growers do crowd their benches, and a crowded
    /// bench is no reason to carry a pot away). Empty for pots that stand nowhere.
    [[nodiscard]] std::vector<std::vector<std::size_t>> cells_now(const std::vector<HarmRow>& rows,
                                                                  const Standing& standing) const;

  private:
    [[nodiscard]] bool is_excluded(const scene::Pot& pot, std::size_t spot) const;
    [[nodiscard]] std::vector<std::size_t> cells_held(const scene::Pot& pot,
                                                      std::size_t spot) const;

    const scene::Scene* scene_;
    const std::vector<scene::Spot>* spots_;
    scene::Footprints footprints_;
    std::vector<double> max_load_kg_;  ///< by spot; infinite where nothing is said
};

/// The spot whose sun a pot on those spots gets: the one in the middle, the first of two.
[[nodiscard]] std::size_t middle_of(const std::vector<std::size_t>& covered);

}  // namespace sunfleck::placement
