#pragma once

#include "sunfleck/output/canvas.h"
#include "sunfleck/output/picture.h"

#include <functional>
#include <string>
#include <string_view>

namespace sunfleck::output {

/// The sheet on which a picture of these options is drawn.
struct SheetFormat {
    SheetSize size;      ///< in pixels at 1x
    double scale = 1.0;  ///< of the file's pixels
};

/// `natural_height` gives the height that suits a sheet of a width, where no size was asked.
[[nodiscard]] SheetFormat sheet_format(const PictureOptions& options,
                                       const std::function<double(double)>& natural_height);

/// Draws on a new canvas and gives the file's bytes. Trouble of the libraries becomes a problem.
[[nodiscard]] Result<std::string> drawn_sheet(const SheetFormat& sheet, PictureFormat format,
                                              std::string_view title,
                                              const std::function<void(Canvas&)>& draw);

}  // namespace sunfleck::output
