#include "output/font_set.h"
#include "sunfleck/base/require.h"
#include "sunfleck/output/canvas.h"

#include <pango/pangocairo.h>

#include <algorithm>
#include <cmath>

namespace sunfleck::output {

namespace {

using SurfacePointer = std::unique_ptr<cairo_surface_t, Releaser<cairo_surface_destroy>>;
using ContextPointer = std::unique_ptr<cairo_t, Releaser<cairo_destroy>>;
using PatternPointer = std::unique_ptr<cairo_pattern_t, Releaser<cairo_pattern_destroy>>;

Problem drawing_problem(cairo_status_t status) {
    return {.kind = ProblemKind::file,
            .code = "picture_not_drawn",
            .message = std::string("The picture could not be drawn: ") +
                       cairo_status_to_string(status) + ".",
            .mend = "Ask for a smaller size."};
}

cairo_status_t append(void* bytes, const unsigned char* data, unsigned int length) {
    try {
        static_cast<std::string*>(bytes)->append(data, data + length);
    } catch (const std::exception&) {  // must not pass through the C library
        return CAIRO_STATUS_NO_MEMORY;
    }
    return CAIRO_STATUS_SUCCESS;
}

class RasterCanvas final : public PixelCanvas {
  public:
    RasterCanvas(SheetSize size, double scale)
        : surface_(cairo_image_surface_create(CAIRO_FORMAT_RGB24,
                                              static_cast<int>(std::lround(size.width * scale)),
                                              static_cast<int>(std::lround(size.height * scale)))),
          context_(cairo_create(surface_.get())) {
        cairo_scale(context_.get(), scale, scale);
        cairo_set_line_join(context_.get(), CAIRO_LINE_JOIN_MITER);
    }

    void fill(const Path& path, Colour colour) override {
        trace(path);
        use(colour);
        cairo_fill(context_.get());
    }

    void fill_down(const Path& path, Colour top, Colour bottom) override {
        trace(path);
        double left = 0.0;
        double high = 0.0;
        double right = 0.0;
        double low = 0.0;
        cairo_path_extents(context_.get(), &left, &high, &right, &low);
        const PatternPointer gradient(cairo_pattern_create_linear(0.0, high, 0.0, low));
        add_stop(gradient.get(), 0.0, top);
        add_stop(gradient.get(), 1.0, bottom);
        cairo_set_source(context_.get(), gradient.get());
        cairo_fill(context_.get());
    }

    void stroke(const Path& path, const Pen& pen) override {
        trace(path);
        use(pen.colour);
        cairo_set_line_width(context_.get(), pen.width);
        cairo_set_dash(context_.get(), pen.dashes.data(), static_cast<int>(pen.dashes.size()), 0.0);
        cairo_set_line_cap(context_.get(),
                           pen.has_round_ends ? CAIRO_LINE_CAP_ROUND : CAIRO_LINE_CAP_BUTT);
        cairo_stroke(context_.get());
    }

    void text(SheetPoint anchor, std::string_view text, const TextStyle& style) override {
        const LayoutPointer layout = fonts().layout(text, style.size, style.is_bold);
        PangoRectangle extents{};
        pango_layout_get_extents(layout.get(), nullptr, &extents);
        const double width = static_cast<double>(extents.width) / PANGO_SCALE;
        const double share = style.anchor == TextAnchor::start    ? 0.0
                             : style.anchor == TextAnchor::middle ? 0.5
                                                                  : 1.0;
        cairo_save(context_.get());
        cairo_translate(context_.get(), anchor.x, anchor.y);
        cairo_rotate(context_.get(), style.turn.in_radians());
        cairo_new_path(context_.get());
        cairo_move_to(context_.get(), -share * width, 0.0);
        // Outlines rather than glyph images: those would snap to whole device pixels.
        pango_cairo_layout_line_path(context_.get(),
                                     pango_layout_get_line_readonly(layout.get(), 0));
        if (style.halo.opacity > 0.0) {
            use(style.halo);
            cairo_set_line_width(context_.get(), style.halo_width);
            cairo_set_line_join(context_.get(), CAIRO_LINE_JOIN_ROUND);
            cairo_set_dash(context_.get(), nullptr, 0, 0.0);
            cairo_stroke_preserve(context_.get());
        }
        use(style.colour);
        cairo_fill(context_.get());
        cairo_restore(context_.get());
    }

    void begin_clip(const Path& path) override {
        cairo_save(context_.get());
        trace(path);
        cairo_clip(context_.get());
    }

    void end_clip() override { cairo_restore(context_.get()); }

    void begin_group(double opacity) override {
        opacities_.push_back(opacity);
        cairo_push_group(context_.get());
    }

    void end_group() override {
        SUNFLECK_REQUIRE(!opacities_.empty(), "a group ends that never began");
        cairo_pop_group_to_source(context_.get());
        cairo_paint_with_alpha(context_.get(), opacities_.back());
        opacities_.pop_back();
    }

    [[nodiscard]] int width_px() const override {
        return cairo_image_surface_get_width(surface_.get());
    }
    [[nodiscard]] int height_px() const override {
        return cairo_image_surface_get_height(surface_.get());
    }
    [[nodiscard]] int row_bytes() const override {
        return cairo_image_surface_get_stride(surface_.get());
    }
    [[nodiscard]] std::span<const unsigned char> pixels() override {
        cairo_surface_flush(surface_.get());
        const unsigned char* data = cairo_image_surface_get_data(surface_.get());
        if (data == nullptr) return {};
        return {data,
                static_cast<std::size_t>(row_bytes()) * static_cast<std::size_t>(height_px())};
    }

    [[nodiscard]] Result<std::string> finish() override {
        if (const auto status = cairo_status(context_.get()); status != CAIRO_STATUS_SUCCESS) {
            return failure(drawing_problem(status));
        }
        cairo_surface_flush(surface_.get());
        std::string bytes;
        const auto status = cairo_surface_write_to_png_stream(surface_.get(), append, &bytes);
        if (status != CAIRO_STATUS_SUCCESS) return failure(drawing_problem(status));
        return bytes;
    }

  private:
    void use(Colour colour) {
        cairo_set_source_rgba(context_.get(), colour.red / 255.0, colour.green / 255.0,
                              colour.blue / 255.0, colour.opacity);
    }

    static void add_stop(cairo_pattern_t* gradient, double offset, Colour colour) {
        cairo_pattern_add_color_stop_rgba(gradient, offset, colour.red / 255.0,
                                          colour.green / 255.0, colour.blue / 255.0,
                                          colour.opacity);
    }

    void trace(const Path& path) {
        cairo_new_path(context_.get());
        for (const auto& [step, points] : path.commands()) {
            switch (step) {
                case Path::Step::move:
                    cairo_move_to(context_.get(), points[0].x, points[0].y);
                    break;
                case Path::Step::line:
                    cairo_line_to(context_.get(), points[0].x, points[0].y);
                    break;
                case Path::Step::curve:
                    cairo_curve_to(context_.get(), points[0].x, points[0].y, points[1].x,
                                   points[1].y, points[2].x, points[2].y);
                    break;
                case Path::Step::close:
                    cairo_close_path(context_.get());
                    break;
            }
        }
    }

    SurfacePointer surface_;
    ContextPointer context_;
    std::vector<double> opacities_;
};

}  // namespace

std::unique_ptr<PixelCanvas> pixel_canvas(SheetSize size, double scale) {
    return std::make_unique<RasterCanvas>(size, scale);
}

std::unique_ptr<Canvas> raster_canvas(SheetSize size, double scale) {
    return std::make_unique<RasterCanvas>(size, scale);
}

}  // namespace sunfleck::output
