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

    /// The day's rows.
    [[nodiscard]] const float* directions_of(std::size_t day) const {
        return &frames
                    ->directions[row_floats * static_cast<std::size_t>(frames->first_sample[day])];
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
    /// All of them on days [first, end).
    void sort(std::size_t first, std::size_t end) {
        shades.sort(first, end);
        veils.sort(first, end);
    }
};

}  // namespace sunfleck::rays
