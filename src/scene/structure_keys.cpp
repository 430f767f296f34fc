#include "scene/plan_outline.h"
#include "scene/scene_keys.h"

#include <algorithm>

namespace sunfleck::scene {

namespace {

void add_line(ObjectKeys<Wall>& keys, const std::string& thing) {
    keys.label(thing, &Wall::label);
    keys.points({"line_m", "line", "Points along it; closed when the last is the first again.",
                 Need::required},
                {2, 500}, &Wall::line);
    keys.number({"height_m", "height", "Of the top above the ground.", Need::required},
                {0.05, 100.0}, &Wall::height_m);
    keys.base_level(&Wall::base_z_m);
    keys.number({"albedo_fraction", "albedo", "Share of light that its face sends back."},
                {0.0, 1.0}, &Wall::albedo);
}

/// A wall's and a fence's usual thickness: one brick, one board with its rails (common practice,
/// no source).
constexpr double wall_thickness_m = 0.22;
constexpr double fence_thickness_m = 0.04;

Wall with_thickness(Wall&& wall, double usual_m) {
    if (!(wall.thickness_m > 0.0)) wall.thickness_m = usual_m;
    return std::move(wall);
}

ObjectKeys<Wall> make_wall_keys() {
    ObjectKeys<Wall> keys("wall", "A solid wall along a line.");
    add_line(keys, "wall");
    keys.number({"thickness_cm", "thickness", "22 cm, one brick, when left out."}, {0.5, 300.0},
                &Wall::thickness_m);
    keys.note();
    return keys;
}

ObjectKeys<Wall> make_fence_keys() {
    ObjectKeys<Wall> keys("fence", "A fence, hedge or screen along a line.");
    add_line(keys, "fence");
    keys.number({"thickness_cm", "thickness", "4 cm when left out."}, {0.1, 300.0},
                &Wall::thickness_m);
    keys.number({"porosity_percent", "porosity", "Share of direct sun that it lets through."},
                {0.0, 100.0}, &Wall::porosity);
    keys.note();
    return keys;
}

/// A building as its keys say it, before its outline is made.
struct BuildingDraft {
    Building building;
    Vec2 corner;
    Angle bearing;
    double length_m = 0.0;
    double depth_m = 0.0;
    std::optional<Angle> ridge_bearing;
};

void add_building_place(ObjectKeys<BuildingDraft>& keys) {
    const auto building = within(&BuildingDraft::building);
    keys.label("building", building(&Building::label));
    keys.points({"outline_m", "outline", "Corners, in place of corner, bearing, length and depth."},
                {3, 200}, building(&Building::outline));
    keys.position("the first corner", Need::optional, &BuildingDraft::corner);
    keys.bearing("bearing", "Of the side from the first corner; the building lies to its left.",
                 Need::optional, &BuildingDraft::bearing);
    keys.number({"length_m", "length of the building", "Along its bearing."}, {0.1, 500.0},
                &BuildingDraft::length_m);
    keys.number({"depth_m", "depth of the building", "Square to its bearing."}, {0.1, 500.0},
                &BuildingDraft::depth_m);
    using Kind = KeyRule::Kind;
    keys.rule({.kind = Kind::exactly_one, .keys = {"x_m", "outline_m"}});
    keys.rule({.kind = Kind::needs, .keys = {"y_m", "length_m", "depth_m"}, .when = "x_m"});
    keys.rule({.kind = Kind::needs_one,
               .keys = {"bearing_deg", "bearing_magnetic_deg", "bearing_plan_deg"},
               .when = "x_m"});
    for (const char* key : {"y_m", "length_m", "depth_m", "bearing_deg", "bearing_magnetic_deg",
                            "bearing_plan_deg"}) {
        keys.rule({.kind = Kind::excludes, .keys = {key}, .when = "outline_m"});
    }
}

void add_roof(ObjectKeys<BuildingDraft>& keys) {
    const auto building = within(&BuildingDraft::building);
    keys.number({"eaves_height_m", "height of the eaves", "Above the ground.", Need::required},
                {0.1, 500.0}, building(&Building::eaves_height_m));
    keys.base_level(building(&Building::base_z_m));
    keys.word<RoofForm>(
        {"roof", "roof", "Its form; a shed roof falls one way only."},
        {{"flat", RoofForm::flat}, {"gable", RoofForm::gable}, {"shed", RoofForm::shed}},
        building(&Building::roof));
    keys.number({"ridge_height_m", "height of the ridge", "The highest line above the ground."},
                {0.1, 500.0}, building(&Building::ridge_height_m));
    keys.bearing("ridge_bearing",
                 "Along a gable's ridge, or the high edge of a shed roof, which falls to its left; "
                 "along the first side when left out.",
                 Need::optional, &BuildingDraft::ridge_bearing);
    keys.number({"eaves_overhang_m", "overhang of the eaves", "Out from the walls."}, {0.0, 5.0},
                building(&Building::eaves_overhang_m));
    keys.number({"albedo_fraction", "albedo", "Share of light that its walls send back."},
                {0.0, 1.0}, building(&Building::albedo));
    using Kind = KeyRule::Kind;
    keys.rule({.kind = Kind::needs, .keys = {"roof"}, .when = "ridge_height_m"});
    keys.rule({.kind = Kind::needs,
               .keys = {"ridge_height_m"},
               .when = "roof",
               .words = {"gable", "shed"}});
    for (const char* key : {"ridge_height_m", "ridge_bearing_deg", "ridge_bearing_magnetic_deg",
                            "ridge_bearing_plan_deg"}) {
        keys.rule({.kind = Kind::excludes, .keys = {key}, .when = "roof", .words = {"flat"}});
    }
    keys.note();
}

ObjectKeys<BuildingDraft> make_building_keys() {
    ObjectKeys<BuildingDraft> keys("building", "A house, shed or garage.");
    add_building_place(keys);
    add_roof(keys);
    return keys;
}

Building finished_building(BuildingDraft&& draft, const Value& value, const Reading& reading) {
    Building building = std::move(draft.building);
    if (building.outline.empty()) {
        building.outline =
            rectangle(draft.corner, draft.bearing, draft.length_m, draft.depth_m, reading);
    }
    building.ridge_bearing = draft.ridge_bearing.value_or(
        bearing_between(building.outline[0], building.outline[1], reading));
    if (signed_area(building.outline) < 0.0) std::ranges::reverse(building.outline);
    const JsonNode* ridge = value->find("ridge_height_m");
    if (ridge != nullptr && building.ridge_height_m < building.eaves_height_m) {
        reading.complain({ridge, pointer_to(value.pointer, "ridge_height_m")}, "ridge_below_eaves",
                         "The ridge is below the eaves.", "Give both as heights above the ground.");
    }
    return building;
}

}  // namespace

void add_structure_keys(ObjectKeys<Scene>& keys) {
    static const ObjectKeys<Wall> wall = make_wall_keys();
    static const ObjectKeys<Wall> fence = make_fence_keys();
    static const ObjectKeys<BuildingDraft> building = make_building_keys();
    keys.objects({"walls", "list of walls", "Solid walls."}, wall, {0, 1000}, &Scene::walls,
                 [](Wall&& read, const Value&, const Reading&) {
                     return with_thickness(std::move(read), wall_thickness_m);
                 });
    keys.objects({"fences", "list of fences", "Fences, hedges and screens."}, fence, {0, 1000},
                 &Scene::walls, [](Wall&& read, const Value&, const Reading&) {
                     return with_thickness(std::move(read), fence_thickness_m);
                 });
    keys.objects({"buildings", "list of buildings", "Houses, sheds, garages."}, building, {0, 1000},
                 &Scene::buildings, finished_building);
}

}  // namespace sunfleck::scene
