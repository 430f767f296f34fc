#pragma once

#include "sunfleck/base/date.h"
#include "sunfleck/geometry/garden.h"
#include "sunfleck/output/canvas.h"
#include "sunfleck/output/plan_view.h"
#include "sunfleck/scene/scene.h"

#include <string>
#include <vector>

/// The things of a garden as they look from above.
namespace sunfleck::output {

/// Draws things on one plan.
class GardenArtist {
  public:
    GardenArtist(Canvas& canvas, const PlanView& view, const scene::Scene& scene, Date date,
                 const Palette& palette = morning);

    /// As glass when it hangs over the benches, such as the balcony above.
    void draw_building(const scene::Building& building) const;
    void draw_wall(const scene::Wall& wall) const;
    void draw_bench(const scene::Bench& bench) const;
    void draw_stand(const scene::PostStand& stand) const;
    void draw_laths(const scene::LathPanel& panel) const;
    void draw_cloth(const scene::Cloth& cloth) const;
    void draw_tree(const scene::Tree& tree) const;
    /// All imported meshes by their outlines from above.
    void draw_meshes(const geometry::Garden& garden) const;

    /// What stands on the ground: buildings, walls, benches, stands.
    void draw_standing_things() const;
    /// What is over it, as glass: laths, nets, crowns.
    void draw_hanging_things() const;

  private:
    void draw_boards(const scene::Bench& bench, const scene::Tier& tier) const;
    void draw_fence_stretch(SheetPoint from, SheetPoint to) const;
    void draw_wall_stretch(SheetPoint from, SheetPoint to, double width) const;
    void draw_hedge_stretch(SheetPoint from, SheetPoint to, double width) const;
    void draw_ridge(const scene::Building& building, const Path& outline) const;

    Canvas& canvas_;
    const PlanView& view_;
    const scene::Scene& scene_;
    Date date_;
    const Palette& palette_;
};

/// True for a thing that the file lists under fences.
[[nodiscard]] bool is_fence(const scene::Wall& wall);
/// True for a fence as thick as only a hedge is.
[[nodiscard]] bool is_hedge(const scene::Wall& wall);
/// True for a building that begins over the benches' tops.
[[nodiscard]] bool is_overhead(const scene::Building& building);
/// Whether a thing with these spans is up on a date; no spans: always.
[[nodiscard]] bool is_up(const std::vector<scene::YearSpan>& up, Date date);
/// The outline of a crown with its scallops.
[[nodiscard]] Path scalloped_crown(SheetPoint centre, double half_width, double half_across,
                                   Angle turn);

}  // namespace sunfleck::output
