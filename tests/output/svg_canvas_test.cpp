#include "sunfleck/output/canvas.h"

#include <catch2/catch.hpp>
#include <glib.h>

using namespace sunfleck;
using namespace sunfleck::output;

namespace {

/// An independent parser's word that the text is well-formed XML.
bool is_well_formed(const std::string& text) {
    const GMarkupParser parser{};
    GMarkupParseContext* context =
        g_markup_parse_context_new(&parser, G_MARKUP_TREAT_CDATA_AS_TEXT, nullptr, nullptr);
    const bool parsed = g_markup_parse_context_parse(context, text.data(),
                                                     static_cast<gssize>(text.size()), nullptr) &&
                        g_markup_parse_context_end_parse(context, nullptr);
    g_markup_parse_context_free(context);
    return parsed;
}

}  // namespace

TEST_CASE("text stays text in an SVG, with its special letters made safe", "[output][property]") {
    const auto canvas = svg_canvas({200.0, 100.0}, 1.0, "A & B");
    canvas->text({10.0, 20.0}, "Fern & \"Moss\" <yard>\n桜", {.size = 13.0, .is_bold = true});
    const std::string svg = canvas->finish().value();
    CHECK(svg.find("Fern &amp; &quot;Moss&quot; &lt;yard&gt; 桜</text>") != std::string::npos);
    CHECK(svg.find("<title>A &amp; B</title>") != std::string::npos);
    CHECK(svg.find("font-weight=\"bold\"") != std::string::npos);
    CHECK(is_well_formed(svg));
    CHECK_FALSE(is_well_formed(svg + "<g>"));
}

TEST_CASE("broken UTF-8 cannot break an SVG", "[output][property]") {
    const auto canvas = svg_canvas({200.0, 100.0}, 1.0, "\xff");
    canvas->text({10.0, 20.0}, "bench \xc3\x28", {});
    CHECK(is_well_formed(canvas->finish().value()));
}

TEST_CASE("clips and groups close again", "[output][property]") {
    const auto canvas = svg_canvas({200.0, 100.0}, 2.0, "sheet");
    {
        const ClipScope clip(*canvas, circle({50, 50}, 20));
        const GroupScope group(*canvas, 0.3);
        canvas->fill_down(rectangle(box_at({0, 0}, 10, 10)), morning.sky_top, morning.sky_low);
        canvas->stroke(line({0, 0}, {10, 10}), {.colour = morning.ink, .dashes = {2.0, 1.0}});
    }
    const std::string svg = canvas->finish().value();
    CHECK(is_well_formed(svg));
    CHECK(svg.find("width=\"400\"") != std::string::npos);
    CHECK(svg.find("viewBox=\"0 0 200 100\"") != std::string::npos);
    CHECK(svg.find("opacity=\"0.3\"") != std::string::npos);
    CHECK(svg.find("clip-path=\"url(#c1)\"") != std::string::npos);
}

TEST_CASE("numbers are short and never negative nought", "[output][property]") {
    const auto canvas = svg_canvas({200.0, 100.0}, 1.0, "sheet");
    canvas->fill(Path().move_to({-0.001, 1.0 / 3.0}).line_to({2.5, 100.0}), morning.ink);
    CHECK(canvas->finish().value().find("d=\"M0 0.33L2.5 100\"") != std::string::npos);
}
