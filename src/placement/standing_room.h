#pragma once

#include "sunfleck/placement/harm_table.h"
#include "sunfleck/scene/scene.h"
#include "sunfleck/scene/spots.h"

#include <cstddef>
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

    /// For a pot that stands at `start_spot`, or nowhere. Where a pinned or unliftable pot stands
    /// is never refused.
    [[nodiscard]] Room at(const scene::Pot& pot, std::optional<std::size_t> start_spot,
                          std::size_t spot) const;
    /// False for pots that are pinned where they stand or too heavy for all hands.
    [[nodiscard]] bool may_move(const scene::Pot& pot, std::optional<std::size_t> start_spot) const;
    /// Refused at no spot for size, height, weight or exclusion: the pot's own matter.
    [[nodiscard]] Refusal refusal_by_size(const scene::Pot& pot, std::size_t spot) const;

  private:
    [[nodiscard]] bool is_excluded(const scene::Pot& pot, std::size_t spot) const;

    const scene::Scene* scene_;
    const std::vector<scene::Spot>* spots_;
    std::vector<double> max_load_kg_;  ///< by spot; infinite where nothing is said
};

}  // namespace sunfleck::placement
