#pragma once

#include "geometry/flat_outline.h"
#include "sunfleck/geometry/garden.h"

#include <cstdint>
#include <string>
#include <vector>

namespace sunfleck::bench {

/// A level frame: a place in plan and the direction in which a thing stretches.
struct Stand {
    Vec2 corner;
    Vec2 along;  ///< unit vector; depth goes to its left
};

struct Board {
    double length_m = 0.0;
    double depth_m = 0.0;
    double foot_z_m = 0.0;
    double top_z_m = 0.0;
    double top_rise_per_m = 0.0;  ///< of the top, along the depth
};

struct Tree {
    Vec2 middle;
    double trunk_diameter_m = 0.0;
    double crown_base_m = 0.0;
    double height_m = 0.0;
    double width_m = 0.0;
    double across_m = 0.0;
    Vec2 axis{1.0, 0.0};
    double transmission = 0.0;  ///< of one crown diameter
};

struct Panel {
    double length_m = 0.0;  ///< along the laths
    double z_m = 0.0;
    int laths = 0;
    double slat_m = 0.0;
    double gap_m = 0.0;
    double thickness_m = 0.0;
    double slat_tilt_deg = 0.0;
};

/// A garden that grows thing by thing out of convex solids, plane nets and true crowns.
class GardenBed {
  public:
    /// Starts a new object; what is added next belongs to it. Returns its number.
    std::uint32_t begin(const std::string& kind);

    /// A block between two heights; its top may slope, as that of a lean-to roof.
    void add_board(Stand stand, const Board& board);
    /// A bench of two tiers on six legs. Puts `spots_per_tier` receivers 0.20 m above each tier.
    void add_bench(Stand stand, double length_m, int spots_per_tier);
    /// Four posts and the plane net between their tops; `tilt` is its rise per metre of depth.
    void add_net(Stand stand, double length_m, double depth_m, double z_m, double tilt,
                 double transmittance);
    /// A shed with a lean-to roof.
    void add_shed(Stand stand, double length_m, double depth_m, double eaves_m);
    /// A trunk of six sides and a crown that is a true ellipsoid.
    void add_tree(const Tree& tree);
    /// A level panel of laths.
    void add_laths(Stand stand, const Panel& panel);

    [[nodiscard]] const geometry::Garden& garden() const { return garden_; }
    [[nodiscard]] const std::vector<Vec3>& spots() const { return spots_; }

  private:
    void add(geometry::Body body, double k_per_m = 0.0);
    void add_prism(const geometry::Outline& outline, double foot_z_m, double top_z_m);
    void add_spots(Stand tier, double length_m, double depth_m, double z_m, int count);

    geometry::Garden garden_;
    std::vector<Vec3> spots_;
};

}  // namespace sunfleck::bench
