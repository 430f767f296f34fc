#pragma once

#include "rays/day_sweep.h"
#include "rays/trace_scene.h"

#include <cstdint>
#include <vector>

namespace sunfleck::rays {

/// What is known of a spot from before a layer of pieces changed: spans that no veil of the layer
/// was or is before have the light that they had.
struct KnownSpans {
    const LightSpans* light = nullptr;
    std::size_t spot = 0;
    std::span<const VeilItem> old_veils;  ///< of the layer
    std::size_t first_piece = 0;          ///< of the layer now, among the traced ones
    std::size_t end_piece = 0;

    /// The span as it was; null when it is new or the layer was before it.
    [[nodiscard]] const LightSpan* find(std::size_t day, TickSpan span,
                                        std::span<const VeilItem* const> veils) const;
};

/// Light through veils that vary, for one spot after another. Spans behind crowns are taken in
/// turns of many; finish() fills in the last.
class VeilMixer final : public VeilLight {
  public:
    explicit VeilMixer(const TraceScene& scene);

    /// `known` may be null; else it must last until finish().
    void begin(Vec3 spot, const KnownSpans* known = nullptr);
    void add_span(std::size_t day, TickSpan span, std::span<const VeilItem* const> veils,
                  std::vector<LightSpan>& spans) override;
    /// `spans` is what they were added to, no shorter.
    void finish(std::vector<LightSpan>& spans);

  private:
    // Which span a panel is part of, and what its light counts there.
    struct Share {
        std::size_t span = 0;
        float weight = 1.0F;
    };
    [[nodiscard]] const CrownView& crown(std::uint16_t piece);
    [[nodiscard]] static bool are_crowns(const TraceScene& scene,
                                         std::span<const VeilItem* const> veils);
    void add_panel(std::size_t day, float from, float to, std::span<const VeilItem* const> veils,
                   const Share& share);
    [[nodiscard]] double mean_of_rays(std::size_t day, TickSpan span,
                                      std::span<const VeilItem* const> veils) const;
    [[nodiscard]] double light_of_ray(std::size_t day, Vec3 direction,
                                      std::span<const VeilItem* const> veils) const;

    TraceScene scene_;
    Vec3 spot_;
    const KnownSpans* known_ = nullptr;
    std::uint32_t spot_number_ = 0;
    std::vector<CrownView> crowns_;              // by traced piece
    std::vector<std::uint32_t> crown_made_for_;  // number of the spot
    std::vector<LightPanel> panels_;             // not yet lit
    std::vector<PanelLayer> layers_;
    std::vector<Share> shares_;
    std::vector<float> light_;
    PanelRoom room_;
};

}  // namespace sunfleck::rays
