#pragma once

#include "sunfleck/base/vec3.h"
#include "sunfleck/scene/scene.h"

#include <optional>
#include <string>
#include <string_view>
#include <vector>

namespace sunfleck::scene {

/// One place where a pot can stand. Its centre is on a bench's tier or a post stand's top.
///
/// A tier is cut into rows: `rows` of them, else as many as its depth holds pitches; the rows
/// share the depth evenly. Each row is cut into cells of one pitch, in the middle of the stretch
/// of row that lies inside the outline over its whole depth; what is left over is margin at both
/// ends. A stretch shorter than one pitch is one cell of its own length. Spots placed by hand take
/// the place of the cells and are numbered in the order of the file; their room reaches halfway
/// to their neighbours and no farther than the bench.
struct Spot {
    std::string id;     ///< "A-3"; a post stand's spot carries the stand's id alone
    std::string bench;  ///< id of the bench or post stand
    std::string name;   ///< "Long bench 3", "Post 2", or its own name
    int number = 1;     ///< along the bench, from 1
    int tier = 1;       ///< from 1, the lowest
    int row = 0;        ///< from the tier's front edge, from 0; cells of one row are neighbours
    int column = 0;     ///< along the row, from 0; one is left out where the row is broken
    bool is_explicit = false;          ///< placed by hand: stands alone, never shared by a wide pot
    Vec2 position;                     ///< centre, in the plan
    double top_z_m = 0.0;              ///< of the surface it stands on
    double length_m = 0.0;             ///< room along the bench
    double depth_m = 0.0;              ///< room across
    std::optional<double> headroom_m;  ///< up to the tier above, when one hangs over the spot
    std::optional<double> receiver_height_m;  ///< the user's own, above the top
    int holder = 0;  ///< index into scene.benches, or benches.size() + index of post stand
};

/// All spots: benches in scene order, numbered along each from its first corner, row by row from
/// the front edge, on through the tiers from the lowest; then the post stands.
[[nodiscard]] std::vector<Spot> spots_of(const Scene& scene);

/// Index of the spot with this id (compared after NFC); nothing when there is none.
[[nodiscard]] std::optional<std::size_t> find_spot(const std::vector<Spot>& spots,
                                                   std::string_view id);

/// A tier of a bench, or a post's top, that carries a limited load.
struct LoadLimit {
    std::string holder_id;
    int tier = 1;
    double max_load_kg = 0.0;
};
[[nodiscard]] std::vector<LoadLimit> load_limits(const Scene& scene);

}  // namespace sunfleck::scene
