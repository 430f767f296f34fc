#include "sun/nearest_zone.h"

#include "sunfleck/base/nearest_name.h"

#include <algorithm>

namespace sunfleck::sun {

std::string nearest_zone(std::string_view wanted, std::span<const std::string> names) {
    constexpr std::size_t longest_name = 64;
    std::string typed(wanted.substr(0, longest_name));
    std::replace(typed.begin(), typed.end(), ' ', '_');
    std::string nearest;
    std::size_t fewest = 0;
    for (const std::string& name : names) {
        const std::string_view last = std::string_view(name).substr(name.rfind('/') + 1);
        const std::size_t changes =
            std::min(edit_distance(typed, name), edit_distance(typed, last));
        if (nearest.empty() || changes < fewest) {
            nearest = name;
            fewest = changes;
        }
    }
    return nearest;
}

}  // namespace sunfleck::sun
