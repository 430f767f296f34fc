#include "sunfleck/output/path.h"

#include "sunfleck/base/require.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace sunfleck::output {

double distance(SheetPoint a, SheetPoint b) {
    return std::hypot(a.x - b.x, a.y - b.y);
}

bool SheetBox::contains(SheetPoint point) const {
    return point.x >= low.x && point.x <= high.x && point.y >= low.y && point.y <= high.y;
}

SheetBox box_at(SheetPoint low, double width, double height) {
    return {low, {low.x + width, low.y + height}};
}

SheetBox box_around(std::span<const SheetPoint> points) {
    SUNFLECK_REQUIRE(!points.empty(), "no points to be boxed");
    SheetBox box{points.front(), points.front()};
    for (const SheetPoint& point : points) {
        box.low = {std::min(box.low.x, point.x), std::min(box.low.y, point.y)};
        box.high = {std::max(box.high.x, point.x), std::max(box.high.y, point.y)};
    }
    return box;
}

double shared_area(const SheetBox& a, const SheetBox& b) {
    const double width = std::min(a.high.x, b.high.x) - std::max(a.low.x, b.low.x);
    const double height = std::min(a.high.y, b.high.y) - std::max(a.low.y, b.low.y);
    return width > 0.0 && height > 0.0 ? width * height : 0.0;
}

Path& Path::move_to(SheetPoint point) {
    commands_.push_back({Step::move, {point}});
    return *this;
}

Path& Path::line_to(SheetPoint point) {
    commands_.push_back({Step::line, {point}});
    return *this;
}

Path& Path::curve_to(SheetPoint control_a, SheetPoint control_b, SheetPoint point) {
    commands_.push_back({Step::curve, {control_a, control_b, point}});
    return *this;
}

Path& Path::close() {
    commands_.push_back({Step::close, {}});
    return *this;
}

Path& Path::arc(SheetPoint centre, double radius, Angle from, Angle to) {
    const SheetPoint start = on_circle(centre, radius, from);
    commands_.empty() ? move_to(start) : line_to(start);
    // Pieces of at most a quarter turn, each by the usual cubic: controls at 4/3 tan(angle / 4)
    // along the tangents; off the circle by less than 3e-4 of the radius.
    const double turn = (to - from).in_radians();
    const int pieces =
        std::max(1, static_cast<int>(std::ceil(std::abs(turn) / (0.5 * std::numbers::pi))));
    const Angle step = Angle::radians(turn / pieces);
    // Where chord and arc lie closer than the eye or a printer tells apart, the chord is drawn.
    constexpr double finest = 0.02;
    const bool is_straight = radius * (1.0 - std::cos(0.5 * step.in_radians())) < finest;
    const double reach = 4.0 / 3.0 * std::tan(0.25 * step.in_radians()) * radius;
    for (int i = 0; i < pieces; ++i) {
        const Angle a = from + static_cast<double>(i) * step;
        const Angle b = a + step;
        const SheetPoint tangent_a{cos(a), sin(a)};
        const SheetPoint tangent_b{cos(b), sin(b)};
        const SheetPoint end = on_circle(centre, radius, b);
        if (is_straight) {
            line_to(end);
            continue;
        }
        curve_to(on_circle(centre, radius, a) + reach * tangent_a, end - reach * tangent_b, end);
    }
    return *this;
}

Path& Path::add(const Path& other) {
    commands_.insert(commands_.end(), other.commands_.begin(), other.commands_.end());
    return *this;
}

SheetPoint on_circle(SheetPoint centre, double radius, Angle clockwise_from_top) {
    return centre + radius * SheetPoint{sin(clockwise_from_top), -cos(clockwise_from_top)};
}

Path polyline(std::span<const SheetPoint> points) {
    Path path;
    for (const SheetPoint& point : points) {
        path.is_empty() ? path.move_to(point) : path.line_to(point);
    }
    return path;
}

Path polygon(std::span<const SheetPoint> points) {
    return polyline(points).close();
}

Path line(SheetPoint from, SheetPoint to) {
    return Path().move_to(from).line_to(to);
}

Path rectangle(const SheetBox& box) {
    return Path()
        .move_to(box.low)
        .line_to({box.high.x, box.low.y})
        .line_to(box.high)
        .line_to({box.low.x, box.high.y})
        .close();
}

Path rounded_rectangle(const SheetBox& box, double radius) {
    const double r = std::min({radius, 0.5 * box.width(), 0.5 * box.height()});
    const auto quarter = [](int turns) { return Angle::degrees(90.0 * turns); };
    return Path()
        .arc({box.high.x - r, box.low.y + r}, r, quarter(0), quarter(1))
        .arc({box.high.x - r, box.high.y - r}, r, quarter(1), quarter(2))
        .arc({box.low.x + r, box.high.y - r}, r, quarter(2), quarter(3))
        .arc({box.low.x + r, box.low.y + r}, r, quarter(3), quarter(4))
        .close();
}

Path circle(SheetPoint centre, double radius) {
    return Path().arc(centre, radius, Angle(), Angle::degrees(360.0)).close();
}

Path ring_stretch(SheetPoint centre, double outer_radius, double inner_radius, Angle from,
                  Angle to) {
    return Path().arc(centre, outer_radius, from, to).arc(centre, inner_radius, to, from).close();
}

}  // namespace sunfleck::output
