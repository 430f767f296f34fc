#include "sunfleck/output/canvas.h"

#include "output/font_set.h"
#include "sunfleck/base/unicode_text.h"

namespace sunfleck::output {

Canvas::Canvas() : fonts_(std::make_unique<FontSet>()) {}
Canvas::~Canvas() = default;

double Canvas::text_width(std::string_view text, double size, bool is_bold) const {
    return fonts_->width(text, size, is_bold);
}

std::string Canvas::cut_text(std::string_view text, double size, bool is_bold, double width) const {
    std::string cut = printable(text);
    if (text_width(cut, size, is_bold) <= width) return cut;
    while (!cut.empty()) {
        // Back to the beginning of the last character.
        do {
            const auto byte = static_cast<unsigned char>(cut.back());
            cut.pop_back();
            if ((byte & 0xC0U) != 0x80U) break;
        } while (!cut.empty());
        std::string candidate = cut + "…";
        if (text_width(candidate, size, is_bold) <= width) return candidate;
    }
    return cut;
}

}  // namespace sunfleck::output
