#pragma once

#include "rays/ball_samples.h"
#include "rays/cone_view.h"
#include "rays/lath_blend.h"
#include "rays/trace_scene.h"

#include <cstdint>
#include <vector>

namespace sunfleck::rays {

/// Finds when a piece stands before the sun at a spot. Keeps its memory; one for each thread.
class ShadowFinder {
  public:
    explicit ShadowFinder(const TraceScene& scene);

    /// Only these groups of days from now on; at first all.
    void set_groups(std::uint16_t first, std::uint16_t end);
    [[nodiscard]] std::size_t first_day() const;
    [[nodiscard]] std::size_t end_day() const;

    /// Appends what the piece of that number does.
    void add(std::uint16_t piece, Vec3 spot, SpotItems& items);
    /// Appends the half space behind a wall.
    void add_half_space(Vec3 outward, SpotItems& items);

  private:
    // Where found spans go, and whose they are.
    struct Target {
        const TracedPiece* piece = nullptr;
        std::uint16_t index = 0;
        bool is_opaque = false;
        float transmittance = 0.0F;
        SpotItems* items = nullptr;
    };
    void find_groups(const Ball& ball);
    void add_cone(const ConeBody& body);
    void add_sheet();
    void add_crown();
    void add_laths();
    void add_crossings(const ConePlanes& cone);
    template <typename Follow>
    void take_crossings(const Follow& follow);
    void add_outside(TickSpan touch, std::size_t day, int from, int to);
    void add_followed(std::size_t day, int from, int to);
    void add_all_round();
    template <typename Ask>
    void ask_in_box(const Ask& ask);
    void add_ray_by_ray();
    void add_ray_by_ray(std::size_t day, SampleRange range);
    void add_mesh();
    void add_mesh(std::size_t day, SampleRange range);
    void add_span(std::size_t day, int from, int to, float transmittance);
    [[nodiscard]] bool may_dim(std::size_t day) const {
        return target_.piece == nullptr || target_.piece->dims_on(day);
    }

    TraceScene scene_;
    ConeViewer viewer_;
    ConeCrossings crossings_;
    LathBlend lath_blend_;
    Vec3 spot_;
    Target target_;
    SpotItems lath_items_;
    SpotItems panel_items_;
    SpotItems box_items_;
    std::uint16_t first_group_ = 0;
    std::uint16_t end_group_ = 0;
    std::vector<std::uint16_t> groups_;
    std::vector<std::uint8_t> enters_;
    std::vector<std::uint8_t> leaves_;
};

}  // namespace sunfleck::rays
