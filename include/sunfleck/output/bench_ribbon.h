#pragma once

#include "sunfleck/exposure/exposure.h"
#include "sunfleck/output/canvas.h"
#include "sunfleck/sun/civil_time.h"

#include <string>
#include <vector>

/// The bench ribbon: spots across in bench order, clock hours down, the three suns by texture. It
/// stands for the day rings of a bench whose spots lie too close for them.
namespace sunfleck::output {

struct RibbonColumn {
    int number = 1;  ///< of the spot on its bench
    std::vector<exposure::SunSpan> spans;
};

struct BenchRibbon {
    std::vector<RibbonColumn> columns;
    std::vector<sun::CivilHour> hours;  ///< those to be shown, ascending, at least one
    UtcSeconds hot_from;
    UtcSeconds hot_to;
};

/// The size of a ribbon with its figures.
[[nodiscard]] SheetSize ribbon_size(const BenchRibbon& ribbon);

/// Draws it with its upper left corner at `at`. Where full sun comes in the hot hours the cell has
/// a box in it.
void draw_bench_ribbon(Canvas& canvas, SheetPoint at, const BenchRibbon& ribbon,
                       const Palette& palette = morning);

}  // namespace sunfleck::output
