#include "window/pictures.h"

#include "sunfleck/base/text_file.h"

#include <functional>

namespace sunfleck::window {
namespace {

using output::Canvas;
using output::Palette;

// A canvas on which the window's part lies at the upper left corner.
class MovedCanvas final : public Canvas {
  public:
    MovedCanvas(Canvas& canvas, SheetPoint by) : canvas_(canvas), by_(by) {}

    void fill(const output::Path& path, output::Colour colour) override {
        canvas_.fill(moved(path), colour);
    }
    void fill_down(const output::Path& path, output::Colour top, output::Colour bottom) override {
        canvas_.fill_down(moved(path), top, bottom);
    }
    void stroke(const output::Path& path, const output::Pen& pen) override {
        canvas_.stroke(moved(path), pen);
    }
    void text(SheetPoint anchor, std::string_view text, const output::TextStyle& style) override {
        canvas_.text(anchor + by_, text, style);
    }
    void begin_clip(const output::Path& path) override { canvas_.begin_clip(moved(path)); }
    void end_clip() override { canvas_.end_clip(); }
    void begin_group(double opacity) override { canvas_.begin_group(opacity); }
    void end_group() override { canvas_.end_group(); }
    [[nodiscard]] Result<std::string> finish() override { return canvas_.finish(); }

  private:
    [[nodiscard]] output::Path moved(const output::Path& path) const {
        output::Path other;
        for (const auto& [step, points] : path.commands()) {
            switch (step) {
                case output::Path::Step::move:
                    other.move_to(points[0] + by_);
                    break;
                case output::Path::Step::line:
                    other.line_to(points[0] + by_);
                    break;
                case output::Path::Step::curve:
                    other.curve_to(points[0] + by_, points[1] + by_, points[2] + by_);
                    break;
                case output::Path::Step::close:
                    other.close();
                    break;
            }
        }
        return other;
    }

    Canvas& canvas_;
    SheetPoint by_;
};

void draw_part(PartPicture& part, const SheetBox& box, double scale,
               const std::function<void(Canvas&)>& paint) {
    part.box = box;
    part.canvas = output::pixel_canvas({box.width(), box.height()}, scale);
    MovedCanvas moved(*part.canvas, -1.0 * box.low);
    paint(moved);
    part.is_new = true;
}

}  // namespace

void Pictures::draw(ViewModel& view, const Palette& palette) {
    const Stale stale = view.take_stale();
    const Regions& regions = view.regions();
    if (stale.ground) {
        draw_part(parts_[0], regions.ground, scale_,
                  [&](Canvas& canvas) { ground_.paint(canvas, view, palette); });
    }
    if (stale.page) {
        draw_part(parts_[1], regions.page, scale_,
                  [&](Canvas& canvas) { paint_page(canvas, view, palette); });
    }
    if (stale.sky) {
        draw_part(parts_[2], regions.sky, scale_,
                  [&](Canvas& canvas) { paint_sky(canvas, view, palette); });
    }
    if (stale.path) {
        draw_part(parts_[3], regions.path, scale_,
                  [&](Canvas& canvas) { paint_path(canvas, view, palette); });
    }
}

Result<void> save_picture(const ViewModel& view, double scale, const Palette& palette,
                          const std::filesystem::path& path) {
    const Regions& regions = view.regions();
    const auto canvas = output::raster_canvas({regions.sky.width(), regions.path.high.y}, scale);
    GroundPainter ground;
    ground.paint(*canvas, view, palette);
    paint_page(*canvas, view, palette);
    paint_sky(*canvas, view, palette);
    paint_path(*canvas, view, palette);
    const auto bytes = canvas->finish();
    if (!bytes) return tl::unexpected(bytes.error());
    return save_text_file(path, *bytes);
}

}  // namespace sunfleck::window
