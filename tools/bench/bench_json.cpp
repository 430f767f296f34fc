#include "bench_result.h"

#include <nlohmann/json.hpp>

namespace sunfleck::bench {
namespace {

using Json = nlohmann::ordered_json;

Json of(const Spread& spread) {
    return {{"median", spread.median}, {"least", spread.least}, {"most", spread.most}};
}

Json of(Vec3 v) {
    return {v.x, v.y, v.z};
}

Json of(const Agreement& agreement) {
    Json rays = Json::array();
    for (const Difference& ray : agreement.differences) {
        rays.push_back({{"spot_m", of(ray.spot)},
                        {"to_sun", of(ray.to_sun)},
                        {"share", ray.share},
                        {"expected", ray.expected},
                        {"edge_rad", ray.edge.angle_rad},
                        {"edge_distance_m", ray.edge.distance_m}});
    }
    return {{"garden", agreement.garden},
            {"contestant", agreement.contestant},
            {"rays", agreement.rays},
            {"shaded", agreement.shaded},
            {"different", agreement.different},
            {"wrong", agreement.wrong},
            {"farthest_rad", agreement.farthest_rad},
            {"differences", rays}};
}

Json of(const std::vector<Agreement>& agreements) {
    Json all = Json::array();
    for (const Agreement& one : agreements) all.push_back(of(one));
    return all;
}

Json of(const Proof& proof) {
    Json meshes = Json::array();
    for (const GardenMeshSteps& garden : proof.meshes) {
        for (const MeshStep& step : garden.steps) {
            meshes.push_back({{"garden", garden.garden},
                              {"crown_triangles", step.triangles},
                              {"mean_off_min", step.mean_off_min},
                              {"most_off_min", step.most_off_min}});
        }
    }
    Json day_light = Json::array();
    for (const DayLight& garden : proof.day_light) {
        day_light.push_back({{"garden", garden.garden},
                             {"spots", garden.spots},
                             {"mean_min", garden.mean_min},
                             {"mean_off_min", garden.mean_off_min},
                             {"most_off_min", garden.most_off_min},
                             {"wrong", garden.wrong}});
    }
    return {{"holds", proof.holds()},
            {"opaque", of(proof.opaque)},
            {"true_forms", of(proof.true_forms)},
            {"controls", of(proof.controls)},
            {"day_light", day_light},
            {"meshes", meshes},
            {"cpu_s", proof.took.cpu_s},
            {"wall_s", proof.took.wall_s}};
}

Json of(const Figure& figure) {
    return {{"contestant", figure.contestant},
            {"sees", figure.sees == Sees::all ? "all" : "opaque"},
            {"threads", figure.threads},
            {"spots_cast", figure.spots_cast},
            {"answered_spot_minutes", figure.answered},
            {"rays_per_cpu_s", of(figure.rays_per_cpu_s)},
            {"cpu_s", of(figure.cpu_s)},
            {"wall_s", of(figure.wall_s)},
            {"answer_bytes", figure.answer_bytes},
            {"light_per_spot_min", figure.light_per_spot_min}};
}

Json of(const GardenResult& garden) {
    Json heats = Json::array();
    for (const Heat& heat : garden.heats) {
        Json figures = Json::array();
        for (const Figure& figure : heat.figures) figures.push_back(of(figure));
        heats.push_back(
            {{"what", heat.what}, {"rays_per_spot", heat.rays_per_spot}, {"figures", figures}});
    }
    Json chores = Json::array();
    for (const Chore& chore : garden.chores) {
        chores.push_back({{"contestant", chore.contestant},
                          {"what", chore.what},
                          {"threads", chore.threads},
                          {"cpu_ms", of(chore.cpu_ms)},
                          {"wall_ms", of(chore.wall_ms)},
                          {"bytes", chore.bytes}});
    }
    return {{"garden", garden.name},   {"triangles", garden.triangles},
            {"pieces", garden.pieces}, {"spots", garden.spots},
            {"heats", heats},          {"chores", chores}};
}

}  // namespace

std::string json_of(const BenchResult& result) {
    Json gardens = Json::array();
    for (const GardenResult& garden : result.gardens) gardens.push_back(of(garden));
    const Json json{{"format", "sunfleck-bench"},
                    {"version", 1},
                    {"cpu", result.machine.cpu},
                    {"cores", result.machine.cores},
                    {"instructions", result.machine.instructions},
                    {"dispatched", result.simd},
                    {"compiler", result.machine.compiler},
                    {"repeats", result.repeats},
                    {"load_before", result.load_before},
                    {"load_after", result.load_after},
                    {"peak_bytes", peak_bytes()},
                    {"proof", result.proof ? of(*result.proof) : Json()},
                    {"gardens", gardens}};
    return json.dump(2) + "\n";
}

}  // namespace sunfleck::bench
