#pragma once

#include <cairo.h>
#include <pango/pango.h>

#include <memory>
#include <string>
#include <string_view>

namespace sunfleck::output {

/// The family names in the order in which they are tried.
inline constexpr const char* font_families = "Andika, DejaVu Sans, sans-serif";

template <auto release>
struct Releaser {
    template <typename T>
    void operator()(T* thing) const noexcept {
        release(thing);
    }
};
using LayoutPointer = std::unique_ptr<PangoLayout, Releaser<g_object_unref>>;

/// The fonts of one sheet. Shapes without hinting, so that a text is as wide at every scale.
class FontSet {
  public:
    FontSet();
    /// One line of text, laid out. Line breaks and other control characters become spaces.
    [[nodiscard]] LayoutPointer layout(std::string_view text, double size, bool is_bold) const;
    [[nodiscard]] double width(std::string_view text, double size, bool is_bold) const;

  private:
    std::unique_ptr<PangoFontMap, Releaser<g_object_unref>> map_;
    std::unique_ptr<PangoContext, Releaser<g_object_unref>> context_;
};

/// Valid UTF-8 on one line.
[[nodiscard]] std::string printable(std::string_view text);

}  // namespace sunfleck::output
