#pragma once

#include "sunfleck/base/units.h"

#include <array>
#include <cstddef>
#include <span>
#include <vector>

namespace sunfleck::output {

/// A point of a sheet in its pixels at 1x: x to the right, y down.
struct SheetPoint {
    double x = 0.0;
    double y = 0.0;
    constexpr bool operator==(const SheetPoint&) const = default;
    friend constexpr SheetPoint operator+(SheetPoint a, SheetPoint b) {
        return {a.x + b.x, a.y + b.y};
    }
    friend constexpr SheetPoint operator-(SheetPoint a, SheetPoint b) {
        return {a.x - b.x, a.y - b.y};
    }
    friend constexpr SheetPoint operator*(double k, SheetPoint a) { return {k * a.x, k * a.y}; }
};

[[nodiscard]] double distance(SheetPoint a, SheetPoint b);

/// An upright rectangle of a sheet.
struct SheetBox {
    SheetPoint low;   ///< left and top
    SheetPoint high;  ///< right and bottom
    constexpr bool operator==(const SheetBox&) const = default;
    [[nodiscard]] constexpr double width() const { return high.x - low.x; }
    [[nodiscard]] constexpr double height() const { return high.y - low.y; }
    [[nodiscard]] constexpr SheetPoint centre() const { return 0.5 * (low + high); }
    [[nodiscard]] constexpr SheetBox grown(double by) const {
        return {{low.x - by, low.y - by}, {high.x + by, high.y + by}};
    }
    [[nodiscard]] constexpr SheetBox moved(SheetPoint by) const { return {low + by, high + by}; }
    [[nodiscard]] bool contains(SheetPoint point) const;
};

[[nodiscard]] SheetBox box_at(SheetPoint low, double width, double height);
/// The smallest box around the points; at least one point.
[[nodiscard]] SheetBox box_around(std::span<const SheetPoint> points);
/// The area that two boxes share; 0 when they are apart.
[[nodiscard]] double shared_area(const SheetBox& a, const SheetBox& b);

/// Lines and cubic curves, as both canvases draw them.
class Path {
  public:
    enum class Step { move, line, curve, close };
    struct Command {
        Step step = Step::move;
        std::array<SheetPoint, 3> points;  ///< one for move and line, three for curve
    };

    Path& move_to(SheetPoint point);
    Path& line_to(SheetPoint point);
    Path& curve_to(SheetPoint control_a, SheetPoint control_b, SheetPoint point);
    Path& close();
    /// An arc about a centre, by angles clockwise from the top; either way round. Begins with a
    /// line to its start, or with a move when the path is empty.
    Path& arc(SheetPoint centre, double radius, Angle from, Angle to);
    Path& add(const Path& other);

    [[nodiscard]] const std::vector<Command>& commands() const { return commands_; }
    [[nodiscard]] bool is_empty() const { return commands_.empty(); }

  private:
    std::vector<Command> commands_;
};

/// The point at an angle clockwise from the top of a circle.
[[nodiscard]] SheetPoint on_circle(SheetPoint centre, double radius, Angle clockwise_from_top);

[[nodiscard]] Path polygon(std::span<const SheetPoint> points);
[[nodiscard]] Path polyline(std::span<const SheetPoint> points);
[[nodiscard]] Path line(SheetPoint from, SheetPoint to);
[[nodiscard]] Path rectangle(const SheetBox& box);
[[nodiscard]] Path rounded_rectangle(const SheetBox& box, double radius);
[[nodiscard]] Path circle(SheetPoint centre, double radius);
/// A stretch of a ring, ends cut square to the band.
[[nodiscard]] Path ring_stretch(SheetPoint centre, double outer_radius, double inner_radius,
                                Angle from, Angle to);

}  // namespace sunfleck::output
