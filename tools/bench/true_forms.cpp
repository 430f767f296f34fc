#include "true_forms.h"

#include "garden_maker.h"

namespace sunfleck::bench {

std::vector<geometry::PieceOptics> summer_optics(const geometry::Garden& garden) {
    std::vector<geometry::PieceOptics> optics;
    optics.reserve(garden.pieces.size());
    for (const geometry::Piece& piece : garden.pieces) {
        optics.push_back({.hangs = true, .k_per_m = piece.k_in_leaf_per_m});
    }
    return optics;
}

TrueForms::TrueForms(const geometry::Garden& garden)
    : garden_(with_single_laths(garden)), optics_(summer_optics(garden_)) {}

double TrueForms::share(Vec3 spot, Vec3 to_sun) const {
    double share = 1.0;
    for (std::size_t i = 0; i < garden_.pieces.size(); ++i) {
        const geometry::Passage passage =
            geometry::pass(garden_.pieces[i], optics_[i], spot, to_sun);
        if (passage.is_met) share *= passage.transmittance;
        if (!(share > 0.0)) return 0.0;
    }
    return share;
}

}  // namespace sunfleck::bench
