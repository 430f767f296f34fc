#pragma once

#include "rays/day_items.h"
#include "sunfleck/geometry/horizon.h"
#include "sunfleck/rays/sun_table.h"

#include <span>
#include <vector>

namespace sunfleck::rays {

/// When the sun is up and over the far horizon and the ground: the same for every spot.
class SkyWindows {
  public:
    SkyWindows(const SunTable& sun, const geometry::Horizon& horizon, int thread_count);

    [[nodiscard]] std::span<const TickSpan> day(std::size_t day) const {
        return std::span(windows_).subspan(first_[day], first_[day + 1] - first_[day]);
    }
    /// No sample in a window is below the level.
    [[nodiscard]] bool sun_stays_above() const { return sun_stays_above_; }

  private:
    std::vector<TickSpan> windows_;
    std::vector<std::size_t> first_;
    bool sun_stays_above_ = true;
};

}  // namespace sunfleck::rays
