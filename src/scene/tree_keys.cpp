#include "scene/scene_keys.h"

namespace sunfleck::scene {

namespace {

void add_crown(ObjectKeys<Tree>& keys) {
    keys.number({"crown_base_m", "crown base", "Of the crown above the ground.", Need::required},
                {0.0, 100.0}, &Tree::crown_base_m);
    keys.number(
        {"crown_width_m", "crown width", "Across its crown, along crown_bearing.", Need::required},
        {0.1, 60.0}, &Tree::crown_width_m);
    keys.number({"crown_width_across_m", "crown width across",
                 "Square to crown_bearing; equal to crown_width_m when left out."},
                {0.1, 60.0}, &Tree::crown_width_across_m);
    keys.bearing("crown_bearing", "Of the crown's first width.", Need::optional,
                 &Tree::crown_bearing);
    keys.word<CrownForm>({"crown_form", "crown form", "Its shape."},
                         {{"ellipsoid", CrownForm::ellipsoid},
                          {"cone", CrownForm::cone},
                          {"dome", CrownForm::dome},
                          {"column", CrownForm::column}},
                         &Tree::crown_form);
}

void add_leaves(ObjectKeys<Tree>& keys) {
    keys.word<LeafHabit>({"leaf_habit", "leaf habit", "Whether it is bare in winter."},
                         {{"deciduous", LeafHabit::deciduous},
                          {"semi_evergreen", LeafHabit::semi_evergreen},
                          {"evergreen", LeafHabit::evergreen}},
                         &Tree::leaf_habit);
    keys.text({"leaf_out", "leaf-out", "The middle of the 21 days in which its leaves open."},
              TextForm::month_day, &Tree::leaf_out);
    keys.text({"leaf_fall", "leaf fall", "The middle of the 21 days in which its leaves fall."},
              TextForm::month_day, &Tree::leaf_fall);
    keys.number({"transmission_in_leaf_percent", "transmission in leaf",
                 "Direct light through one crown diameter."},
                {0.0, 100.0}, &Tree::transmission_in_leaf);
    keys.number({"transmission_bare_percent", "transmission when bare",
                 "Direct light through one crown diameter."},
                {0.0, 100.0}, &Tree::transmission_bare);
}

ObjectKeys<Tree> make_tree_keys() {
    ObjectKeys<Tree> keys("tree", "A tree in the ground that throws shade.");
    keys.label("tree", &Tree::label);
    keys.position("the trunk", Need::required, &Tree::position);
    keys.base_level(&Tree::base_z_m);
    keys.number({"height_m", "height of the tree", "Above the ground.", Need::required},
                {0.2, 120.0}, &Tree::height_m);
    add_crown(keys);
    add_leaves(keys);
    keys.number(
        {"trunk_diameter_cm", "diameter of the trunk", "A fortieth of the height when left out."},
        {0.5, 500.0}, &Tree::trunk_diameter_m);
    keys.note();
    return keys;
}

Tree finished_tree(Tree&& tree, const Value&, const Reading&) {
    if (!(tree.crown_width_across_m > 0.0)) tree.crown_width_across_m = tree.crown_width_m;
    // Common practice, no source: a 9 m street tree has a trunk of about 22 cm.
    constexpr double height_per_trunk = 40.0;
    if (!(tree.trunk_diameter_m > 0.0)) tree.trunk_diameter_m = tree.height_m / height_per_trunk;
    return std::move(tree);
}

}  // namespace

void add_tree_keys(ObjectKeys<Scene>& keys) {
    static const ObjectKeys<Tree> tree = make_tree_keys();
    keys.objects({"trees", "list of trees", "Trees in the ground."}, tree, {0, 1000}, &Scene::trees,
                 finished_tree);
}

}  // namespace sunfleck::scene
