#include "sunfleck/exposure/spot_sun.h"

#include "exposure/disk.h"
#include "exposure/edge_transit.h"
#include "exposure/skyline.h"
#include "sunfleck/base/require.h"

#include <algorithm>
#include <cmath>
#include <cstddef>
#include <deque>
#include <unordered_map>
#include <utility>
#include <variant>

namespace sunfleck::exposure {
namespace {

using rays::Cover;
using rays::Sight;

constexpr double longest_chunk_s = 1800.0;  // asked of the engine at once
constexpr double longest_smooth_s = 180.0;  // light through crowns taken at two instants
constexpr double longest_leaf_s = 20.0;     // disk summed once
constexpr double span_end_s = 0.5;          // ends of spans are found to this

// Where a share is this near to half, its points are too few to say on which side it is: 64
// points err by up to 0.047 of the disk (tested).
constexpr double undecided = 0.06;

UtcSeconds midway(UtcSeconds from, UtcSeconds to) {
    return from.plus_seconds(0.5 * to.seconds_after(from));
}

SunState state_of(const DiskShares& shares) {
    if (shares.full >= 0.5) return SunState::full;
    return shares.full + shares.filtered >= 0.5 ? SunState::filtered : SunState::shade;
}

bool is_undecided(const DiskShares& shares) {
    return std::abs(shares.full - 0.5) < undecided ||
           std::abs(shares.full + shares.filtered - 0.5) < undecided;
}

// The sights of one receiver's parts, made when first asked for.
class SightBook {
  public:
    SightBook(const rays::Sights& sights, Vec3 origin) : sights_(&sights), origin_(origin) {}

    const Sight* find(rays::Part part) {
        const std::uint64_t key = (std::uint64_t{part.piece} << 32U) | part.facet;
        const auto [place, is_new] = index_.try_emplace(key, made_.size());
        if (is_new) made_.push_back(sights_->from(origin_, part));
        return &made_[place->second];
    }

  private:
    const rays::Sights* sights_;
    Vec3 origin_;
    std::unordered_map<std::uint64_t, std::size_t> index_;
    std::deque<Sight> made_;  // keeps addresses
};

}  // namespace

class SpotSun::Tracer {
  public:
    Tracer(const rays::Engine& engine, const rays::Sights& sights, const Receiver& receiver)
        : engine_(&engine),
          receiver_(receiver),
          book_(sights, receiver.point),
          skyline_(engine.garden().horizon) {}

    void begin(const SunArc& arc, std::span<const geometry::PieceOptics> optics) {
        SUNFLECK_REQUIRE(optics.size() == engine_->garden().pieces.size(), "one optics per piece");
        arc_ = &arc;
        optics_ = optics;
        slices_.clear();
        stops_at_sun_ = false;
        found_sun_ = false;
    }

    DaySun day(std::span<const UtcSeconds> cuts) {
        trace_all(cuts);
        DaySun day;
        day.spans = spans();
        day.slices = std::move(slices_);
        return day;
    }

    bool has_sun() {
        stops_at_sun_ = true;
        trace_all({});
        return found_sun_;
    }

    DiskShares shares_at(UtcSeconds instant) {
        const rays::Beam beam = arc_->beam(receiver_.point, instant, instant);
        const std::size_t first = gather(beam);
        const DiskShares shares = disk(instant, first, sky_in(beam), fine_);
        candidates_.resize(first);
        return shares;
    }

  private:
    void trace_all(std::span<const UtcSeconds> cuts) {
        UtcSeconds from = arc_->from();
        for (const UtcSeconds cut : cuts) {
            if (cut <= from || cut >= arc_->to()) continue;
            trace_between(from, cut);
            from = cut;
        }
        if (from < arc_->to()) trace_between(from, arc_->to());
    }

    void trace_between(UtcSeconds from, UtcSeconds to) {
        const double seconds = to.seconds_after(from);
        const double count = std::ceil(seconds / longest_chunk_s);
        UtcSeconds start = from;
        for (double i = 1.0; i <= count && !is_done(); i += 1.0) {
            const UtcSeconds end = i < count ? from.plus_seconds(seconds * i / count) : to;
            const rays::Beam beam = arc_->beam(receiver_.point, start, end);
            if (sky_in(beam).hidden == Cover::whole) {
                emit(start, end, {}, true);
            } else {
                const std::size_t first = gather(beam);
                trace(start, end, first);
                candidates_.resize(first);
            }
            start = end;
        }
    }

    // Appends what stands in the beam to the candidates; gives the place of the first.
    std::size_t gather(const rays::Beam& beam) {
        const std::size_t first = candidates_.size();
        parts_.clear();
        engine_->add_parts_in(beam, parts_);
        for (const rays::Part& part : parts_) {
            if (dims(part.piece)) candidates_.push_back(book_.find(part));
        }
        return first;
    }

    // Whether a piece does anything to light today: bare crowns may let all of it through.
    [[nodiscard]] bool dims(std::uint32_t piece) const {
        const geometry::PieceOptics& optics = optics_[piece];
        const bool is_crown =
            std::holds_alternative<geometry::Crown>(engine_->garden().pieces[piece].body);
        return optics.hangs && !(is_crown && optics.k_per_m <= 0.0);
    }

    [[nodiscard]] SkyInBeam sky_in(const rays::Beam& beam) const {
        SkyInBeam sky;
        if (receiver_.outward) {
            const double facing = dot(*receiver_.outward, beam.axis);
            const double sine = sin(beam.half_angle);
            if (facing < -sine) {
                sky.hidden = Cover::whole;
                return sky;
            }
            sky = skyline_.in(beam);
            if (facing <= sine && sky.hidden != Cover::whole) {
                sky.hidden = Cover::mixed;
                sky.add(*receiver_.outward);
            }
            return sky;
        }
        return skyline_.in(beam);
    }

    // What a beam finds among candidates.
    struct Finding {
        bool is_blocked = false;       // an opaque body fills it
        std::size_t mixed_count = 0;   // bodies met by some rays only, maybe
        const Sight* mixed = nullptr;  // the last of them
        bool is_filled = false;        // something translucent fills it
        bool is_varying = false;       // and a crown is among that
        double transmittance = 1.0;    // of all that fills it and does not vary
    };

    // Copies those of the candidates from `first` on that the beam may meet to the end.
    Finding sift(const rays::Beam& beam, std::size_t first) {
        Finding finding;
        const std::size_t end = candidates_.size();
        for (std::size_t i = first; i < end && !finding.is_blocked; ++i) {
            const Sight* sight = candidates_[i];
            const Cover cover = sight->cover(beam);
            if (cover == Cover::none) continue;
            candidates_.push_back(sight);
            if (cover == Cover::mixed) {
                ++finding.mixed_count;
                finding.mixed = sight;
                continue;
            }
            finding.is_blocked = cover == Cover::dark;
            finding.is_filled = true;
            if (sight->is_uniform()) {
                finding.transmittance *= sight->transmittance();
            } else {
                finding.is_varying = true;
            }
        }
        return finding;
    }

    void trace(UtcSeconds from, UtcSeconds to, std::size_t first) {
        if (is_done()) return;
        const rays::Beam beam = arc_->beam(receiver_.point, from, to);
        const SkyInBeam sky = sky_in(beam);
        if (sky.hidden == Cover::whole) {
            emit(from, to, {}, true);
            return;
        }
        const std::size_t kept = candidates_.size();
        const Finding finding = sift(beam, first);
        settle_or_halve(beam, from, to, kept, finding, sky);
        candidates_.resize(kept);
    }

    void settle_or_halve(const rays::Beam& beam, UtcSeconds from, UtcSeconds to, std::size_t first,
                         const Finding& finding, const SkyInBeam& sky) {
        const double seconds = to.seconds_after(from);
        const bool is_even = sky.hidden == Cover::none && finding.mixed_count == 0;
        if (finding.is_blocked) {
            emit(from, to, {}, true);
        } else if (is_even && !finding.is_varying) {
            emit(from, to, shares_beside(finding), true);
        } else if (is_even && seconds <= longest_smooth_s) {
            emit_smooth(from, to, first);
        } else if (is_settled_by_edge(beam, from, to, finding, sky)) {
            return;
        } else if (seconds <= longest_leaf_s) {
            emit_leaf(from, to, first, sky);
        } else {
            const UtcSeconds middle = midway(from, to);
            trace(from, middle, first);
            trace(middle, to, first);
        }
    }

    // The shares of what a beam holds where its mixed part is not met.
    static DiskShares shares_beside(const Finding& finding) {
        if (!finding.is_filled) return {.full = 1.0, .filtered = 0.0, .effective = 1.0};
        return {.full = 0.0, .filtered = 1.0, .effective = finding.transmittance};
    }

    // True, with its slices emitted, when one straight edge is all that changes in the beam.
    bool is_settled_by_edge(const rays::Beam& beam, UtcSeconds from, UtcSeconds to,
                            const Finding& finding, const SkyInBeam& sky) {
        if (finding.is_varying || !sky.is_straight) return false;
        if (sky.count + finding.mixed_count != 1) return false;
        DiskShares inside;
        std::optional<Vec3> edge;
        if (sky.count == 1) {
            edge = sky.normals[0];
        } else {
            edge = finding.mixed->only_edge(beam);
            const double transmittance = finding.mixed->transmittance();
            if (transmittance > 0.0) {
                inside = {.full = 0.0,
                          .filtered = 1.0,
                          .effective = finding.transmittance * transmittance};
            }
        }
        transit_.clear();
        if (!edge || !add_edge_transit(*arc_, *edge, from, to, transit_)) return false;
        const DiskShares beside = shares_beside(finding);
        for (const TransitPart& part : transit_) {
            const auto mean = [&](double in, double out) { return in + part.outside * (out - in); };
            emit(part.from, part.to,
                 {.full = mean(inside.full, beside.full),
                  .filtered = mean(inside.filtered, beside.filtered),
                  .effective = mean(inside.effective, beside.effective)},
                 true);
        }
        return true;
    }

    // Translucent bodies fill the beam: Gauss's two instants give the mean of a smooth light.
    void emit_smooth(UtcSeconds from, UtcSeconds to, std::size_t first) {
        constexpr double gauss = 0.28867513459481287;  // 1 / (2 sqrt 3)
        const double seconds = to.seconds_after(from);
        const UtcSeconds middle = midway(from, to);
        double light = 0.0;
        for (const double side : {-gauss, gauss}) {
            light += 0.5 * disk(middle.plus_seconds(side * seconds), first, {}, few_).effective;
        }
        emit(from, to, {.full = 0.0, .filtered = 1.0, .effective = light}, true);
    }

    void emit_leaf(UtcSeconds from, UtcSeconds to, std::size_t first, const SkyInBeam& sky) {
        const UtcSeconds middle = midway(from, to);
        DiskShares shares = disk(middle, first, sky, usual_);
        if (is_undecided(shares)) shares = disk(middle, first, sky, fine_);
        emit(from, to, shares, false);
    }

    DiskShares disk(UtcSeconds instant, std::size_t first, const SkyInBeam& sky,
                    const DiskPoints& points) {
        const DiskView view{.origin = receiver_.point,
                            .centre = arc_->direction(instant),
                            .radius = arc_->disk_radius(),
                            .sights = std::span<const Sight* const>(candidates_).subspan(first),
                            .optics = optics_,
                            .sky_edges = sky.edges(),
                            .horizon = sky.is_straight ? nullptr : &engine_->garden().horizon};
        return sum_.shares(view, points);
    }

    void emit(UtcSeconds from, UtcSeconds to, const DiskShares& shares, bool is_settled) {
        found_sun_ = found_sun_ || shares.full + shares.filtered > 0.0;
        slices_.push_back({.from = from, .to = to, .shares = shares, .is_settled = is_settled});
    }

    [[nodiscard]] bool is_done() const { return stops_at_sun_ && found_sun_; }

    std::vector<SunSpan> spans();
    void find_changes(UtcSeconds from, SunState before, UtcSeconds to, SunState after);
    void add_change(UtcSeconds at, SunState after);

    const rays::Engine* engine_;
    Receiver receiver_;
    SightBook book_;
    Skyline skyline_;
    DiskPoints few_{8};
    DiskPoints usual_{32};
    DiskPoints fine_{128};
    DiskSum sum_;
    const SunArc* arc_ = nullptr;
    std::span<const geometry::PieceOptics> optics_;
    bool stops_at_sun_ = false;
    bool found_sun_ = false;
    std::vector<rays::Part> parts_;
    std::vector<const Sight*> candidates_;  // a stack: each level of halving on top of the last
    std::vector<TransitPart> transit_;
    std::vector<SunSlice> slices_;
    std::vector<SunSpan> spans_;
};

// A leaf's state is known at its middle, a settled slice's all along: changes lie between.
std::vector<SunSpan> SpotSun::Tracer::spans() {
    spans_.clear();
    if (slices_.empty()) return {};
    const auto first_known = [](const SunSlice& slice) {
        return slice.is_settled ? slice.from : midway(slice.from, slice.to);
    };
    const auto last_known = [](const SunSlice& slice) {
        return slice.is_settled ? slice.to : midway(slice.from, slice.to);
    };
    add_change(slices_.front().from, state_of(slices_.front().shares));
    for (std::size_t i = 1; i < slices_.size(); ++i) {
        find_changes(last_known(slices_[i - 1]), state_of(slices_[i - 1].shares),
                     first_known(slices_[i]), state_of(slices_[i].shares));
    }
    spans_.back().to = slices_.back().to;
    return std::move(spans_);
}

void SpotSun::Tracer::find_changes(UtcSeconds from, SunState before, UtcSeconds to,
                                   SunState after) {
    if (before == after) return;
    const UtcSeconds middle = midway(from, to);
    if (to.seconds_after(from) <= span_end_s) {
        add_change(middle, after);
        return;
    }
    const SunState between = state_of(shares_at(middle));
    find_changes(from, before, middle, between);
    find_changes(middle, between, to, after);
}

void SpotSun::Tracer::add_change(UtcSeconds at, SunState after) {
    if (!spans_.empty()) spans_.back().to = at;
    spans_.push_back({.state = after, .from = at, .to = at, .transmittance = 0.0});
}

SpotSun::SpotSun(const rays::Engine& engine, const rays::Sights& sights, const Receiver& receiver)
    : tracer_(std::make_unique<Tracer>(engine, sights, receiver)) {}
SpotSun::~SpotSun() = default;
SpotSun::SpotSun(SpotSun&&) noexcept = default;
SpotSun& SpotSun::operator=(SpotSun&&) noexcept = default;

DaySun SpotSun::day(const SunArc& arc, std::span<const geometry::PieceOptics> optics,
                    std::span<const UtcSeconds> cuts) {
    tracer_->begin(arc, optics);
    return tracer_->day(cuts);
}

DiskShares SpotSun::shares_at(const SunArc& arc, std::span<const geometry::PieceOptics> optics,
                              UtcSeconds instant) {
    tracer_->begin(arc, optics);
    return tracer_->shares_at(instant);
}

bool SpotSun::has_sun(const SunArc& arc, std::span<const geometry::PieceOptics> optics) {
    tracer_->begin(arc, optics);
    return tracer_->has_sun();
}

}  // namespace sunfleck::exposure
