#include "output/pixels.h"

#include <cairo.h>

#include <algorithm>
#include <cstdlib>
#include <cstring>
#include <stdexcept>

namespace sunfleck::output::test {

namespace {

struct Reader {
    const std::string& bytes;
    std::size_t at = 0;
};

cairo_status_t read_bytes(void* closure, unsigned char* data, unsigned int length) {
    auto& reader = *static_cast<Reader*>(closure);
    if (reader.at + length > reader.bytes.size()) return CAIRO_STATUS_READ_ERROR;
    std::memcpy(data, reader.bytes.data() + reader.at, length);
    reader.at += length;
    return CAIRO_STATUS_SUCCESS;
}

}  // namespace

Pixels::Pixels(const std::string& png) {
    Reader reader{png};
    cairo_surface_t* surface = cairo_image_surface_create_from_png_stream(read_bytes, &reader);
    if (cairo_surface_status(surface) != CAIRO_STATUS_SUCCESS) {
        cairo_surface_destroy(surface);
        throw std::runtime_error("not a PNG");
    }
    width_ = cairo_image_surface_get_width(surface);
    height_ = cairo_image_surface_get_height(surface);
    const auto stride = static_cast<std::size_t>(cairo_image_surface_get_stride(surface));
    const unsigned char* data = cairo_image_surface_get_data(surface);
    const auto row_size = static_cast<std::size_t>(width_);
    rows_.resize(row_size * static_cast<std::size_t>(height_));
    for (std::size_t y = 0; y < static_cast<std::size_t>(height_); ++y) {
        std::memcpy(&rows_[y * row_size], data + y * stride, row_size * sizeof(std::uint32_t));
    }
    cairo_surface_destroy(surface);
}

Colour Pixels::at(double x, double y) const {
    const auto column = static_cast<std::size_t>(std::clamp(static_cast<int>(x), 0, width_ - 1));
    const auto row = static_cast<std::size_t>(std::clamp(static_cast<int>(y), 0, height_ - 1));
    return rgb(rows_[row * static_cast<std::size_t>(width_) + column] & 0xFFFFFFU);
}

double Pixels::grey(double x, double y) const {
    const Colour colour = at(x, y);
    return 0.2126 * colour.red + 0.7152 * colour.green + 0.0722 * colour.blue;
}

int difference(Colour a, Colour b) {
    return std::max(
        {std::abs(a.red - b.red), std::abs(a.green - b.green), std::abs(a.blue - b.blue)});
}

}  // namespace sunfleck::output::test
