#include "output/font_set.h"
#include "sunfleck/base/require.h"
#include "sunfleck/output/canvas.h"

#include <algorithm>
#include <array>
#include <charconv>
#include <cmath>

namespace sunfleck::output {

namespace {

/// At most two decimals: a hundredth of a pixel, and no "-0".
std::string number(double value) {
    SUNFLECK_REQUIRE(std::isfinite(value), "a picture's coordinate is not a number");
    const double rounded = std::round(value * 100.0) / 100.0;
    if (std::fpclassify(rounded) == FP_ZERO) return "0";
    std::array<char, 32> buffer{};
    const auto end = std::to_chars(buffer.data(), buffer.data() + buffer.size(), rounded,
                                   std::chars_format::fixed);
    return {buffer.data(), end.ptr};
}

std::string hex(Colour colour) {
    constexpr std::string_view digits = "0123456789ABCDEF";
    std::string text = "#";
    for (const std::uint8_t part : {colour.red, colour.green, colour.blue}) {
        text += digits[part / 16U];
        text += digits[part % 16U];
    }
    return text;
}

std::string escaped(std::string_view text) {
    std::string safe;
    for (const char character : printable(text)) {
        switch (character) {
            case '&':
                safe += "&amp;";
                break;
            case '<':
                safe += "&lt;";
                break;
            case '>':
                safe += "&gt;";
                break;
            case '"':
                safe += "&quot;";
                break;
            default:
                safe += character;
        }
    }
    return safe;
}

std::string attribute(std::string_view name, std::string_view value) {
    return ' ' + std::string(name) + "=\"" + std::string(value) + '"';
}

/// The colour as an attribute, and its opacity where it is not whole.
std::string paint(std::string_view name, Colour colour) {
    std::string text = attribute(name, hex(colour));
    if (colour.opacity < 1.0) {
        text += attribute(std::string(name) + "-opacity", number(colour.opacity));
    }
    return text;
}

std::string point(SheetPoint at) {
    return number(at.x) + ' ' + number(at.y);
}

std::string path_data(const Path& path) {
    std::string data;
    for (const auto& [step, points] : path.commands()) {
        switch (step) {
            case Path::Step::move:
                data += 'M' + point(points[0]);
                break;
            case Path::Step::line:
                data += 'L' + point(points[0]);
                break;
            case Path::Step::curve:
                data += 'C' + point(points[0]) + ' ' + point(points[1]) + ' ' + point(points[2]);
                break;
            case Path::Step::close:
                data += 'Z';
                break;
        }
    }
    return data;
}

class SvgCanvas final : public Canvas {
  public:
    SvgCanvas(SheetSize size, double scale, std::string_view title) {
        const std::string width = number(size.width);
        const std::string height = number(size.height);
        head_ = "<svg xmlns=\"http://www.w3.org/2000/svg\"" +
                attribute("width", number(size.width * scale)) +
                attribute("height", number(size.height * scale)) +
                attribute("viewBox", "0 0 " + width + ' ' + height) +
                attribute("font-family", font_families) + ">\n<title>" + escaped(title) +
                "</title>\n";
    }

    void fill(const Path& path, Colour colour) override {
        body_ += "<path" + attribute("d", path_data(path)) + paint("fill", colour) + "/>\n";
    }

    void fill_down(const Path& path, Colour top, Colour bottom) override {
        const std::string id = "g" + std::to_string(++definition_count_);
        definitions_ += "<linearGradient" + attribute("id", id) + attribute("x1", "0") +
                        attribute("y1", "0") + attribute("x2", "0") + attribute("y2", "1") +
                        "><stop offset=\"0\"" + paint("stop-color", top) + "/><stop offset=\"1\"" +
                        paint("stop-color", bottom) + "/></linearGradient>\n";
        body_ += "<path" + attribute("d", path_data(path)) + attribute("fill", "url(#" + id + ")") +
                 "/>\n";
    }

    void stroke(const Path& path, const Pen& pen) override {
        body_ += "<path" + attribute("d", path_data(path)) + attribute("fill", "none") +
                 paint("stroke", pen.colour) + attribute("stroke-width", number(pen.width));
        if (!pen.dashes.empty()) {
            std::string dashes;
            for (const double dash : pen.dashes) {
                dashes += (dashes.empty() ? "" : " ") + number(dash);
            }
            body_ += attribute("stroke-dasharray", dashes);
        }
        if (pen.has_round_ends) body_ += attribute("stroke-linecap", "round");
        body_ += "/>\n";
    }

    void text(SheetPoint anchor, std::string_view text, const TextStyle& style) override {
        body_ += "<text" + attribute("x", number(anchor.x)) + attribute("y", number(anchor.y)) +
                 attribute("font-size", number(style.size)) + paint("fill", style.colour);
        if (style.is_bold) body_ += attribute("font-weight", "bold");
        if (style.anchor == TextAnchor::middle) body_ += attribute("text-anchor", "middle");
        if (style.anchor == TextAnchor::end) body_ += attribute("text-anchor", "end");
        if (style.halo.opacity > 0.0) {
            body_ += paint("stroke", style.halo) +
                     attribute("stroke-width", number(style.halo_width)) +
                     attribute("stroke-linejoin", "round") + attribute("paint-order", "stroke");
        }
        if (std::fpclassify(style.turn.in_radians()) != FP_ZERO) {
            body_ += attribute("transform", "rotate(" + number(style.turn.in_degrees()) + ' ' +
                                                point(anchor) + ')');
        }
        body_ += '>' + escaped(text) + "</text>\n";
    }

    void begin_clip(const Path& path) override {
        const std::string id = "c" + std::to_string(++definition_count_);
        definitions_ += "<clipPath" + attribute("id", id) + "><path" +
                        attribute("d", path_data(path)) + "/></clipPath>\n";
        body_ += "<g" + attribute("clip-path", "url(#" + id + ")") + ">\n";
    }

    void end_clip() override { body_ += "</g>\n"; }

    void begin_group(double opacity) override {
        body_ += "<g" + attribute("opacity", number(opacity)) + ">\n";
    }

    void end_group() override { body_ += "</g>\n"; }

    [[nodiscard]] Result<std::string> finish() override {
        const std::string definitions =
            definitions_.empty() ? "" : "<defs>\n" + definitions_ + "</defs>\n";
        return head_ + definitions + body_ + "</svg>\n";
    }

  private:
    std::string head_;
    std::string definitions_;
    std::string body_;
    int definition_count_ = 0;
};

}  // namespace

std::unique_ptr<Canvas> svg_canvas(SheetSize size, double scale, std::string_view title) {
    return std::make_unique<SvgCanvas>(size, scale, title);
}

}  // namespace sunfleck::output
