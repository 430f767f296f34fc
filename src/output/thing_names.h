#pragma once

#include "sunfleck/base/date.h"
#include "sunfleck/output/canvas.h"
#include "sunfleck/output/label_placer.h"
#include "sunfleck/output/plan_view.h"
#include "sunfleck/scene/scene.h"

#include <span>
#include <string>

namespace sunfleck::output {

/// Writes the name of every thing that the plan shows, where it hides least.
class ThingNames {
  public:
    ThingNames(Canvas& canvas, LabelPlacer& labels, const PlanView& view, const scene::Scene& scene,
               Date date, const Palette& palette);

    /// `holder_boxes`: the room that each bench, then each post stand takes with its rings.
    /// `holder_notes`: words behind the name of each of them, or nothing.
    void write(std::span<const SheetBox> holder_boxes,
               std::span<const std::string> holder_notes) const;

  private:
    void name_benches(std::span<const SheetBox> holder_boxes,
                      std::span<const std::string> holder_notes) const;
    void name_building(const scene::Building& building) const;
    void name_tree(const scene::Tree& tree) const;
    void name_mesh(const scene::Mesh& mesh) const;
    void name_cloth(const scene::Cloth& cloth) const;
    void name_laths(const scene::LathPanel& panel) const;
    void name_wall(const scene::Wall& wall) const;
    void write_around(const SheetBox& box, std::string_view name, double gap, bool is_bold) const;

    Canvas& canvas_;
    LabelPlacer& labels_;
    const PlanView& view_;
    const scene::Scene& scene_;
    Date date_;
    const Palette& palette_;
    SheetBox inside_;
};

}  // namespace sunfleck::output
