#pragma once

#include "sunfleck/output/bench_ribbon.h"
#include "sunfleck/output/canvas.h"
#include "sunfleck/output/day_ring.h"
#include "sunfleck/output/garden_shadows.h"
#include "sunfleck/output/label_placer.h"
#include "sunfleck/output/plan_view.h"
#include "sunfleck/scene/spots.h"

#include <map>
#include <optional>
#include <vector>

/// The plan of the garden in its panel, from the grass up to the names.
namespace sunfleck::output {

/// A ring or a ribbon column for one spot.
struct SpotDay {
    std::size_t spot = 0;  ///< index into the spots
    const exposure::DayExposure* day = nullptr;
};

/// What the plan's pictures share: scene, spots, view, and where names may stand.
class GardenPlan {
  public:
    GardenPlan(Canvas& canvas, const scene::Scene& scene, std::span<const scene::Spot> spots,
               Date date, const PlanView& view, const Palette& palette = morning);

    /// Grass, shadows on the ground, standing things, shadows on their tops, hanging things. No
    /// shadows: null.
    void draw_garden(const geometry::Garden& garden, const ShadowCaster* shadows);
    /// A dot on every spot that `is_taken` does not hold.
    void draw_free_spots(const std::vector<bool>& is_taken) const;
    /// A ring on each spot, or the bench's ribbon where the spots lie closer than 16 px; where the
    /// plan has no room for that either, the bench's name tells its least and most full sun.
    /// Says what was drawn, for the legend.
    struct Drawn {
        bool has_rings = false;
        bool has_marks = false;
        bool has_ribbons = false;
    };
    Drawn draw_days(const std::vector<SpotDay>& days, const sun::SunDay& sun_day,
                    const std::vector<sun::CivilHour>& hours);
    /// North leaf and ranging pole in a free corner, then the names of all things.
    void draw_marks_and_names();

    [[nodiscard]] LabelPlacer& labels() { return labels_; }
    /// Distance in pixels from a spot to the nearest other spot of its bench.
    [[nodiscard]] double spacing(std::size_t spot) const { return spacing_[spot]; }
    [[nodiscard]] const PlanView& view() const { return view_; }

  private:
    void draw_shadows_on_tops(const ShadowCaster& shadows) const;
    /// False when the plan has no room for it.
    [[nodiscard]] bool draw_ribbon(int holder, const std::vector<SpotDay>& days,
                                   const sun::SunDay& sun_day,
                                   const std::vector<sun::CivilHour>& hours);
    void avoid_things();
    void draw_north_and_pole();
    [[nodiscard]] std::vector<SheetPoint> holder_outline(int holder) const;
    void add_to_holder(int holder, const SheetBox& box);

    Canvas& canvas_;
    const scene::Scene& scene_;
    std::span<const scene::Spot> spots_;
    Date date_;
    const PlanView& view_;
    const Palette& palette_;
    LabelPlacer labels_;
    std::vector<double> spacing_;
    std::vector<std::string> holder_notes_;  ///< behind the names of benches and stands
    std::vector<SheetBox> holder_boxes_;     ///< with what stands out over the benches' edges
};

}  // namespace sunfleck::output
