#pragma once

#include <cstdint>

/// The colours of the pictures. Shape comes first everywhere; colour only helps.
namespace sunfleck::output {

/// An sRGB colour and how much it covers, 0 to 1.
struct Colour {
    std::uint8_t red = 0;
    std::uint8_t green = 0;
    std::uint8_t blue = 0;
    double opacity = 1.0;
    bool operator==(const Colour&) const = default;
    [[nodiscard]] constexpr Colour at_opacity(double share) const {
        return {red, green, blue, share};
    }
};

/// The colour 0xRRGGBB.
[[nodiscard]] constexpr Colour rgb(std::uint32_t hex) {
    return {static_cast<std::uint8_t>(hex >> 16U), static_cast<std::uint8_t>((hex >> 8U) & 0xFFU),
            static_cast<std::uint8_t>(hex & 0xFFU)};
}

/// Every colour by what it means.
struct Palette {
    Colour ground;      ///< behind the garden
    Colour page;        ///< slips, discs, labels
    Colour tray;        ///< recesses, pot labels
    Colour ink;         ///< text and lines
    Colour soft_ink;    ///< second text
    Colour edge;        ///< borders
    Colour rule;        ///< quiet lines
    Colour moss;        ///< moves and gains
    Colour berry;       ///< "this one", and nothing else
    Colour clay;        ///< caution, the hot hours
    Colour water;       ///< drying out
    Colour sun;         ///< full sun
    Colour sun_edge;    ///< its edge, and the bars of filtered sun
    Colour filtered;    ///< between the bars
    Colour shade;       ///< shade
    Colour shade_edge;  ///< its edge
    Colour night;       ///< night on the year sheet
    Colour night_dot;   ///< its dots
    Colour grass;       ///< the ground of the plan
    Colour wood;        ///< benches, fences
    Colour wood_line;   ///< their boards and edges
    Colour leaf;        ///< crowns
    Colour leaf_line;   ///< their outline
    Colour wall;        ///< buildings and walls
    Colour wall_line;   ///< their edges
    Colour shadow;      ///< cast shadows
    Colour sky_top;     ///< the sky band, high
    Colour sky_low;     ///< and low
    Colour moss_tint;   ///< boxes
    Colour clay_tint;
    double shadow_opacity = 0.3;
    double crown_opacity = 0.38;
};

/// The light look.
inline constexpr Palette morning{
    .ground = rgb(0xEEF2E8),
    .page = rgb(0xFBFCF8),
    .tray = rgb(0xE1E8DC),
    .ink = rgb(0x17231D),
    .soft_ink = rgb(0x48574E),
    .edge = rgb(0x74837A),
    .rule = rgb(0xC3CDC1),
    .moss = rgb(0x1F6246),
    .berry = rgb(0xA01A5C),
    .clay = rgb(0x9C3517),
    .water = rgb(0x175E86),
    .sun = rgb(0xF2AC12),
    .sun_edge = rgb(0x6E4A00),
    .filtered = rgb(0xFBE6AE),
    .shade = rgb(0xE2E9F2),
    .shade_edge = rgb(0x5A6C8F),
    .night = rgb(0xDADFE3),
    .night_dot = rgb(0x9AA5AC),
    .grass = rgb(0xDCE7CF),
    .wood = rgb(0xE6D3B3),
    .wood_line = rgb(0x8A6A3B),
    .leaf = rgb(0x8DB27C),
    .leaf_line = rgb(0x3F6B3C),
    .wall = rgb(0xCFCBC2),
    .wall_line = rgb(0x55534C),
    .shadow = rgb(0x3B4E78),
    .sky_top = rgb(0xBFD9EA),
    .sky_low = rgb(0xFBEFD2),
    .moss_tint = rgb(0xD9EBDD),
    .clay_tint = rgb(0xF6E2D8),
};

}  // namespace sunfleck::output
