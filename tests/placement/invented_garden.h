#pragma once

#include "sunfleck/exposure/exposure.h"
#include "sunfleck/placement/harm_table.h"
#include "sunfleck/scene/scene.h"
#include "sunfleck/scene/spots.h"

#include <array>
#include <cstdint>
#include <functional>
#include <string>
#include <vector>

/// Gardens made up in memory, whose sun is stated rather than traced.
namespace sunfleck::placement_test {

/// Direct sun at a spot by solar hour of the day: 1 full, 0 shade, between them filtered.
using SunPattern = std::array<double, 24>;

[[nodiscard]] SunPattern open_sun();
[[nodiscard]] SunPattern no_sun();
/// `share` from solar `from_h` up to `to_h`, elsewhere as `rest`.
[[nodiscard]] SunPattern with_share(SunPattern rest, int from_h, int to_h, double share);

/// Made by hand so that one seed gives one garden with every library.
class Dice {
  public:
    explicit Dice(std::uint64_t seed) : state_(seed * 2654435761U + 12345U) {}
    [[nodiscard]] double between(double low, double high);
    [[nodiscard]] int whole(int low, int high);  ///< both included

  private:
    std::uint64_t state_;
};

struct InventedGarden {
    scene::Scene scene;
    std::vector<scene::Spot> spots;
    std::vector<SunPattern> summer;  ///< by spot
    std::vector<SunPattern> autumn;  ///< by spot; used from September on
    int day_step = 7;                ///< every so many days are computed

    InventedGarden();
    std::size_t add_spot(const SunPattern& pattern);
    std::size_t add_spot(const SunPattern& summer_pattern, const SunPattern& autumn_pattern);
    scene::Pot& add_pot(const std::string& id, const std::string& spot = "");

    [[nodiscard]] exposure::ExposureTable exposure_of(scene::DateRange dates) const;
    [[nodiscard]] placement::HarmTable table(const std::string& season,
                                             const placement::Standing* standing = nullptr) const;
};

[[nodiscard]] scene::DateRange dates_of(const std::string& season);

/// A thin-leaved tree in a small pot, and a hardy one in a large.
void make_small_maple(scene::Pot& pot);
void make_large_pine(scene::Pot& pot);

/// Spots and pots at random, most with places, a few pinned, excluded or heavy.
[[nodiscard]] InventedGarden random_garden(std::uint64_t seed, int pot_count, int spot_count);

}  // namespace sunfleck::placement_test
