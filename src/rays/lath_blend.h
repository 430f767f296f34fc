#pragma once

#include "rays/trace_scene.h"

#include <cstddef>
#include <cstdint>
#include <span>
#include <vector>

namespace sunfleck::rays {

/// A panel of laths from one spot: how sharp it is seen along a ray, and what its mean lets
/// through; see geometry/lath_passage.cpp for the formulas.
class LathLook {
  public:
    LathLook(const geometry::LathBody& laths, Vec3 spot);

    /// 1 where single laths are seen, 0 where only the mean, between otherwise.
    [[nodiscard]] double sharpness(Vec3 direction) const;
    /// Light of the mean; 1 beside the panel.
    [[nodiscard]] double mean(Vec3 direction) const;
    /// The mean lets nothing through: the laths overlap in the light's direction.
    [[nodiscard]] bool is_closed(Vec3 direction) const;

  private:
    [[nodiscard]] double crossing_m(Vec3 direction) const;

    const geometry::LathBody* laths_;
    Vec3 from_corner_;
    double height_m_;
};

/// What a veil item of a lath panel stands for: light between the laths, and what a lath before
/// the sun takes from that.
inline constexpr float lath_gap_veil = -1.0F;
inline constexpr float lath_slat_veil = -2.0F;
[[nodiscard]] double lath_veil_light(const LathLook& look, float veil, Vec3 direction);

/// Makes shades and veils of a day's spans behind single laths and behind the panel: sharp laths
/// shade, blurred ones are the panel's mean, and between both count in part.
class LathBlend {
  public:
    void add(const TraceScene& scene, const LathLook& look, std::uint16_t piece, std::size_t day,
             std::span<const ShadeItem> laths, std::span<const ShadeItem> panel, SpotItems& items);

  private:
    enum class Zone { sharp, blended, blended_closed, mean, closed };
    struct ZoneSpan {
        TickSpan span;
        Zone zone = Zone::sharp;
    };
    void find_zones(const TraceScene& scene, const LathLook& look, std::size_t day, TickSpan hull);

    std::vector<TickSpan> slats_;
    std::vector<ZoneSpan> zones_;
};

}  // namespace sunfleck::rays
