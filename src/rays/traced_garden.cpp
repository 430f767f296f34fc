#include "rays/traced_garden.h"

#include "rays/crown_view.h"

#include <algorithm>
#include <variant>

namespace sunfleck::rays {
namespace {

using geometry::ConvexSolid;
using geometry::Crown;
using geometry::LathBody;
using geometry::MeshBody;
using geometry::Piece;
using geometry::Sheet;

bool is_opaque(const geometry::Body& body) {
    if (const auto* solid = std::get_if<ConvexSolid>(&body)) return solid->transmittance <= 0.0;
    if (const auto* sheet = std::get_if<Sheet>(&body)) return sheet->transmittance <= 0.0;
    return std::holds_alternative<MeshBody>(body);
}

float transmittance_of(const geometry::Body& body) {
    if (const auto* solid = std::get_if<ConvexSolid>(&body)) {
        return static_cast<float>(solid->transmittance);
    }
    if (const auto* sheet = std::get_if<Sheet>(&body)) {
        return static_cast<float>(sheet->transmittance);
    }
    return 0.0F;
}

// Days on which the piece hangs and what it does to light, where that changes.
void add_days(const Piece& piece, const SunTable& sun, TracedPiece& traced) {
    const bool is_crown = std::holds_alternative<Crown>(piece.body);
    if (!piece.up.empty()) traced.hangs.resize(sun.days().size());
    if (is_crown) traced.optics.resize(sun.days().size());
    if (piece.up.empty() && !is_crown) return;
    for (std::size_t day = 0; day < sun.days().size(); ++day) {
        const geometry::PieceOptics optics = geometry::optics_on(piece, sun.days()[day].date);
        if (!traced.hangs.empty()) traced.hangs[day] = optics.hangs ? 1 : 0;
        if (is_crown) traced.optics[day] = optics;
    }
}

void find_cone(const Piece& piece, TracedPiece& traced) {
    const auto* solid = std::get_if<ConvexSolid>(&piece.body);
    const auto* sheet = std::get_if<Sheet>(&piece.body);
    if (solid != nullptr) traced.cone = cone_body(*solid);
    if (sheet != nullptr && sheet->is_planar) traced.cone = cone_body(*sheet);
    if ((solid != nullptr || (sheet != nullptr && sheet->is_planar)) && traced.cone.is_usable) {
        traced.kind = TraceKind::cone;
        traced.ball = traced.cone.ball;
    }
}

}  // namespace

void add_traced_piece(const geometry::Garden& garden, std::uint32_t index, const SunTable& sun,
                      const TraceChoice& choice, std::vector<TracedPiece>& traced) {
    const Piece& piece = garden.pieces[index];
    TracedPiece made;
    made.piece = index;
    made.is_opaque = is_opaque(piece.body);
    made.transmittance = transmittance_of(piece.body);
    const bool is_laths = std::holds_alternative<LathBody>(piece.body);
    if (choice.kind == LightKind::opaque_only && !made.is_opaque && !is_laths) return;
    made.ball = ball_around({piece.low, piece.high});
    if (const auto* crown = std::get_if<Crown>(&piece.body)) {
        made.kind = TraceKind::crown;
        made.transmittance = -1.0F;
        made.ball = ball_around(*crown, piece.low, piece.high);
    }
    find_cone(piece, made);
    add_days(piece, sun, made);
    traced.push_back(std::move(made));
}

}  // namespace sunfleck::rays
