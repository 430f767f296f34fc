#pragma once

#include "agreement.h"
#include "day_light.h"
#include "machine.h"
#include "race.h"

#include <cstddef>
#include <optional>
#include <string>
#include <vector>

namespace sunfleck::bench {

struct GardenMeshSteps {
    std::string garden;
    std::vector<MeshStep> steps;
};

/// Everything that was proved.
struct Proof {
    std::vector<Agreement> opaque;
    std::vector<Agreement> true_forms;
    /// That the proof can fail: the same in a garden of which one bench, and then a tree's crown,
    /// was moved by 2 mm.
    std::vector<Agreement> controls;
    std::vector<DayLight> day_light;
    std::vector<GardenMeshSteps> meshes;
    Span took;

    /// No ray or day is wrong, some were compared, wrong rays were found in each control, and each
    /// halving of the crowns' meshes brings them at least 2.5 times nearer to the true crowns (4
    /// in the limit).
    [[nodiscard]] bool holds() const;
};

/// The figures of one table of rays: a day or a year.
struct Heat {
    std::string what;
    std::size_t rays_per_spot = 0;
    std::vector<Figure> figures;
};

struct GardenResult {
    std::string name;
    std::size_t triangles = 0;
    std::size_t pieces = 0;
    std::size_t spots = 0;
    std::vector<Heat> heats;
    std::vector<Chore> chores;
};

struct BenchResult {
    Machine machine;
    std::string simd;  ///< what the product dispatches to
    int repeats = 0;
    double load_before = 0.0;
    double load_after = 0.0;
    std::optional<Proof> proof;  ///< nothing when it was left out
    std::vector<GardenResult> gardens;
};

/// Tables of 80 columns.
[[nodiscard]] std::string text_of(const BenchResult& result);
/// One JSON object.
[[nodiscard]] std::string json_of(const BenchResult& result);

}  // namespace sunfleck::bench
