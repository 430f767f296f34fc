#include "window/painted_button.h"

namespace sunfleck::window {

void paint_button(output::Canvas& canvas, const Target& target, const output::Palette& palette) {
    using namespace output;
    constexpr double words_size = 12.5;
    constexpr double key_size = 11.0;
    const Colour ink = target.is_filled ? palette.page : palette.ink;
    canvas.fill(rounded_rectangle(target.box, 7.0), target.is_filled ? palette.moss : palette.page);
    if (!target.is_filled) {
        canvas.stroke(rounded_rectangle(target.box, 7.0), {.colour = palette.edge, .width = 1.2});
    }
    const double words = canvas.text_width(target.words, words_size, true);
    const double key =
        target.key.empty() ? 0.0 : 7.0 + canvas.text_width(target.key, key_size, false);
    const bool has_key = words + key + 8.0 <= target.box.width();
    const double left = target.box.centre().x - 0.5 * (words + (has_key ? key : 0.0));
    const double base = target.box.centre().y + 4.5;
    canvas.text({left, base}, target.words, {.size = words_size, .is_bold = true, .colour = ink});
    if (has_key && key > 0.0) {
        canvas.text(
            {left + words + 7.0, base}, target.key,
            {.size = key_size, .colour = target.is_filled ? palette.page : palette.soft_ink});
    }
}

}  // namespace sunfleck::window
