#pragma once

#include "sunfleck/exposure/exposure.h"
#include "sunfleck/exposure/spot_sun.h"
#include "sunfleck/scene/plan_frame.h"
#include "sunfleck/scene/spots.h"

namespace sunfleck::exposure {

/// A receiver where it stands.
struct PlacedReceiver {
    Receiver receiver;
    Vec2 position;     ///< in the plan
    double z_m = 0.0;  ///< at least 1 mm above the surface that carries the pot
};

/// Crown points stand over the spot's middle; points of the pot's wall 0.10 m from it towards
/// true north, east, south or west.
[[nodiscard]] PlacedReceiver place_receiver(const scene::PlanFrame& frame, const scene::Spot& spot,
                                            const ReceiverRequest& request);

}  // namespace sunfleck::exposure
