#include "scene/scene_keys.h"

#include <algorithm>

namespace sunfleck::scene {

namespace {

ObjectKeys<YearSpan> make_span_keys() {
    ObjectKeys<YearSpan> keys("stretch of the year", "Both days included; may pass new year.");
    keys.text({"from", "first day", "Month and day.", Need::required}, TextForm::month_day,
              &YearSpan::from);
    keys.text({"to", "last day", "Month and day.", Need::required}, TextForm::month_day,
              &YearSpan::to);
    return keys;
}

const ObjectKeys<YearSpan>& span_keys() {
    static const ObjectKeys<YearSpan> keys = make_span_keys();
    return keys;
}

ObjectKeys<Flap> make_flap_keys() {
    ObjectKeys<Flap> keys("flap", "A piece of the same net that hangs from one edge.");
    keys.number(
        {"edge", "edge", "Counted from 1: from the first corner to the second.", Need::required},
        {1, 4}, &Flap::edge);
    keys.number({"drop_m", "drop of the flap", "How far it hangs down.", Need::required},
                {0.05, 10.0}, &Flap::drop_m);
    return keys;
}

enum class CornerHeights { above_ground, absolute };

/// A cloth as its keys say it, before its corners' heights are known for what they are.
struct ClothDraft {
    Cloth cloth;
    CornerHeights corner_heights = CornerHeights::above_ground;
};

ObjectKeys<ClothDraft> make_cloth_keys() {
    static const ObjectKeys<Flap> flap = make_flap_keys();
    const auto cloth = within(&ClothDraft::cloth);
    ObjectKeys<ClothDraft> keys("cloth", "A shade net hung by three or four corners.");
    keys.label("net", cloth(&Cloth::label));
    keys.tuples(
        {"corners_m", "list of corners", "x, y and height of each.", Need::required},
        {{"x", {-2000, 2000}}, {"y", {-2000, 2000}}, {"height", {-100, 100}}}, {3, 4},
        [](ClothDraft& draft, const std::vector<double>& numbers) {
            draft.cloth.corners.push_back({{numbers[0], numbers[1]}, {.value_m = numbers[2]}});
        });
    keys.word<CornerHeights>(
        {"corner_heights", "heights of the corners",
         "Above the ground under each corner, or absolute."},
        {{"above_ground", CornerHeights::above_ground}, {"absolute", CornerHeights::absolute}},
        &ClothDraft::corner_heights);
    keys.number({"sag_percent", "sag", "At the middle, of the longest edge."}, {0, 30},
                cloth(&Cloth::sag_fraction));
    keys.number(
        {"shade_factor_percent", "shade factor", "Light stopped at right angles.", Need::required},
        {1, 100}, cloth(&Cloth::shade_factor));
    keys.objects({"up", "list of stretches", "When it hangs; all year when left out."}, span_keys(),
                 {0, 20}, cloth(&Cloth::up));
    keys.objects({"flaps", "list of flaps", "Pieces that hang from its edges."}, flap, {0, 4},
                 cloth(&Cloth::flaps));
    keys.note();
    return keys;
}

Cloth finished_cloth(ClothDraft&& draft, const Value& value, const Reading& reading) {
    Cloth cloth = std::move(draft.cloth);
    for (ClothCorner& corner : cloth.corners) {
        corner.height.is_absolute = draft.corner_heights == CornerHeights::absolute;
    }
    for (std::size_t i = 0; i < cloth.flaps.size(); ++i) {
        Flap& flap = cloth.flaps[i];
        if (flap.edge > static_cast<int>(cloth.corners.size())) {
            const Value flaps{value->find("flaps"), pointer_to(value.pointer, "flaps")};
            reading.complain(flaps.item(i), "edge_missing",
                             "The net has no edge " + std::to_string(flap.edge) + ".",
                             "It has " + std::to_string(cloth.corners.size()) + " edges.");
        }
        --flap.edge;  // counted from 0 inside
    }
    return cloth;
}

/// A lath panel as its keys say it, before its height is known for what it is.
struct LathDraft {
    LathPanel panel;
    std::optional<double> height_m;
    std::optional<double> z_m;
};

void add_lath_place(ObjectKeys<LathDraft>& keys) {
    const auto panel = within(&LathDraft::panel);
    keys.label("laths", panel(&LathPanel::label));
    keys.position("the first corner", Need::required, panel(&LathPanel::corner));
    keys.number({"height_m", "height of the laths", "At the first lath, above the ground."},
                {0.0, 20.0}, &LathDraft::height_m);
    keys.number({"z_m", "level of the laths", "At the first lath, above the plan's origin."},
                {-200.0, 200.0}, &LathDraft::z_m);
    keys.rule({.kind = KeyRule::Kind::exactly_one, .keys = {"height_m", "z_m"}});
    keys.bearing("bearing", "Along the laths; the panel lies to the left.", Need::required,
                 panel(&LathPanel::bearing));
    keys.number({"length_m", "length of the laths", "Along the bearing.", Need::required},
                {0.05, 100.0}, panel(&LathPanel::length_m));
    keys.number({"width_m", "width of the panel", "Square to the laths.", Need::required},
                {0.05, 100.0}, panel(&LathPanel::width_m));
    keys.number(
        {"tilt_deg", "tilt of the panel", "About the first lath: positive raises the far side."},
        {-90.0, 90.0}, panel(&LathPanel::tilt));
}

ObjectKeys<LathDraft> make_lath_keys() {
    ObjectKeys<LathDraft> keys("lath panel", "A panel of parallel laths.");
    const auto panel = within(&LathDraft::panel);
    add_lath_place(keys);
    keys.number({"slat_width_mm", "width of a lath", "Its broad side.", Need::required},
                {2.0, 500.0}, panel(&LathPanel::slat_width_m));
    keys.number({"gap_mm", "gap between laths", "From one to the next.", Need::required},
                {1.0, 2000.0}, panel(&LathPanel::gap_m));
    keys.number({"thickness_mm", "thickness of a lath", "Its narrow side.", Need::required},
                {0.5, 200.0}, panel(&LathPanel::thickness_m));
    keys.number({"slat_tilt_deg", "tilt of the laths", "Each about its own length."}, {-90.0, 90.0},
                panel(&LathPanel::slat_tilt));
    keys.objects({"up", "list of stretches", "When it is there; all year when left out."},
                 span_keys(), {0, 20}, panel(&LathPanel::up));
    keys.note();
    return keys;
}

LathPanel finished_laths(LathDraft&& draft, const Value&, const Reading&) {
    LathPanel panel = std::move(draft.panel);
    panel.height = {.value_m = draft.z_m.value_or(draft.height_m.value_or(0.0)),
                    .is_absolute = draft.z_m.has_value()};
    return panel;
}

}  // namespace

void add_shade_keys(ObjectKeys<Scene>& keys) {
    static const ObjectKeys<ClothDraft> cloth = make_cloth_keys();
    static const ObjectKeys<LathDraft> laths = make_lath_keys();
    keys.objects({"cloths", "list of cloths", "Shade nets."}, cloth, {0, 500}, &Scene::cloths,
                 finished_cloth);
    keys.objects({"lath_panels", "list of lath panels", "Laths and trellis."}, laths, {0, 500},
                 &Scene::lath_panels, finished_laths);
}

}  // namespace sunfleck::scene
