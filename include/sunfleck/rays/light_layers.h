#pragma once

#include "sunfleck/rays/light_tracer.h"

#include <cstdint>
#include <memory>
#include <vector>

namespace sunfleck::rays {

/// The light of a garden while one of its objects is dragged about: what each object does to each
/// spot is kept by itself, so that a change computes that object anew and nothing else.
///
/// Meant for a day or a few; a year of it takes some 4 kB a day for 100 spots of a garden.
class LightLayers {
  public:
    /// Copies the garden; keeps `sun` by reference. `request` chooses spots, kind and threads.
    LightLayers(const geometry::Garden& garden, const SunTable& sun, const LightRequest& request);
    ~LightLayers();
    LightLayers(LightLayers&&) noexcept;
    LightLayers& operator=(LightLayers&&) noexcept;

    /// Puts these pieces (their boxes fitted, see geometry::fit_box) in the place of all pieces
    /// of an object; none takes it away. Gives the spots whose light was computed anew.
    std::vector<std::uint32_t> replace_object(std::uint32_t object,
                                              std::vector<geometry::Piece> pieces);
    /// The light now: the same bytes as tracing garden() from nothing.
    [[nodiscard]] const LightSpans& light() const;
    /// The garden now: pieces of one object after another, objects in the order in which they
    /// first came.
    [[nodiscard]] const geometry::Garden& garden() const;

  private:
    class Parts;
    std::unique_ptr<Parts> parts_;
};

}  // namespace sunfleck::rays
