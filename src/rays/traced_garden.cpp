#include "rays/traced_garden.h"

#include "rays/crown_view.h"
#include "rays/lath_boxes.h"

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

void make_box(const Piece& piece, TracedPiece& traced) {
    constexpr double margin_m = 1e-5;
    const Vec3 margin{margin_m, margin_m, margin_m};
    traced.box = cone_body_of_box(piece.low - margin, piece.high + margin);
}

void make(const ConvexSolid& solid, const Piece& piece, TracedPiece& traced) {
    traced.cone = cone_body(solid);
    if (traced.cone.is_usable) {
        traced.kind = TraceKind::cone;
        traced.ball = traced.cone.ball;
    } else {
        make_box(piece, traced);
    }
}

void make(const Sheet& sheet, const Piece& piece, TracedPiece& traced) {
    if (sheet.is_planar) {
        traced.cone = cone_body(sheet);
        if (traced.cone.is_usable) traced.kind = TraceKind::cone;
    } else {
        traced.cone = border_of(sheet);
        if (traced.cone.is_usable) traced.kind = TraceKind::sheet;
    }
    if (traced.kind != TraceKind::cone) make_box(piece, traced);
}

void make(const Crown& crown, const Piece& piece, TracedPiece& traced) {
    traced.kind = TraceKind::crown;
    traced.transmittance = -1.0F;
    traced.ball = ball_around(crown, piece.low, piece.high);
}

void make(const LathBody& laths, const Piece& /*piece*/, TracedPiece& traced) {
    traced.kind = TraceKind::laths;
    traced.transmittance = -1.0F;
    traced.cone = cone_body(lath_panel_sheet(laths));
    for (const ConvexSolid& lath : lath_boxes(laths)) traced.laths.push_back(cone_body(lath));
}

void make(const MeshBody& mesh, const Piece& piece, TracedPiece& traced) {
    traced.kind = TraceKind::mesh;
    traced.mesh = std::make_shared<const EmbreeMesh>(mesh);
    make_box(piece, traced);
}

// Each lath as an opaque body that casts its shadow from any distance.
void add_single_laths(const TracedPiece& panel, std::vector<TracedPiece>& traced) {
    for (const ConeBody& lath : panel.laths) {
        TracedPiece made;
        made.piece = panel.piece;
        made.kind = TraceKind::cone;
        made.is_opaque = true;
        made.cone = lath;
        made.ball = lath.ball;
        made.hangs = panel.hangs;
        traced.push_back(std::move(made));
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
    std::visit([&](const auto& body) { make(body, piece, made); }, piece.body);
    add_days(piece, sun, made);
    if (is_laths && (choice.resolves_all_laths || choice.kind == LightKind::opaque_only)) {
        add_single_laths(made, traced);
    } else {
        traced.push_back(std::move(made));
    }
}

}  // namespace sunfleck::rays
