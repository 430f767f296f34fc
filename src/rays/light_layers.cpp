#include "sunfleck/rays/light_layers.h"

#include "rays/day_frames.h"
#include "rays/light_kernels.h"
#include "rays/sky_windows.h"
#include "rays/spot_tracer.h"
#include "rays/traced_garden.h"
#include "sunfleck/base/parallel.h"
#include "sunfleck/base/require.h"

#include <algorithm>
#include <array>
#include <iterator>
#include <string>
#include <utility>

namespace sunfleck::rays {
namespace {

// What a layer does to every spot: one after another, with the place of each spot's first.
struct LayerItems {
    std::vector<ShadeItem> shades;
    std::vector<VeilItem> veils;  // numbered from the layer's first piece
    std::vector<std::uint32_t> first_shade;
    std::vector<std::uint32_t> first_veil;

    [[nodiscard]] std::span<const ShadeItem> shades_at(std::size_t spot) const {
        return std::span(shades).subspan(first_shade[spot],
                                         first_shade[spot + 1] - first_shade[spot]);
    }
    [[nodiscard]] std::span<const VeilItem> veils_at(std::size_t spot) const {
        return std::span(veils).subspan(first_veil[spot], first_veil[spot + 1] - first_veil[spot]);
    }
    [[nodiscard]] bool touches(std::size_t spot) const {
        return !shades_at(spot).empty() || !veils_at(spot).empty();
    }
    /// No spot yet.
    void clear() {
        shades.clear();
        veils.clear();
        first_shade.assign(1, 0);
        first_veil.assign(1, 0);
    }
    void end_spot() {
        first_shade.push_back(static_cast<std::uint32_t>(shades.size()));
        first_veil.push_back(static_cast<std::uint32_t>(veils.size()));
    }
    void append(const LayerItems& part) {
        const auto shade_base = static_cast<std::uint32_t>(shades.size());
        const auto veil_base = static_cast<std::uint32_t>(veils.size());
        for (std::size_t i = 1; i < part.first_shade.size(); ++i) {
            first_shade.push_back(shade_base + part.first_shade[i]);
            first_veil.push_back(veil_base + part.first_veil[i]);
        }
        shades.insert(shades.end(), part.shades.begin(), part.shades.end());
        veils.insert(veils.end(), part.veils.begin(), part.veils.end());
    }
};

// An object: its pieces follow one another in the garden and among the traced ones.
struct Layer {
    std::uint32_t object = 0;
    std::size_t first_piece = 0;
    std::size_t piece_count = 0;
    std::size_t first_traced = 0;
    std::size_t traced_count = 0;
    LayerItems items;
};

// Pieces of one object after another, in the order in which objects first appear.
geometry::Garden by_objects(const geometry::Garden& garden, std::vector<Layer>& layers) {
    geometry::Garden sorted = garden;
    sorted.pieces.clear();
    for (const geometry::Piece& first : garden.pieces) {
        const bool is_known = std::any_of(layers.begin(), layers.end(), [&](const Layer& layer) {
            return layer.object == first.object;
        });
        if (is_known) continue;
        Layer layer{.object = first.object, .first_piece = sorted.pieces.size()};
        for (const geometry::Piece& piece : garden.pieces) {
            if (piece.object == first.object) sorted.pieces.push_back(piece);
        }
        layer.piece_count = sorted.pieces.size() - layer.first_piece;
        layers.push_back(std::move(layer));
    }
    return sorted;
}

// Spots for one task: about as many spot-days in each.
std::size_t spots_per_task(std::size_t day_count) {
    return std::clamp<std::size_t>(2048 / std::max<std::size_t>(day_count, 1), 16, 256);
}

}  // namespace

class LightLayers::Parts {
  public:
    Parts(const geometry::Garden& garden, const SunTable& sun, const LightRequest& request)
        : sun_(&sun),
          frames_(day_frames(sun)),
          sky_(sun, garden.horizon, request.thread_count),
          spots_(request.spots.begin(), request.spots.end()),
          request_(request),
          garden_(by_objects(garden, layers_)),
          light_(request.spots.size(), sun.days().size()) {
        request_.spots = {};
        for (Layer& layer : layers_) {
            layer.first_traced = traced_.size();
            for (std::size_t i = 0; i < layer.piece_count; ++i) {
                add_traced_piece(garden_, static_cast<std::uint32_t>(layer.first_piece + i), sun,
                                 choice(), traced_);
            }
            layer.traced_count = traced_.size() - layer.first_traced;
        }
        half_spaces_ = items_of([](SpotTracer& tracer, const LightSpot& spot, SpotItems& items) {
            tracer.find_half_space(spot, items);
        });
        for (Layer& layer : layers_) find(layer);
        std::vector<std::uint32_t> all(spots_.size());
        for (std::size_t i = 0; i < all.size(); ++i) all[i] = static_cast<std::uint32_t>(i);
        if (layers_.empty()) layer_of(0);
        mix(layers_.front(), all, nullptr);
    }

    std::vector<std::uint32_t> replace(std::uint32_t object, std::vector<geometry::Piece> pieces) {
        Layer& layer = layer_of(object);
        const LayerItems before = std::move(layer.items);
        for (geometry::Piece& piece : pieces) piece.object = object;
        put(layer, std::move(pieces));
        find(layer);
        std::vector<std::uint32_t> changed;
        for (std::size_t i = 0; i < spots_.size(); ++i) {
            if (before.touches(i) || layer.items.touches(i)) {
                changed.push_back(static_cast<std::uint32_t>(i));
            }
        }
        mix(layer, changed, &before);
        return changed;
    }

    [[nodiscard]] const LightSpans& light() const { return light_; }
    [[nodiscard]] const geometry::Garden& garden() const { return garden_; }

  private:
    [[nodiscard]] TraceChoice choice() const {
        return {.kind = request_.kind, .resolves_all_laths = request_.resolves_all_laths};
    }
    [[nodiscard]] TraceScene scene() const {
        return {.garden = &garden_,
                .sun = sun_,
                .frames = &frames_,
                .sky = &sky_,
                .kernels = &light_kernels(request_.simd_target),
                .pieces = traced_,
                .longest_varying_min = request_.longest_varying_min};
    }

    Layer& layer_of(std::uint32_t object) {
        const auto known = std::find_if(layers_.begin(), layers_.end(),
                                        [&](const Layer& layer) { return layer.object == object; });
        if (known != layers_.end()) return *known;
        rest_of_ = static_cast<std::size_t>(-1);
        layers_.push_back({.object = object,
                           .first_piece = garden_.pieces.size(),
                           .first_traced = traced_.size()});
        layers_.back().items.first_shade.assign(spots_.size() + 1, 0);
        layers_.back().items.first_veil.assign(spots_.size() + 1, 0);
        return layers_.back();
    }

    // Puts the pieces in the layer's place; later layers and pieces move along.
    void put(Layer& layer, std::vector<geometry::Piece> pieces) {
        const auto piece = [&](std::size_t at) {
            return garden_.pieces.begin() + static_cast<std::ptrdiff_t>(at);
        };
        const auto traced = [&](std::size_t at) {
            return traced_.begin() + static_cast<std::ptrdiff_t>(at);
        };
        const std::size_t old_pieces = layer.piece_count;
        const std::size_t old_traced = layer.traced_count;
        garden_.pieces.erase(piece(layer.first_piece), piece(layer.first_piece + old_pieces));
        traced_.erase(traced(layer.first_traced), traced(layer.first_traced + old_traced));
        layer.piece_count = pieces.size();
        garden_.pieces.insert(piece(layer.first_piece), std::make_move_iterator(pieces.begin()),
                              std::make_move_iterator(pieces.end()));
        std::vector<TracedPiece> made;
        for (std::size_t i = 0; i < layer.piece_count; ++i) {
            add_traced_piece(garden_, static_cast<std::uint32_t>(layer.first_piece + i), *sun_,
                             choice(), made);
        }
        layer.traced_count = made.size();
        traced_.insert(traced(layer.first_traced), std::make_move_iterator(made.begin()),
                       std::make_move_iterator(made.end()));
        for (std::size_t i = layer.first_traced + layer.traced_count; i < traced_.size(); ++i) {
            traced_[i].piece += static_cast<std::uint32_t>(layer.piece_count - old_pieces);
        }
        // Layers lie in the vector as their pieces do in the garden; empty ones keep their place.
        for (Layer& other : layers_) {
            if (&other <= &layer) continue;
            other.first_piece += layer.piece_count - old_pieces;
            other.first_traced += layer.traced_count - old_traced;
        }
    }

    void find(Layer& layer) {
        layer.items = items_of([&](SpotTracer& tracer, const LightSpot& spot, SpotItems& items) {
            tracer.find(spot, layer.first_traced, layer.first_traced + layer.traced_count, items);
        });
        for (VeilItem& veil : layer.items.veils) {
            veil.piece = static_cast<std::uint16_t>(veil.piece - layer.first_traced);
        }
    }

    // Asks `find(tracer, spot, items)` for every spot.
    template <typename Find>
    [[nodiscard]] LayerItems items_of(const Find& find) const {
        const std::size_t chunk = spots_per_task(sun_->days().size());
        std::vector<LayerItems> parts((spots_.size() + chunk - 1) / chunk);
        const TraceScene shared = scene();
        parallel_for_each_index(parts.size(), request_.thread_count, [&](std::size_t task) {
            SpotTracer tracer(shared);
            SpotItems items;
            LayerItems& part = parts[task];
            part.clear();
            const std::size_t end = std::min((task + 1) * chunk, spots_.size());
            for (std::size_t spot = task * chunk; spot < end; ++spot) {
                items.clear();
                find(tracer, spots_[spot], items);
                const auto shades = items.shades.all();
                const auto veils = items.veils.all();
                part.shades.insert(part.shades.end(), shades.begin(), shades.end());
                part.veils.insert(part.veils.end(), veils.begin(), veils.end());
                part.end_spot();
            }
        });
        LayerItems whole;
        whole.clear();
        for (const LayerItems& part : parts) whole.append(part);
        return whole;
    }

    // Of each spot: what the layers from one on to another do, numbered among all traced pieces.
    [[nodiscard]] LayerItems joined(std::size_t first, std::size_t end) const {
        LayerItems all;
        all.clear();
        for (std::size_t spot = 0; spot < spots_.size(); ++spot) {
            for (std::size_t i = first; i < end; ++i) {
                const auto shades = layers_[i].items.shades_at(spot);
                all.shades.insert(all.shades.end(), shades.begin(), shades.end());
                for (VeilItem veil : layers_[i].items.veils_at(spot)) {
                    veil.piece = static_cast<std::uint16_t>(veil.piece + layers_[i].first_traced);
                    all.veils.push_back(veil);
                }
            }
            all.end_spot();
        }
        return all;
    }

    // Joins all layers but one, once for many changes of that one.
    void keep_rest_of(const Layer& layer) {
        const auto index = static_cast<std::size_t>(&layer - layers_.data());
        if (rest_of_ == index) return;
        before_ = joined(0, index);
        after_ = joined(index + 1, layers_.size());
        after_base_ = layer.first_traced + layer.traced_count;
        rest_of_ = index;
    }

    // Pieces after the changed layer may have moved since they were joined.
    void gather(std::size_t spot, const Layer& layer, SpotItems& items) const {
        items.clear();
        const auto shift = static_cast<std::ptrdiff_t>(layer.first_traced + layer.traced_count) -
                           static_cast<std::ptrdiff_t>(after_base_);
        const auto add = [&](const LayerItems& part, std::ptrdiff_t base) {
            for (const ShadeItem& shade : part.shades_at(spot)) items.shades.add(shade);
            for (VeilItem veil : part.veils_at(spot)) {
                veil.piece = static_cast<std::uint16_t>(veil.piece + base);
                items.veils.add(veil);
            }
        };
        add(half_spaces_, 0);
        add(before_, 0);
        add(layer.items, static_cast<std::ptrdiff_t>(layer.first_traced));
        add(after_, shift);
    }

    // `before`: what the layer did before it changed; null when nothing was mixed yet.
    void mix(const Layer& layer, const std::vector<std::uint32_t>& changed,
             const LayerItems* before) {
        keep_rest_of(layer);
        const std::size_t chunk = spots_per_task(sun_->days().size());
        const std::size_t tasks = (changed.size() + chunk - 1) / chunk;
        const TraceScene shared = scene();
        parallel_for_each_index(tasks, request_.thread_count, [&](std::size_t task) {
            SpotTracer tracer(shared);
            SpotItems items;
            DaySpans days;
            const std::size_t end = std::min((task + 1) * chunk, changed.size());
            for (std::size_t i = task * chunk; i < end; ++i) {
                gather(changed[i], layer, items);
                days.clear();
                KnownSpans known{.light = &light_,
                                 .spot = changed[i],
                                 .first_piece = layer.first_traced,
                                 .end_piece = layer.first_traced + layer.traced_count};
                if (before != nullptr) known.old_veils = before->veils_at(changed[i]);
                tracer.mix(spots_[changed[i]], items, days, before != nullptr ? &known : nullptr);
                light_.set_spot(changed[i], days.first, days.spans);
            }
        });
    }

    const SunTable* sun_;
    DayFrames frames_;
    SkyWindows sky_;
    std::vector<LightSpot> spots_;
    LightRequest request_;
    std::vector<Layer> layers_;
    geometry::Garden garden_;
    std::vector<TracedPiece> traced_;
    LayerItems half_spaces_;
    LayerItems before_;  // of all layers before the one changed last, and after it
    LayerItems after_;
    std::size_t rest_of_ = static_cast<std::size_t>(-1);  // that layer
    std::size_t after_base_ = 0;  // number of the first traced piece of after_ when it was joined
    LightSpans light_;
};

LightLayers::LightLayers(const geometry::Garden& garden, const SunTable& sun,
                         const LightRequest& request)
    : parts_(std::make_unique<Parts>(garden, sun, request)) {}
LightLayers::~LightLayers() = default;
LightLayers::LightLayers(LightLayers&&) noexcept = default;
LightLayers& LightLayers::operator=(LightLayers&&) noexcept = default;

std::vector<std::uint32_t> LightLayers::replace_object(std::uint32_t object,
                                                       std::vector<geometry::Piece> pieces) {
    return parts_->replace(object, std::move(pieces));
}

const LightSpans& LightLayers::light() const {
    return parts_->light();
}

const geometry::Garden& LightLayers::garden() const {
    return parts_->garden();
}

}  // namespace sunfleck::rays
