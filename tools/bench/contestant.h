#pragma once

#include "garden_maker.h"
#include "sun_rays.h"

#include <cstddef>
#include <functional>
#include <memory>
#include <span>
#include <string>
#include <vector>

namespace sunfleck::bench {

/// What a run over many spots came to.
struct Sums {
    std::size_t answered = 0;      ///< spot-minutes
    double light_min = 0.0;        ///< their shares of light, added up, times the step
    std::size_t answer_bytes = 0;  ///< of the answer kept, beyond one number a spot and day
};

/// A garden made ready by one contestant.
class Prepared {
  public:
    virtual ~Prepared() = default;
    /// The share of light of every ray at one spot.
    virtual void answer(const SunRays& rays, Vec3 spot, std::span<float> shares) const = 0;
    /// Light of every day at every spot, on `threads` threads.
    [[nodiscard]] virtual Sums sum(const SunRays& rays, std::span<const Vec3> spots,
                                   int threads) const = 0;
    /// Bytes of its structure where it can say so, else 0.
    [[nodiscard]] virtual std::size_t bytes() const { return 0; }

  protected:
    Prepared() = default;
    Prepared(const Prepared&) = default;
    Prepared& operator=(const Prepared&) = default;
};

enum class Sees { opaque, all };
/// How many spots it can be asked for in the time there is.
enum class Pace { slowest, slow, fast };

struct Contestant {
    std::string name;
    Sees sees = Sees::opaque;
    /// The error with which it holds a corner's place: 0 for double precision.
    double corner_error_m = 0.0;
    Pace pace = Pace::fast;
    std::function<std::unique_ptr<Prepared>(const geometry::Garden&, int crown_halvings)> prepare;
};

/// The product's fast engine: solid things alone, and everything. It is held to one of
/// rays::simd_targets() unless `simd_target` is empty.
[[nodiscard]] std::vector<Contestant> product_contestants(const std::string& simd_target);

/// CGAL and Embree, each in the ways that are measured.
[[nodiscard]] std::vector<Contestant> ray_casting_contestants();

}  // namespace sunfleck::bench
