#include "scene/plan_outline.h"
#include "scene/scene_keys.h"

#include <algorithm>

namespace sunfleck::scene {

namespace {

constexpr Range load_range{0.5, 5000.0};
constexpr Range receiver_range{0.0, 3.0};
constexpr Range top_range{0.0, 3.0};

/// A bench as its keys say it, before its outline and tiers are made.
struct BenchDraft {
    Bench bench;
    Vec2 corner;
    std::optional<double> height_m;
    std::optional<double> max_load_kg;
};

ObjectKeys<Tier> make_tier_keys() {
    ObjectKeys<Tier> keys("tier", "One level of a bench.");
    keys.number({"height_m", "height of the tier", "Of its top above the ground.", Need::required},
                top_range, &Tier::height_m);
    keys.number({"set_back_m", "set-back of the tier",
                 "From the bench's front edge to the tier's front edge."},
                {0.0, 20.0}, &Tier::set_back_m);
    keys.number({"depth_m", "depth of the tier", "Front to back.", Need::required}, {0.05, 20.0},
                &Tier::depth_m);
    keys.number({"max_load_kg", "load of the tier", "The most it may carry."}, load_range,
                &Tier::max_load_kg);
    keys.flag({"closed_riser", "riser",
               "Whether a board closes the front from this tier down to the next."},
              &Tier::closed_riser);
    keys.note();
    return keys;
}

ObjectKeys<ExplicitSpot> make_spot_keys() {
    ObjectKeys<ExplicitSpot> keys("spot", "A spot placed by hand.");
    keys.number({"along_m", "distance along the bench", "From the first corner to the centre.",
                 Need::required},
                {0.0, 60.0}, &ExplicitSpot::along_m);
    keys.number({"from_front_m", "distance from the front", "From the front edge to the centre.",
                 Need::required},
                {0.0, 20.0}, &ExplicitSpot::from_front_m);
    keys.number({"tier", "tier", "Counted from 1, the lowest."}, {1, 10}, &ExplicitSpot::tier);
    keys.text({"name", "name", "What the spot is called."}, TextForm::free, &ExplicitSpot::name);
    keys.number(
        {"receiver_height_m", "receiver height", "Of the point whose sun is asked, above the top."},
        receiver_range, &ExplicitSpot::receiver_height_m);
    keys.note();
    return keys;
}

void add_bench_place(ObjectKeys<BenchDraft>& keys) {
    const auto bench = within(&BenchDraft::bench);
    keys.label("bench", bench(&Bench::label));
    keys.position("the first corner", Need::optional, &BenchDraft::corner);
    keys.bearing("bearing",
                 "Of the front edge, from the first corner on; the bench lies to its left.",
                 Need::optional, bench(&Bench::bearing));
    keys.number({"length_m", "length of the bench", "Of the front edge."}, {0.1, 60.0},
                bench(&Bench::length_m));
    keys.number({"depth_m", "depth of the bench", "Front to back over all tiers."}, {0.05, 20.0},
                bench(&Bench::depth_m));
    keys.points({"outline_m", "outline",
                 "Corners counter-clockwise, in place of corner, bearing, length and depth; the "
                 "first two are the front edge."},
                {3, 100}, bench(&Bench::outline));
    using Kind = KeyRule::Kind;
    const std::vector<std::string> bearings{"bearing_deg", "bearing_magnetic_deg",
                                            "bearing_plan_deg"};
    keys.rule({.kind = Kind::exactly_one, .keys = {"x_m", "outline_m"}});
    keys.rule({.kind = Kind::needs, .keys = {"y_m", "length_m", "depth_m"}, .when = "x_m"});
    keys.rule({.kind = Kind::needs_one, .keys = bearings, .when = "x_m"});
    for (const char* key : {"y_m", "length_m", "depth_m", "bearing_deg", "bearing_magnetic_deg",
                            "bearing_plan_deg"}) {
        keys.rule({.kind = Kind::excludes, .keys = {key}, .when = "outline_m"});
    }
}

void add_bench_tops(ObjectKeys<BenchDraft>& keys) {
    static const ObjectKeys<Tier> tier = make_tier_keys();
    const auto bench = within(&BenchDraft::bench);
    keys.number({"height_m", "height of the top", "Above the ground under the first corner."},
                top_range, &BenchDraft::height_m);
    keys.number({"max_load_kg", "load of the bench", "The most it may carry."}, load_range,
                &BenchDraft::max_load_kg);
    keys.objects({"tiers", "list of tiers", "The levels of a stepped bench, in place of height."},
                 tier, {1, 10}, bench(&Bench::tiers));
    keys.rule({.kind = KeyRule::Kind::exactly_one, .keys = {"height_m", "tiers"}});
    keys.rule({.kind = KeyRule::Kind::at_most_one, .keys = {"max_load_kg", "tiers"}});
    keys.base_level(bench(&Bench::base_z_m));
    keys.number({"thickness_cm", "thickness of the top", "Of the boards."}, {0.2, 50.0},
                bench(&Bench::thickness_m));
    keys.number({"board_width_cm", "width of the boards", "Of a slatted top; closed without it."},
                {0.5, 100.0}, bench(&Bench::board_width_m));
    keys.number({"board_gap_cm", "gap between the boards", "Of a slatted top."}, {0.1, 50.0},
                bench(&Bench::board_gap_m));
    keys.rule({.kind = KeyRule::Kind::needs, .keys = {"board_gap_cm"}, .when = "board_width_cm"});
    keys.rule({.kind = KeyRule::Kind::needs, .keys = {"board_width_cm"}, .when = "board_gap_cm"});
    keys.flag({"legs", "legs", "Whether it stands on legs, which throw thin shadows."},
              bench(&Bench::has_legs));
}

void add_bench_spots(ObjectKeys<BenchDraft>& keys) {
    static const ObjectKeys<ExplicitSpot> spot = make_spot_keys();
    const auto bench = within(&BenchDraft::bench);
    keys.number({"spot_pitch_m", "spot pitch", "From one spot's centre to the next."}, {0.05, 5.0},
                bench(&Bench::spot_pitch_m));
    keys.number({"rows", "number of rows", "Of spots on each tier; else as the pitch allows."},
                {1, 50}, bench(&Bench::rows));
    keys.objects({"spots", "list of spots", "Spots placed by hand, in place of pitch and rows."},
                 spot, {1, 1000}, bench(&Bench::explicit_spots));
    keys.rule({.kind = KeyRule::Kind::excludes, .keys = {"spot_pitch_m"}, .when = "spots"});
    keys.rule({.kind = KeyRule::Kind::excludes, .keys = {"rows"}, .when = "spots"});
    keys.number({"receiver_height_m", "receiver height",
                 "Of the points whose sun is asked, above the top."},
                receiver_range, bench(&Bench::receiver_height_m));
    keys.note();
}

ObjectKeys<BenchDraft> make_bench_keys() {
    ObjectKeys<BenchDraft> keys("bench", "A bench; its front edge runs from its first corner.");
    add_bench_place(keys);
    add_bench_tops(keys);
    add_bench_spots(keys);
    return keys;
}

/// How far the bench reaches back from its front edge.
double reach_back_m(const std::vector<Vec2>& outline) {
    const Vec2 edge = outline[1] - outline[0];
    const double edge_m = length(edge);
    double reach_m = 0.0;
    for (const Vec2 corner : outline) {
        reach_m = std::max(reach_m, cross(edge, corner - outline[0]) / edge_m);
    }
    return reach_m;
}

/// Gives a bench drawn as an outline its front edge.
void take_front_edge(Bench& bench, const Value& value, const Reading& reading) {
    bench.is_rectangle = false;
    const double front_m = length(bench.outline[1] - bench.outline[0]);
    const Value outline{value->find("outline_m"), pointer_to(value.pointer, "outline_m")};
    if (!(front_m > 0.0)) {
        reading.complain(outline, "outline_front", "The front edge has no length.",
                         "Let the first two corners be the ends of the front edge.");
        return;
    }
    if (signed_area(bench.outline) < 0.0) {
        reading.complain(outline, "outline_clockwise", "The corners run clockwise.",
                         "List them counter-clockwise, front edge first: the bench lies to its "
                         "left.");
        return;
    }
    bench.bearing = bearing_between(bench.outline[0], bench.outline[1], reading);
    bench.length_m = front_m;
    bench.depth_m = reach_back_m(bench.outline);
}

Bench finished_bench(BenchDraft&& draft, const Value& value, const Reading& reading) {
    Bench bench = std::move(draft.bench);
    if (bench.outline.empty()) {
        bench.outline =
            rectangle(draft.corner, bench.bearing, bench.length_m, bench.depth_m, reading);
    } else {
        take_front_edge(bench, value, reading);
    }
    if (draft.height_m) {
        bench.tiers.push_back({.height_m = *draft.height_m,
                               .depth_m = bench.depth_m,
                               .max_load_kg = draft.max_load_kg});
    }
    std::ranges::stable_sort(bench.tiers, {}, &Tier::height_m);
    return bench;
}

ObjectKeys<PostStand> make_post_stand_keys() {
    ObjectKeys<PostStand> keys("post stand", "One top on one post, for one pot.");
    keys.label("stand", &PostStand::label);
    keys.position("the post", Need::required, &PostStand::position);
    keys.bearing("bearing", "Of one side of the top.", Need::optional, &PostStand::bearing);
    keys.number({"height_m", "height of the top", "Above the ground."}, {0.05, 3.0},
                &PostStand::height_m);
    keys.base_level(&PostStand::base_z_m);
    keys.number({"top_side_cm", "side of the top", "The top is square."}, {5.0, 200.0},
                &PostStand::top_side_m);
    keys.number({"top_thickness_cm", "thickness of the top", "Of the board."}, {0.2, 50.0},
                &PostStand::top_thickness_m);
    keys.number({"post_width_cm", "width of the post", "The post is square."}, {1.0, 100.0},
                &PostStand::post_width_m);
    keys.number({"max_load_kg", "load of the stand", "The most it may carry."}, load_range,
                &PostStand::max_load_kg);
    keys.number(
        {"receiver_height_m", "receiver height", "Of the point whose sun is asked, above the top."},
        receiver_range, &PostStand::receiver_height_m);
    keys.note();
    return keys;
}

}  // namespace

void add_bench_keys(ObjectKeys<Scene>& keys) {
    static const ObjectKeys<BenchDraft> bench = make_bench_keys();
    static const ObjectKeys<PostStand> post_stand = make_post_stand_keys();
    keys.objects({"benches", "list of benches", "Where the pots stand."}, bench, {0, 1000},
                 &Scene::benches, finished_bench);
    keys.objects({"post_stands", "list of post stands", "Each for one pot."}, post_stand, {0, 1000},
                 &Scene::post_stands);
}

}  // namespace sunfleck::scene
