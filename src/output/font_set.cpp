#include "output/font_set.h"

#include "sunfleck/base/require.h"

#include <pango/pangocairo.h>

namespace sunfleck::output {

namespace {

using OptionsPointer = std::unique_ptr<cairo_font_options_t, Releaser<cairo_font_options_destroy>>;
using DescriptionPointer =
    std::unique_ptr<PangoFontDescription, Releaser<pango_font_description_free>>;

}  // namespace

FontSet::FontSet() : map_(pango_cairo_font_map_new()) {
    SUNFLECK_REQUIRE(map_ != nullptr, "no font map");
    context_.reset(pango_font_map_create_context(map_.get()));
    // The desktop's settings must not change a picture.
    const OptionsPointer options(cairo_font_options_create());
    cairo_font_options_set_antialias(options.get(), CAIRO_ANTIALIAS_GRAY);
    cairo_font_options_set_hint_style(options.get(), CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options.get(), CAIRO_HINT_METRICS_OFF);
    pango_cairo_context_set_font_options(context_.get(), options.get());
    pango_context_set_round_glyph_positions(context_.get(), FALSE);
    pango_context_set_language(context_.get(), pango_language_from_string("en"));
}

LayoutPointer FontSet::layout(std::string_view text, double size, bool is_bold) const {
    const DescriptionPointer description(pango_font_description_new());
    pango_font_description_set_family_static(description.get(), font_families);
    pango_font_description_set_absolute_size(description.get(), size * PANGO_SCALE);
    pango_font_description_set_weight(description.get(),
                                      is_bold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
    LayoutPointer layout(pango_layout_new(context_.get()));
    const std::string line = printable(text);
    pango_layout_set_font_description(layout.get(), description.get());
    pango_layout_set_single_paragraph_mode(layout.get(), TRUE);
    pango_layout_set_text(layout.get(), line.data(), static_cast<int>(line.size()));
    return layout;
}

double FontSet::width(std::string_view text, double size, bool is_bold) const {
    PangoRectangle logical{};
    pango_layout_get_extents(layout(text, size, is_bold).get(), nullptr, &logical);
    return static_cast<double>(logical.width) / PANGO_SCALE;
}

std::string printable(std::string_view text) {
    const std::unique_ptr<char, Releaser<g_free>> valid(
        g_utf8_make_valid(text.data(), static_cast<gssize>(text.size())));
    std::string line(valid.get());
    for (char& byte : line) {
        const auto value = static_cast<unsigned char>(byte);
        if (value < 0x20U || value == 0x7FU) byte = ' ';
    }
    return line;
}

}  // namespace sunfleck::output
