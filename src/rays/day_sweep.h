#pragma once

#include "rays/day_items.h"
#include "sunfleck/rays/light_spans.h"

#include <cstddef>
#include <span>
#include <vector>

namespace sunfleck::rays {

/// Knows how much light veils let through that vary.
class VeilLight {
  public:
    virtual ~VeilLight() = default;
    /// Appends the stretch of a day before which all of the `veils` are, at least one varying,
    /// with the mean of their light; nothing when it is 0. The mean may be filled in later.
    virtual void add_span(std::size_t day, TickSpan span, std::span<const VeilItem* const> veils,
                          std::vector<LightSpan>& spans) = 0;

  protected:
    VeilLight() = default;
    VeilLight(const VeilLight&) = default;
    VeilLight& operator=(const VeilLight&) = default;
};

/// Filtered light is less than full, if only by rounding.
[[nodiscard]] float below_one(float transmittance);

/// Puts together what is before the sun on one day. Keeps its memory.
class DaySweep {
  public:
    /// Cuts spans that vary to at most so many minutes; 0: never.
    explicit DaySweep(int longest_varying_min) : longest_varying_min_(longest_varying_min) {}

    /// Appends the lit spans: in the windows, not in the shades, dimmed by the veils. Shades and
    /// veils are in order of their starts.
    void add_spans(std::size_t day, std::span<const TickSpan> windows,
                   std::span<const ShadeItem> shades, std::span<const VeilItem> veils,
                   VeilLight& light, std::vector<LightSpan>& spans);

  private:
    void add_gap(std::size_t day, TickSpan gap, std::span<const VeilItem> veils, VeilLight& light,
                 std::vector<LightSpan>& spans);
    void add_piece(std::size_t day, TickSpan piece, VeilLight& light,
                   std::vector<LightSpan>& spans);
    void add_varying(std::size_t day, TickSpan piece, VeilLight& light,
                     std::vector<LightSpan>& spans);

    int longest_varying_min_;
    std::size_t day_start_ = 0;  // place of the day's first span
    std::vector<const VeilItem*> in_gap_;
    std::vector<const VeilItem*> active_;
    std::vector<std::uint16_t> cuts_;
};

}  // namespace sunfleck::rays
