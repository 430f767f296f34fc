#include "scene/scene_keys.h"

#include "sunfleck/scene/scene_file.h"

#include <algorithm>

namespace sunfleck::scene {

namespace {

ObjectKeys<Ground> make_ground_keys() {
    ObjectKeys<Ground> keys("ground", "The ground: a plane through the plan's origin.");
    keys.number({"slope_deg", "slope", "From level.", Need::required}, {0.0, 60.0}, &Ground::slope);
    keys.bearing("downhill_bearing", "The way water runs.", Need::required,
                 &Ground::downhill_bearing);
    keys.note();
    return keys;
}

ObjectKeys<Season> make_season_keys() {
    ObjectKeys<Season> keys("season", "A season; it ends the day before the next one begins.");
    keys.text({"name", "name of the season", "As commands call it.", Need::required},
              TextForm::free, &Season::name);
    keys.text({"first", "first day", "Month and day.", Need::required}, TextForm::month_day,
              &Season::first);
    keys.note();
    return keys;
}

ObjectKeys<Lifting> make_lifting_keys() {
    ObjectKeys<Lifting> keys("lifting", "What may be carried.");
    keys.number({"people", "number of people", "Who carry together."}, {1, 50}, &Lifting::people);
    keys.number({"limit_kg", "limit", "The most that one person lifts."}, {0.5, 200.0},
                &Lifting::limit_kg);
    keys.number({"lifts", "number of lifts", "The most pots moved from one season to the next."},
                {0, 100000}, &Lifting::lifts);
    keys.note();
    return keys;
}

void add_watering_rounds(ObjectKeys<Scene>& keys) {
    keys.key({"watering_rounds", "list of watering rounds", "Clock times of the rounds."},
             {ListShape{{{TextShape{TextForm::clock}}}, 0, 24}},
             [](Scene& scene, const Value& value, const Reading&) {
                 for (const JsonNode& item : value->children) {
                     const auto digits = [&](std::size_t at) {
                         return 10 * (item.text[at] - '0') + (item.text[at + 1] - '0');
                     };
                     scene.watering_rounds.push_back({3600 * digits(0) + 60 * digits(3)});
                 }
             });
}

ObjectKeys<Scene> make_scene_keys() {
    static const ObjectKeys<Season> season = make_season_keys();
    static const ObjectKeys<Lifting> lifting = make_lifting_keys();
    ObjectKeys<Scene> keys("scene", "A garden of benches and pots, and all that shades them.");
    keys.key({"$schema", "schema", "Where an editor finds this schema."},
             {TextShape{TextForm::free}}, {});
    keys.constant({"format", "format", "Says what the file is.", Need::required}, "sunfleck-scene");
    keys.number({"version", "version", "Of the format.", Need::required},
                {oldest_scene_version, newest_scene_version}, &Scene::version);
    keys.object({"site", "site", "Where the garden is.", Need::required}, site_keys(),
                &Scene::site);
    keys.object({"ground", "ground", "Level when left out."}, ground_keys(), &Scene::ground);
    add_bench_keys(keys);
    add_structure_keys(keys);
    add_shade_keys(keys);
    add_tree_keys(keys);
    add_mesh_keys(keys);
    add_pot_keys(keys);
    keys.objects({"seasons", "list of seasons", "The owner's own, in place of the hemisphere's."},
                 season, {1, 24}, &Scene::seasons);
    keys.number_map({"harm_weights", "weight", "The owner's own weights of harm, by name."},
                    {0.0, 1000.0}, &Scene::harm_weights);
    add_watering_rounds(keys);
    keys.object({"lifting", "lifting", "What may be carried."}, lifting, &Scene::lifting);
    keys.note();
    return keys;
}

}  // namespace

const ObjectKeys<Ground>& ground_keys() {
    static const ObjectKeys<Ground> keys = make_ground_keys();
    return keys;
}

const ObjectKeys<Scene>& scene_keys() {
    static const ObjectKeys<Scene> keys = make_scene_keys();
    return keys;
}

Angle bearing_between(Vec2 from, Vec2 to, const Reading& reading) {
    const Vec2 way = to - from;
    const double degrees =
        (Angle::radians(std::atan2(way.x, way.y)) + reading.plan_up_bearing).in_degrees();
    const double turned = std::fmod(degrees, 360.0);
    return Angle::degrees(turned < 0.0 ? turned + 360.0 : turned);
}

std::vector<Vec2> rectangle(Vec2 corner, Angle bearing, double length_m, double depth_m,
                            const Reading& reading) {
    const Vec2 along = reading.frame->plan_direction(bearing);
    const Vec2 left{-along.y, along.x};
    const Vec2 end = corner + length_m * along;
    return {corner, end, end + depth_m * left, corner + depth_m * left};
}

}  // namespace sunfleck::scene
