#include "cli/spot_receivers.h"

namespace sunfleck::cli {

const scene::Pot* pot_at(const scene::Scene& scene, const scene::Spot& spot) {
    for (const scene::Pot& pot : scene.pots) {
        if (pot.spot == spot.id) return &pot;
    }
    return nullptr;
}

exposure::ReceiverRequest crown_receiver(const scene::Scene& scene, const scene::Spot& spot,
                                         std::size_t index) {
    const scene::Pot* pot = pot_at(scene, spot);
    return {.spot = index,
            .kind = exposure::ReceiverKind::crown,
            .height_m = pot != nullptr ? exposure::crown_receiver_height_m(*pot, spot)
                                       : exposure::bare_receiver_height_m(spot)};
}

}  // namespace sunfleck::cli
