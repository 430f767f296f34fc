#pragma once

#include "sunfleck/base/problem.h"
#include "sunfleck/output/palette.h"
#include "sunfleck/output/path.h"

#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <vector>

/// What every picture is drawn on. Coordinates are the sheet's pixels at 1x.
namespace sunfleck::output {

/// How a line is drawn.
struct Pen {
    Colour colour;
    double width = 1.0;
    std::vector<double> dashes;  ///< lengths on and off; empty: solid
    bool has_round_ends = false;
};

enum class TextAnchor { start, middle, end };

struct TextStyle {
    double size = 13.0;
    bool is_bold = false;
    Colour colour = morning.ink;
    TextAnchor anchor = TextAnchor::start;
    Colour halo{0, 0, 0, 0.0};  ///< drawn behind the letters where it is not clear
    double halo_width = 3.0;
    Angle turn;  ///< clockwise about the anchor
};

/// Measures and shapes text; the fonts are Andika, else DejaVu Sans.
class FontSet;

/// A sheet that is being drawn. Text stands on its baseline. Areas under `fill` follow the
/// nonzero rule.
class Canvas {
  public:
    Canvas();
    virtual ~Canvas();
    Canvas(const Canvas&) = delete;
    Canvas& operator=(const Canvas&) = delete;

    virtual void fill(const Path& path, Colour colour) = 0;
    /// From `top` at the path's highest point to `bottom` at its lowest.
    virtual void fill_down(const Path& path, Colour top, Colour bottom) = 0;
    virtual void stroke(const Path& path, const Pen& pen) = 0;
    virtual void text(SheetPoint anchor, std::string_view text, const TextStyle& style) = 0;
    /// Until the matching end_clip() only what lies inside the path is drawn.
    virtual void begin_clip(const Path& path) = 0;
    virtual void end_clip() = 0;
    /// Until the matching end_group() all is drawn as one picture, which is then laid on the
    /// sheet at this opacity.
    virtual void begin_group(double opacity) = 0;
    virtual void end_group() = 0;
    /// The finished file's bytes; nothing may be drawn after it.
    [[nodiscard]] virtual Result<std::string> finish() = 0;

    /// Width in pixels of a text.
    [[nodiscard]] double text_width(std::string_view text, double size, bool is_bold) const;
    /// The text cut with "…" to at most that width.
    [[nodiscard]] std::string cut_text(std::string_view text, double size, bool is_bold,
                                       double width) const;

  protected:
    [[nodiscard]] const FontSet& fonts() const { return *fonts_; }

  private:
    std::unique_ptr<FontSet> fonts_;
};

/// Ends its clip or group where the scope ends.
class ClipScope {
  public:
    ClipScope(Canvas& canvas, const Path& path) : canvas_(canvas) { canvas_.begin_clip(path); }
    ~ClipScope() { canvas_.end_clip(); }
    ClipScope(const ClipScope&) = delete;
    ClipScope& operator=(const ClipScope&) = delete;

  private:
    Canvas& canvas_;
};

class GroupScope {
  public:
    GroupScope(Canvas& canvas, double opacity) : canvas_(canvas) { canvas_.begin_group(opacity); }
    ~GroupScope() { canvas_.end_group(); }
    GroupScope(const GroupScope&) = delete;
    GroupScope& operator=(const GroupScope&) = delete;

  private:
    Canvas& canvas_;
};

/// A sheet's size in pixels at 1x.
struct SheetSize {
    double width = 1280.0;
    double height = 800.0;
};

/// A canvas whose pixels can be read as it stands, for a screen.
class PixelCanvas : public Canvas {
  public:
    [[nodiscard]] virtual int width_px() const = 0;
    [[nodiscard]] virtual int height_px() const = 0;
    [[nodiscard]] virtual int row_bytes() const = 0;
    /// Rows from the top, four bytes a pixel: blue, green, red and one of no meaning. Good until
    /// something is drawn.
    [[nodiscard]] virtual std::span<const unsigned char> pixels() = 0;
};
[[nodiscard]] std::unique_ptr<PixelCanvas> pixel_canvas(SheetSize size, double scale);

/// A PNG with `scale` device pixels to a sheet pixel. No time or place is written into it.
[[nodiscard]] std::unique_ptr<Canvas> raster_canvas(SheetSize size, double scale);
/// An SVG with live text, shown `scale` times as large.
[[nodiscard]] std::unique_ptr<Canvas> svg_canvas(SheetSize size, double scale,
                                                 std::string_view title);

}  // namespace sunfleck::output
