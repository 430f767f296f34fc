#pragma once

#include "sunfleck/base/problem.h"
#include "sunfleck/output/canvas.h"
#include "window/painters.h"
#include "window/view_model.h"

#include <array>
#include <filesystem>
#include <memory>

namespace sunfleck::window {

/// One part of the window as pixels.
struct PartPicture {
    SheetBox box;  ///< of the window
    std::unique_ptr<output::PixelCanvas> canvas;
    bool is_new = false;  ///< drawn since it was last shown
};

/// The four parts as pixels, each drawn anew only when the view says so.
class Pictures {
  public:
    explicit Pictures(double scale) : scale_(scale) {}
    /// Draws what is stale.
    void draw(ViewModel& view, const output::Palette& palette);
    /// Ground, page, sky, path: the order in which they are laid on the screen.
    [[nodiscard]] std::array<PartPicture, 4>& parts() { return parts_; }
    [[nodiscard]] double scale() const { return scale_; }

  private:
    double scale_;
    std::array<PartPicture, 4> parts_;
    GroundPainter ground_;
};

/// Draws the whole window on one sheet and writes it as PNG.
[[nodiscard]] Result<void> save_picture(const ViewModel& view, double scale,
                                        const output::Palette& palette,
                                        const std::filesystem::path& path);

}  // namespace sunfleck::window
