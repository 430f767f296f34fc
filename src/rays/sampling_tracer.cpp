#include "rays/lath_boxes.h"
#include "sunfleck/base/parallel.h"
#include "sunfleck/base/require.h"
#include "sunfleck/geometry/horizon.h"
#include "sunfleck/geometry/passage.h"
#include "sunfleck/rays/light_tracer.h"

#include <algorithm>
#include <cmath>
#include <utility>
#include <variant>

namespace sunfleck::rays {
namespace {

// What one ray met.
struct Answer {
    bool is_met = false;
    double transmittance = 1.0;
    [[nodiscard]] bool is_lit() const { return transmittance > 0.0; }
    [[nodiscard]] bool is_same_state(const Answer& other) const {
        return is_lit() == other.is_lit() && is_met == other.is_met;
    }
};

bool is_transparent_to_request(const geometry::Piece& piece, LightKind kind) {
    if (kind == LightKind::everything) return false;
    if (const auto* solid = std::get_if<geometry::ConvexSolid>(&piece.body)) {
        return solid->transmittance > 0.0;
    }
    if (const auto* sheet = std::get_if<geometry::Sheet>(&piece.body)) {
        return sheet->transmittance > 0.0;
    }
    return std::holds_alternative<geometry::Crown>(piece.body);
}

class SamplingTracer final : public LightTracer {
  public:
    SamplingTracer(const Engine& engine, const SunTable& sun) : engine_(&engine), sun_(&sun) {}

    [[nodiscard]] const SunTable& sun() const override { return *sun_; }

    [[nodiscard]] LightSpans trace(const LightRequest& request) const override {
        LightSpans light(request.spots.size(), sun_->days().size());
        const bool resolves_laths =
            request.resolves_all_laths || request.kind == LightKind::opaque_only;
        std::vector<std::vector<geometry::PieceOptics>> optics;
        for (const SunTableDay& day : sun_->days()) {
            optics.push_back(optics_of(day, request.kind, resolves_laths));
        }
        const std::vector<SingleLath> laths =
            resolves_laths ? single_laths() : std::vector<SingleLath>{};
        parallel_for_each_index(request.spots.size(), request.thread_count, [&](std::size_t i) {
            trace_spot(request.spots[i], optics, laths, i, light);
        });
        return light;
    }

  private:
    // A lath of a panel as a solid.
    struct SingleLath {
        geometry::Piece solid;
    };

    [[nodiscard]] std::vector<SingleLath> single_laths() const {
        std::vector<SingleLath> laths;
        for (const geometry::Piece& panel : engine_->garden().pieces) {
            const auto* body = std::get_if<geometry::LathBody>(&panel.body);
            if (body == nullptr) continue;
            for (geometry::ConvexSolid& box : lath_boxes(*body)) {
                geometry::Piece piece = panel;
                piece.body = std::move(box);
                geometry::fit_box(piece);
                laths.push_back({.solid = std::move(piece)});
            }
        }
        return laths;
    }

    [[nodiscard]] std::vector<geometry::PieceOptics> optics_of(const SunTableDay& day,
                                                               LightKind kind,
                                                               bool resolves_laths) const {
        std::vector<geometry::PieceOptics> optics =
            geometry::optics_on(engine_->garden(), day.date);
        for (std::size_t i = 0; i < optics.size(); ++i) {
            const geometry::Piece& piece = engine_->garden().pieces[i];
            const bool is_resolved_by_us =
                resolves_laths && std::holds_alternative<geometry::LathBody>(piece.body);
            if (is_transparent_to_request(piece, kind) || is_resolved_by_us) {
                optics[i].hangs = false;
            }
        }
        return optics;
    }

    void trace_spot(const LightSpot& spot,
                    const std::vector<std::vector<geometry::PieceOptics>>& optics,
                    std::span<const SingleLath> laths, std::size_t index, LightSpans& light) const {
        std::vector<std::uint32_t> first{0};
        std::vector<LightSpan> spans;
        for (std::size_t d = 0; d < sun_->days().size(); ++d) {
            add_day(sun_->days()[d], optics[d], laths, spot, spans);
            first.push_back(static_cast<std::uint32_t>(spans.size()));
        }
        light.set_spot(index, first, spans);
    }

    void add_day(const SunTableDay& day, std::span<const geometry::PieceOptics> optics,
                 std::span<const SingleLath> laths, const LightSpot& spot,
                 std::vector<LightSpan>& spans) const {
        constexpr int half = ticks_per_minute / 2;
        int run_from = 0;
        Answer run{.is_met = true, .transmittance = 0.0};
        double sum = 0.0;
        int count = 0;
        const auto end_run = [&](int tick) {
            if (run.is_lit()) add_span(run_from, tick, run, sum / count, spans);
            sum = 0.0;
            count = 0;
            run_from = tick;
        };
        for (int i = day.first_asked(); i < day.end_asked(); ++i) {
            const Answer here = ask(sun_->direction(day, i), day, optics, laths, spot);
            if (!here.is_same_state(run)) {
                end_run(std::max(int{day.up_from_tick}, i * ticks_per_minute - half));
                run = here;
            }
            sum += here.transmittance;
            ++count;
        }
        end_run(day.up_to_tick);
    }

    static void add_span(int from, int to, const Answer& state, double mean,
                         std::vector<LightSpan>& spans) {
        float transmittance = static_cast<float>(mean);
        if (state.is_met) transmittance = std::min(transmittance, std::nextafter(1.0F, 0.0F));
        spans.push_back({.from_tick = static_cast<std::uint16_t>(from),
                         .to_tick = static_cast<std::uint16_t>(to),
                         .transmittance = transmittance});
    }

    [[nodiscard]] Answer ask(Vec3 direction, const SunTableDay& day,
                             std::span<const geometry::PieceOptics> optics,
                             std::span<const SingleLath> laths, const LightSpot& spot) const {
        const bool is_hidden = spot.outward && !(dot(*spot.outward, direction) > 0.0);
        if (is_hidden || !geometry::is_over_horizon(engine_->garden().horizon, direction)) {
            return {.is_met = true, .transmittance = 0.0};
        }
        for (const SingleLath& lath : laths) {
            const geometry::PieceOptics own = geometry::optics_on(lath.solid, day.date);
            if (geometry::pass(lath.solid, own, spot.point, direction).is_met) {
                return {.is_met = true, .transmittance = 0.0};
            }
        }
        geometry::Passage passage;
        engine_->pass_towards(direction, optics, std::span(&spot.point, 1), std::span(&passage, 1));
        return {.is_met = passage.is_met, .transmittance = passage.transmittance};
    }

    const Engine* engine_;
    const SunTable* sun_;
};

}  // namespace

std::unique_ptr<LightTracer> make_sampling_tracer(const Engine& engine, const SunTable& sun) {
    return std::make_unique<SamplingTracer>(engine, sun);
}

}  // namespace sunfleck::rays
