#pragma once

#include "sunfleck/base/date.h"
#include "sunfleck/base/problem.h"
#include "sunfleck/exposure/exposure.h"
#include "sunfleck/scene/scene.h"
#include "sunfleck/scene/spots.h"

#include <filesystem>
#include <optional>
#include <span>
#include <string>
#include <string_view>

/// Pictures of a garden. The same input gives the same bytes on one machine: nothing of the hour
/// of drawing is in them.
namespace sunfleck::output {

enum class PictureFormat {
    png,
    svg,  ///< with live text
};

/// The format by the ending of a file's name, ".png" or ".svg" in any case; else a problem.
[[nodiscard]] Result<PictureFormat> picture_format(const std::filesystem::path& path);

/// A picture's size in pixels.
struct PictureSize {
    int width = 0;
    int height = 0;
};
/// The size of "1600x1000", each side 320 to 8000; else a problem.
[[nodiscard]] Result<PictureSize> parse_picture_size(std::string_view text);

struct PictureOptions {
    PictureFormat format = PictureFormat::png;
    /// Text keeps its size down to 1280 px of width and grows with the picture above. Without
    /// a size: 1280 wide in SVG, drawn twice as fine in PNG, and as high as the garden asks.
    std::optional<PictureSize> size;
};

/// The garden from above on one day.
struct GardenPicture {
    const scene::Scene& scene;
    Date date;
    /// Clock time of that date for the shadows, seconds after midnight; nothing: no shadows.
    std::optional<int> shadows_at_s;
    /// Day rings: the day nearest to `date` of each receiver of kind crown; may be empty.
    std::span<const exposure::ReceiverExposure> receivers;
};

/// The computed day nearest to a date, the earlier of two; the date itself without receivers.
[[nodiscard]] Date nearest_day(std::span<const exposure::ReceiverExposure> receivers, Date date);

/// The file's bytes. Fails when the zone is unknown, a mesh cannot be read, the clock skips the
/// time of the shadows, or the picture cannot be drawn.
[[nodiscard]] Result<std::string> draw_garden(const GardenPicture& picture,
                                              const PictureOptions& options);

/// The whole year of one spot: day across, clock hour down.
struct YearPicture {
    const scene::Scene& scene;
    const scene::Spot& spot;
    /// Days of one year, ascending, not more than a week apart, the first on 1 January.
    const exposure::ReceiverExposure& receiver;
};

[[nodiscard]] Result<std::string> draw_year(const YearPicture& picture,
                                            const PictureOptions& options);

}  // namespace sunfleck::output
