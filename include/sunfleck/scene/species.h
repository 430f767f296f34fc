#pragma once

#include "sunfleck/scene/scene.h"

#include <string>
#include <string_view>
#include <vector>

namespace sunfleck::scene {

/// A kind of tree and what it wants in a small pot, from the table src/scene/species.csv. The
/// figures are a start: each row there says where each column comes from, and the owner's own
/// experience overrides them pot by pot.
struct Species {
    std::string common_name;
    std::string botanical_name;
    std::string light_class;  ///< "full sun", "full sun to part shade", "part shade", ...
    /// Hours of direct sun: fewest in growth that keep it compact, most on a hot clear day in a
    /// pot under 1 l (16: all day). Common practice, no source; so is the risk of scorch.
    Wants wants;
    int hardiness_zone_low = 0;  ///< USDA zones of the tree in the ground
    int hardiness_zone_high = 0;
    std::string leaf_habit;
    std::string hours_source;
    std::string tolerance_source;  ///< of drought and shade tolerance
    std::string scorch_source;
    std::string zone_source;
    std::string shelter_source;
    std::string notes;
};

/// All of the table, in its order.
[[nodiscard]] const std::vector<Species>& species_table();

/// The species of that common or botanical name; capitals and extra blanks don't matter. A
/// cultivar or variety after the botanical name is passed over ("Acer palmatum 'Deshojo'"), and a
/// genus listed as a whole holds all its species ("Malus halliana" is "Malus spp."). Null when the
/// table has none.
[[nodiscard]] const Species* find_species(std::string_view name);

/// The nearest name of the table, in the kind of name that is nearest; empty when none is near.
[[nodiscard]] std::string nearest_species(std::string_view name);

/// The common names of those that share a word of the name: all maples of "maple", and of "Acer".
[[nodiscard]] std::vector<std::string> kindred_species(std::string_view name);

}  // namespace sunfleck::scene
