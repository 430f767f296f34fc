#include "bench_result.h"

#include <algorithm>
#include <array>
#include <cstdarg>
#include <cstdio>

namespace sunfleck::bench {
namespace {

constexpr std::size_t shown_rays = 5;

/// printf into a string; every line of a report is shorter than the buffer.
[[gnu::format(printf, 1, 2)]] std::string line(const char* format, ...) {
    std::array<char, 400> text{};
    va_list arguments;
    va_start(arguments, format);
    std::vsnprintf(text.data(), text.size(), format, arguments);
    va_end(arguments);
    return std::string(text.data()) + "\n";
}

/// 5364700 as "5,364,700".
std::string grouped(std::size_t number) {
    std::string digits = std::to_string(number);
    for (std::size_t at = digits.size(); at > 3; at -= 3) digits.insert(at - 3, ",");
    return digits;
}

std::string of_agreements(const std::vector<Agreement>& agreements) {
    std::string text = line("%-10s %-26s %12s %6s %6s %5s %9s", "garden", "contestant", "rays",
                            "shaded", "differ", "wrong", "edge rad");
    for (const Agreement& one : agreements) {
        const double shaded = 100.0 * static_cast<double>(one.shaded) /
                              static_cast<double>(one.rays > 0 ? one.rays : 1);
        text += line("%-10s %-26s %12s %5.1f%% %6zu %5zu %9s", one.garden.c_str(),
                     one.contestant.c_str(), grouped(one.rays).c_str(), shaded, one.different,
                     one.wrong,
                     one.different > 0 ? line("%.1e", one.farthest_rad).substr(0, 7).c_str() : "-");
    }
    return text;
}

std::string of_wrong_rays(const std::vector<Agreement>& agreements) {
    std::string text;
    for (const Agreement& one : agreements) {
        if (one.wrong == 0) continue;
        for (std::size_t i = 0; i < std::min(shown_rays, one.differences.size()); ++i) {
            const Difference& ray = one.differences[i];
            text += line("  %s, %s: from %.9g %.9g %.9g", one.garden.c_str(),
                         one.contestant.c_str(), ray.spot.x, ray.spot.y, ray.spot.z);
            text += line("    to %.9g %.9g %.9g: %.6g, not %.6g, edge at %.2e", ray.to_sun.x,
                         ray.to_sun.y, ray.to_sun.z, ray.share, ray.expected, ray.edge.angle_rad);
        }
    }
    return text.empty() ? text : "\nRays told otherwise, where some are wrong:\n" + text;
}

std::string of_meshes(const std::vector<GardenMeshSteps>& meshes) {
    std::string text = line("%-10s %22s %22s %22s", "garden", "triangles of a crown",
                            "mean off, min a day", "most off, min a day");
    for (const GardenMeshSteps& garden : meshes) {
        for (const MeshStep& step : garden.steps) {
            text += line("%-10s %22d %22.4f %22.4f", garden.garden.c_str(), step.triangles,
                         step.mean_off_min, step.most_off_min);
        }
    }
    return text;
}

std::string of_day_light(const std::vector<DayLight>& gardens) {
    std::string text = line("%-10s %8s %18s %18s %18s", "garden", "spots", "effective min",
                            "mean off, min", "most off, min");
    for (const DayLight& garden : gardens) {
        text += line("%-10s %8zu %18.2f %18.4f %18.4f%s", garden.garden.c_str(), garden.spots,
                     garden.mean_min, garden.mean_off_min, garden.most_off_min,
                     garden.wrong > 0 ? "  WRONG" : "");
    }
    return text;
}

std::string of_proof(const Proof& proof) {
    std::string text = "Opaque solids: rays told otherwise than by CGAL EPICK\n";
    text += of_agreements(proof.opaque);
    text += "\nNets and true crowns: rays told otherwise than by geometry::pass\n";
    text += of_agreements(proof.true_forms);
    text += of_wrong_rays(proof.opaque) + of_wrong_rays(proof.true_forms);
    text += "\nControls: one thing 2 mm beside its place, so some rays must be wrong\n";
    text += of_agreements(proof.controls);
    text += "\nEffective light of 21 June against geometry::pass every 1/32 minute\n";
    text += of_day_light(proof.day_light);
    text += "\nCrowns as meshes (Embree all-hit) against true crowns\n" + of_meshes(proof.meshes);
    text +=
        line("\n%s  (%.1f s of CPU, %.1f s)", proof.holds() ? "All agree." : "THEY DO NOT AGREE.",
             proof.took.cpu_s, proof.took.wall_s);
    return text;
}

std::string of_figure(const Figure& figure) {
    const Spread& rate = figure.rays_per_cpu_s;
    return line("%-26s %d %6s %8.2f %8.2f %8.2f %9.4g %8.4g", figure.contestant.c_str(),
                figure.threads, grouped(figure.spots_cast).c_str(), 1e-6 * rate.median,
                1e-6 * rate.least, 1e-6 * rate.most, figure.cpu_s.median, figure.wall_s.median);
}

std::string of_heat(const GardenResult& garden, const Heat& heat) {
    std::string text =
        line("\nGarden %s, %s: %s rays a spot, %s spot-minutes for each contestant",
             garden.name.c_str(), heat.what.c_str(), grouped(heat.rays_per_spot).c_str(),
             grouped(heat.rays_per_spot * garden.spots).c_str());
    text += line("%-26s %s %6s %26s %18s", "", "", "", "million rays a CPU second", "all spots, s");
    text += line("%-26s %s %6s %8s %8s %8s %9s %8s", "contestant", "t", "spots", "median", "least",
                 "most", "CPU", "wall");
    for (const Figure& figure : heat.figures) text += of_figure(figure);
    return text;
}

std::string of_chores(const GardenResult& garden) {
    std::string text =
        line("\nGarden %s, from beginning to end, for all spots", garden.name.c_str());
    text += line("%-26s %-9s %s %9s %9s %9s %9s", "contestant", "what", "t", "CPU ms", "least",
                 "wall ms", "MB kept");
    for (const Chore& chore : garden.chores) {
        text += line("%-26s %-9s %d %9.4g %9.4g %9.4g %9.2f", chore.contestant.c_str(),
                     chore.what.c_str(), chore.threads, chore.cpu_ms.median, chore.cpu_ms.least,
                     chore.wall_ms.median, 1e-6 * static_cast<double>(chore.bytes));
    }
    return text;
}

}  // namespace

std::string text_of(const BenchResult& result) {
    const Machine& machine = result.machine;
    std::string text = line("CPU       %s, %d cores, has %s", machine.cpu.c_str(), machine.cores,
                            machine.instructions.c_str());
    text += line("Built     %s; competitors -O3 -march=native", machine.compiler.c_str());
    text += line("Product   as shipped, dispatched to %s", result.simd.c_str());
    text += line("Load      %.2f before, %.2f after; peak memory %.0f MB\n", result.load_before,
                 result.load_after, 1e-6 * static_cast<double>(peak_bytes()));
    text += result.proof ? of_proof(*result.proof) : "Agreement was not asked for.\n";
    for (const GardenResult& garden : result.gardens) {
        text += line("\nGarden %s: %s triangles, %s pieces, %s spots; %d repeats",
                     garden.name.c_str(), grouped(garden.triangles).c_str(),
                     grouped(garden.pieces).c_str(), grouped(garden.spots).c_str(), result.repeats);
        for (const Heat& heat : garden.heats) text += of_heat(garden, heat);
        text += of_chores(garden);
    }
    return text;
}

}  // namespace sunfleck::bench
