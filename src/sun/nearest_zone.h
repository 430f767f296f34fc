#pragma once

#include <span>
#include <string>
#include <string_view>

namespace sunfleck::sun {

/// The zone name that the user most likely meant: fewest changed letters, capitals and spaces
/// aside, against the whole name or its last part ("London", "europe/lodnon"). Of equals the
/// first; empty only when `names` is.
[[nodiscard]] std::string nearest_zone(std::string_view wanted, std::span<const std::string> names);

}  // namespace sunfleck::sun
