#include "sunfleck/geometry/passage.h"

#include <algorithm>

namespace sunfleck::geometry {
namespace {

constexpr double change_days = 21.0;

/// 0 before a change that is half done on `middle`, 1 after it, straight between.
double change_done(Date middle, Date date) {
    return std::clamp(0.5 + days_between(middle, date) / change_days, 0.0, 1.0);
}

/// Share of the leaves that the tree carries on the date, 0 to 1. Each year's leaves are followed
/// from their coming to the fall after it, so that a summer may hold new year.
double leaf_share(MonthDay leaf_out, MonthDay leaf_fall, Date date) {
    double share = 0.0;
    for (int year = year_of(date) - 2; year <= year_of(date) + 1; ++year) {
        const Date out = in_year(leaf_out, year);
        const Date same_year_fall = in_year(leaf_fall, year);
        const Date fall = same_year_fall > out ? same_year_fall : in_year(leaf_fall, year + 1);
        share = std::max(share, std::min(change_done(out, date), 1.0 - change_done(fall, date)));
    }
    return share;
}

/// A semi-evergreen keeps half of its leaves over winter (common practice, no source).
double kept_share(scene::LeafHabit habit) {
    switch (habit) {
        case scene::LeafHabit::deciduous:
            return 0.0;
        case scene::LeafHabit::semi_evergreen:
            return 0.5;
        case scene::LeafHabit::evergreen:
            break;
    }
    return 1.0;
}

double extinction_per_m(const Piece& piece, Date date) {
    const double kept = kept_share(piece.leaf_habit);
    if (kept >= 1.0) return piece.k_in_leaf_per_m;
    const double share = leaf_share(piece.leaf_out, piece.leaf_fall, date);
    // Extinction is proportional to leaf area, so that it, not the light, changes evenly.
    const double in_leaf = kept + (1.0 - kept) * share;
    return piece.k_bare_per_m + in_leaf * (piece.k_in_leaf_per_m - piece.k_bare_per_m);
}

}  // namespace

PieceOptics optics_on(const Piece& piece, Date date) {
    PieceOptics optics;
    optics.hangs =
        piece.up.empty() || std::any_of(piece.up.begin(), piece.up.end(),
                                        [&](const auto& span) { return span.contains(date); });
    if (std::holds_alternative<Crown>(piece.body)) {
        optics.k_per_m = extinction_per_m(piece, date);
    }
    return optics;
}

}  // namespace sunfleck::geometry
