#pragma once

#include "sunfleck/output/canvas.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace sunfleck::output {

/// Puts names where they hide nothing: each tries its places in turn and takes the first that is
/// free, or the one that covers least.
class LabelPlacer {
  public:
    LabelPlacer(Canvas& canvas, const SheetBox& panel);

    /// A place that names must not cover; the weight tells how badly.
    void avoid(const SheetBox& box, double weight = 1.0);
    /// Where a name may stand: its middle, and its turn in quarter turns against the clock.
    struct Place {
        SheetPoint middle;
        int quarter_turns = 0;
    };
    /// Where a box of that size stands best: the chosen place's box, now taken.
    [[nodiscard]] SheetBox take(double width, double height, const std::vector<Place>& places);
    /// The same anywhere on the panel, as near to `thing` as it hides little.
    /// Nothing where it would hide other things, names or boxes.
    [[nodiscard]] std::optional<SheetBox> take_near(double width, double height,
                                                    const SheetBox& thing);
    /// Writes a name at its best place. Text longer than `most_width` is cut with "…".
    void write(std::string_view name, const std::vector<Place>& places, const TextStyle& style,
               double most_width = 260.0);

  private:
    struct Obstacle {
        SheetBox box;
        double weight = 1.0;
    };
    [[nodiscard]] std::size_t best(double width, double height,
                                   const std::vector<Place>& places) const;
    [[nodiscard]] double cost(const SheetBox& box) const;

    Canvas& canvas_;
    SheetBox panel_;
    std::vector<Obstacle> obstacles_;
};

/// Places around a box, first under it, then over it, then beside it.
[[nodiscard]] std::vector<LabelPlacer::Place> places_around(const SheetBox& box, double width,
                                                            double height, double gap);

}  // namespace sunfleck::output
