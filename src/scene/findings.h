#pragma once

#include "sunfleck/base/problem.h"
#include "sunfleck/scene/bench_frame.h"
#include "sunfleck/scene/footprint.h"
#include "sunfleck/scene/scene.h"
#include "sunfleck/scene/spots.h"

#include <string>
#include <vector>

/// What the parts of check_meaning share.
namespace sunfleck::scene {

/// Collects what is wrong with a scene.
class Findings {
  public:
    struct Words {
        std::string code;
        std::string pointer;
        std::string message;
        std::string mend;
        std::string nearest;
    };
    void error(Words words) { add(Severity::error, std::move(words)); }
    void warning(Words words) { add(Severity::warning, std::move(words)); }
    [[nodiscard]] Problems take() { return std::move(problems_); }

  private:
    void add(Severity severity, Words words);
    Problems problems_;
};

/// "Long bench (A)", or the id alone when the thing has no other name.
[[nodiscard]] std::string called(const Label& label);

/// The cell of a spot as an outline in the plan, counter-clockwise.
[[nodiscard]] std::vector<Vec2> cell_outline(const Scene& scene, const PlanFrame& frame,
                                             const Spot& spot);

/// The bench or stand that holds a spot.
[[nodiscard]] const Label& holder_label(const Scene& scene, const Spot& spot);

/// The spot of that id, or the nearest by its number on the bench, or by its letters.
[[nodiscard]] std::string nearest_spot(const std::vector<Spot>& spots, std::string_view id);

/// A garden with what is computed from it once for all checks. Pots are completed.
struct CheckedGarden {
    explicit CheckedGarden(const Scene& given);
    Scene scene;
    PlanFrame frame;
    std::vector<Spot> spots;
    std::vector<std::vector<Vec2>> cells;  ///< outline of each spot
};

// The checks, each over one part of the scene; those of a plain scene need no spots.
void check_site(const Scene& scene, Findings& findings);
void check_labels(const Scene& scene, Findings& findings);
void check_benches(const Scene& scene, Findings& findings);
void check_shade(const Scene& scene, Findings& findings);
void check_trees(const Scene& scene, Findings& findings);
void check_seasons(const Scene& scene, Findings& findings);
void check_room(const CheckedGarden& garden, Findings& findings);
void check_pots(const CheckedGarden& garden, Findings& findings);
/// Sizes as the owner gave them against the completed ones.
void check_pot_sizes(const Scene& given, const CheckedGarden& garden, Findings& findings);
void check_places(const CheckedGarden& garden, Findings& findings);

}  // namespace sunfleck::scene
