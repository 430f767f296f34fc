#pragma once

#include "rays/day_frames.h"
#include "rays/day_items.h"
#include "rays/light_kernels.h"
#include "rays/sky_windows.h"
#include "rays/traced_garden.h"
#include "sunfleck/geometry/garden.h"

#include <cstddef>
#include <cstdint>
#include <span>

namespace sunfleck::rays {

/// What all spots share.
struct TraceScene {
    const geometry::Garden* garden = nullptr;
    const SunTable* sun = nullptr;
    const DayFrames* frames = nullptr;
    const SkyWindows* sky = nullptr;
    const LightKernels* kernels = nullptr;
    std::span<const TracedPiece> pieces;
    int longest_varying_min = 0;  ///< see LightRequest

    /// The day's rows of four floats.
    [[nodiscard]] const float* directions_of(std::size_t day) const {
        return &frames->directions[4 * static_cast<std::size_t>(frames->first_sample[day])];
    }
    [[nodiscard]] const geometry::Piece& body_of(const TracedPiece& piece) const {
        return garden->pieces[piece.piece];
    }
};

/// What stands before the sun at a spot.
struct SpotItems {
    DayItems<ShadeItem> shades;
    DayItems<VeilItem> veils;

    void clear() {
        shades.clear();
        veils.clear();
    }
    void sort(std::size_t day_count) {
        shades.sort(day_count);
        veils.sort(day_count);
    }
};

}  // namespace sunfleck::rays
