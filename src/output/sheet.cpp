#include "output/sheet.h"

#include "sunfleck/base/require.h"

#include <algorithm>
#include <charconv>
#include <new>

namespace sunfleck::output {

namespace {

constexpr double usual_width = 1280.0;
constexpr double usual_png_scale = 2.0;
constexpr int least_side = 320;
constexpr int most_side = 8000;

std::optional<int> side_of(std::string_view text) {
    int value = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), value);
    const bool is_whole = error == std::errc() && end == text.data() + text.size();
    if (!is_whole || value < least_side || value > most_side) return {};
    return value;
}

}  // namespace

Result<PictureFormat> picture_format(const std::filesystem::path& path) {
    std::string ending = path.extension().string();
    std::transform(ending.begin(), ending.end(), ending.begin(), [](char letter) {
        return letter >= 'A' && letter <= 'Z' ? static_cast<char>(letter - 'A' + 'a') : letter;
    });
    if (ending == ".png") return PictureFormat::png;
    if (ending == ".svg") return PictureFormat::svg;
    return failure({.kind = ProblemKind::usage,
                    .code = "unknown_picture_format",
                    .file = path.string(),
                    .message = ending.empty() ? "The picture's name has no ending."
                                              : "No picture is written as " + ending + ".",
                    .mend = "End the name in .png or .svg."});
}

Result<PictureSize> parse_picture_size(std::string_view text) {
    const std::size_t cross = text.find('x');
    const auto width = side_of(text.substr(0, cross));
    const auto height =
        cross == std::string_view::npos ? std::nullopt : side_of(text.substr(cross + 1));
    if (width && height) return PictureSize{*width, *height};
    return failure({.kind = ProblemKind::usage,
                    .code = "picture_size_out_of_range",
                    .message = "\"" + std::string(text) + "\" is no picture size.",
                    .mend = "Give width and height in pixels, 320 to 8000 each, as 1600x1000."});
}

SheetFormat sheet_format(const PictureOptions& options,
                         const std::function<double(double)>& natural_height) {
    if (!options.size) {
        const double scale = options.format == PictureFormat::png ? usual_png_scale : 1.0;
        // Whole device pixels, so that no edge of the sheet is left half covered.
        return {{usual_width, std::round(natural_height(usual_width))}, scale};
    }
    const auto& [width, height] = *options.size;
    const double scale = std::max(1.0, width / usual_width);
    return {{width / scale, height / scale}, scale};
}

Result<std::string> drawn_sheet(const SheetFormat& sheet, PictureFormat format,
                                std::string_view title, const std::function<void(Canvas&)>& draw) {
    try {
        const auto canvas = format == PictureFormat::png
                                ? raster_canvas(sheet.size, sheet.scale)
                                : svg_canvas(sheet.size, sheet.scale, title);
        draw(*canvas);
        return canvas->finish();
    } catch (const std::bad_alloc&) {
        return failure({.kind = ProblemKind::file,
                        .code = "picture_not_drawn",
                        .message = "There is not enough memory for the picture.",
                        .mend = "Ask for a smaller size."});
    }
}

}  // namespace sunfleck::output
