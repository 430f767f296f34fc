#include "exposure/receivers.h"

#include "sunfleck/scene/plan_frame.h"

#include <algorithm>
#include <cmath>

namespace sunfleck::exposure {
namespace {

constexpr double wall_from_centre_m = 0.10;
constexpr double above_surface_m = 0.001;  // a surface does not shade what lies on it
constexpr double bare_height_m = 0.20;

std::optional<Vec3> outward_of(ReceiverKind kind) {
    switch (kind) {
        case ReceiverKind::crown:
            return std::nullopt;
        case ReceiverKind::wall_n:
            return Vec3{0.0, 1.0, 0.0};
        case ReceiverKind::wall_e:
            return Vec3{1.0, 0.0, 0.0};
        case ReceiverKind::wall_s:
            return Vec3{0.0, -1.0, 0.0};
        case ReceiverKind::wall_w:
            return Vec3{-1.0, 0.0, 0.0};
    }
    return std::nullopt;
}

}  // namespace

PlacedReceiver place_receiver(const scene::PlanFrame& frame, const scene::Spot& spot,
                              const ReceiverRequest& request) {
    const double z_m = spot.top_z_m + std::max(request.height_m, above_surface_m);
    Receiver receiver{.point = frame.world_point(spot.position, z_m),
                      .outward = outward_of(request.kind)};
    if (receiver.outward) {
        receiver.point = receiver.point + wall_from_centre_m * *receiver.outward;
    }
    return {.receiver = receiver,
            .position = frame.to_plan({receiver.point.x, receiver.point.y}),
            .z_m = z_m};
}

const std::vector<double>& crown_ladder_m() {
    static const std::vector<double> ladder{0.05, 0.10, 0.20, 0.35, 0.60, 1.00};
    return ladder;
}

double crown_receiver_height_m(const scene::Pot& pot, const scene::Spot& spot) {
    if (pot.receiver_height_m) return *pot.receiver_height_m;
    if (spot.receiver_height_m) return *spot.receiver_height_m;
    const double middle_m = pot.pot_height_m + 0.5 * pot.crown_height_m;
    double best_m = crown_ladder_m().front();
    for (const double rung_m : crown_ladder_m()) {
        // A rung must be nearer by more than rounding, so that the lower of equals is kept.
        if (std::abs(rung_m - middle_m) < std::abs(best_m - middle_m) - 1e-9) best_m = rung_m;
    }
    return best_m;
}

double bare_receiver_height_m(const scene::Spot& spot) {
    return spot.receiver_height_m.value_or(bare_height_m);
}

}  // namespace sunfleck::exposure
