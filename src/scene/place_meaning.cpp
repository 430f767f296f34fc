#include "scene/findings.h"
#include "sunfleck/base/plain_words.h"
#include "sunfleck/base/unicode_text.h"

#include <algorithm>
#include <map>

namespace sunfleck::scene {
namespace {

/// Where pots stand: at spots that are there, one each, fitting and not too heavy.
class PlaceCheck {
  public:
    PlaceCheck(const CheckedGarden& garden, Findings& findings)
        : garden_(garden), findings_(findings), footprints_(garden.spots) {}

    void run() {
        for (const Pot& pot : garden_.scene.pots) {
            check_exclusions(pot);
            if (const auto spot = spot_of(pot)) place(pot, *spot);
        }
        check_overlaps();
        check_loads();
    }

  private:
    struct Standing {
        const Pot* pot = nullptr;
        std::size_t first = 0;
        std::vector<std::size_t> under_pot;  ///< cells under the pot itself
    };

    [[nodiscard]] const Label* holder_named(std::string_view id) const {
        for (const Bench& bench : garden_.scene.benches) {
            if (bench.label.id == id) return &bench.label;
        }
        for (const PostStand& stand : garden_.scene.post_stands) {
            if (stand.label.id == id) return &stand.label;
        }
        return nullptr;
    }

    [[nodiscard]] std::string mend_for_spot(const std::string& id,
                                            const std::string& nearest) const {
        if (holder_named(id) != nullptr) {
            const auto on_it = std::count_if(garden_.spots.begin(), garden_.spots.end(),
                                             [&id](const Spot& s) { return s.bench == id; });
            return "That is a bench; its spots are " + id + "-1 to " + id + "-" +
                   std::to_string(on_it) + ".";
        }
        return nearest.empty() ? "Spots are written A-3: the bench's id and the spot's number."
                               : "The nearest is " + nearest + ".";
    }

    std::optional<std::size_t> spot_of(const Pot& pot) {
        if (pot.spot.empty()) {
            if (pot.pinned) {
                findings_.error({.code = "pinned_nowhere",
                                 .pointer = pot.label.pointer + "/pinned",
                                 .message = called(pot.label) + " is pinned but stands nowhere.",
                                 .mend = "Give its spot, or lift the pin."});
            }
            return std::nullopt;
        }
        const auto found = find_spot(garden_.spots, pot.spot);
        if (!found) {
            const std::string nearest = nearest_spot(garden_.spots, nfc(pot.spot));
            findings_.error({.code = "no_such_spot",
                             .pointer = pot.label.pointer + "/spot",
                             .message = std::string("There is no spot ") + pot.spot + ", where " +
                                        called(pot.label) +
                                        (pot.pinned ? " is pinned." : " stands."),
                             .mend = mend_for_spot(pot.spot, nearest),
                             .nearest = nearest});
        }
        return found;
    }

    [[nodiscard]] bool is_place(const std::string& id) const {
        return holder_named(id) != nullptr || find_spot(garden_.spots, id).has_value();
    }

    void check_exclusions(const Pot& pot) {
        for (std::size_t i = 0; i < pot.not_on.size(); ++i) {
            const std::string id = nfc(pot.not_on[i]);
            const std::string pointer = pot.label.pointer + "/not_on/" + std::to_string(i);
            if (!is_place(id)) {
                const std::string nearest = nearest_spot(garden_.spots, id);
                findings_.error({.code = "no_such_place",
                                 .pointer = pointer,
                                 .message = "There is no bench, stand or spot " + id + ".",
                                 .mend = nearest.empty() ? "Write a bench's id or a spot's."
                                                         : "The nearest spot is " + nearest + ".",
                                 .nearest = nearest});
                continue;
            }
            const auto spot = find_spot(garden_.spots, pot.spot);
            if (!pot.pinned || !spot) continue;
            if (id != garden_.spots[*spot].id && id != garden_.spots[*spot].bench) continue;
            findings_.error({.code = "pinned_where_excluded",
                             .pointer = pointer,
                             .message = called(pot.label) + " is pinned at " + pot.spot +
                                        ", where it must not stand.",
                             .mend = "Lift the pin or the exclusion."});
        }
    }

    void place(const Pot& pot, std::size_t spot) {
        Pot bare = pot;
        bare.crown_width_m = 0.0;
        const auto under_pot = footprints_.cells_covered(bare, spot);
        if (!under_pot) {
            report_misfit(pot, garden_.spots[spot]);
        }
        standing_.push_back({&pot, spot, under_pot.value_or(std::vector<std::size_t>{spot})});
        check_headroom(pot, garden_.spots[spot]);
    }

    void report(const Pot& pot, Findings::Words words) {
        pot.pinned ? findings_.error(std::move(words)) : findings_.warning(std::move(words));
    }

    void report_misfit(const Pot& pot, const Spot& spot) {
        report(pot,
               {.code = "pot_does_not_fit",
                .pointer = pot.label.pointer + "/spot",
                .message = called(pot.label) + " is " + length_words(pot.pot_length_m) +
                           " long and " + length_words(pot.pot_width_m) + " deep; counted from " +
                           spot.id + " it passes the end or the edge of " +
                           called(holder_label(garden_.scene, spot)) + ".",
                .mend = "A wide pot is said to stand at the first of its spots, the one with "
                        "the lowest number."});
    }

    void check_headroom(const Pot& pot, const Spot& spot) {
        const double height_m = pot.pot_height_m + pot.crown_height_m;
        if (!spot.headroom_m || height_m <= *spot.headroom_m) return;
        report(pot,
               {.code = "too_tall_for_tier",
                .pointer = pot.label.pointer + "/spot",
                .message = called(pot.label) + " is " + length_words(height_m) + " high; over " +
                           spot.id + " the next tier is " + length_words(*spot.headroom_m) + " up.",
                .mend = "Let it stand elsewhere."});
    }

    void check_overlaps() {
        std::map<std::size_t, std::vector<const Standing*>> on_cell;
        for (const Standing& standing : standing_) {
            for (const std::size_t cell : standing.under_pot) on_cell[cell].push_back(&standing);
        }
        std::map<std::pair<const Pot*, const Pot*>, std::size_t> told;
        for (const auto& [cell, pots] : on_cell) {
            for (std::size_t i = 1; i < pots.size(); ++i) {
                if (told.emplace(std::pair(pots[0]->pot, pots[i]->pot), cell).second) {
                    report_overlap(*pots[0], *pots[i], cell);
                }
            }
        }
    }

    void report_overlap(const Standing& one, const Standing& other, std::size_t cell) {
        const std::string both = called(one.pot->label) + " and " + called(other.pot->label);
        const std::string spot = garden_.spots[cell].id;
        if (one.pot->pinned && other.pot->pinned) {
            findings_.error({.code = "pins_clash",
                             .pointer = other.pot->label.pointer + "/spot",
                             .message = "Two pins want the same spot, " + spot + ": " + both + ".",
                             .mend = "Lift one."});
        } else if (one.first == other.first) {
            findings_.error({.code = "two_pots_at_spot",
                             .pointer = other.pot->label.pointer + "/spot",
                             .message = both + " both stand at " + spot + ".",
                             .mend = "Give one of them another spot, or none."});
        } else {
            report(one.pot->pinned ? *one.pot : *other.pot,
                   {.code = "pots_overlap",
                    .pointer = other.pot->label.pointer + "/spot",
                    .message = both + " overlap at " + spot + ".",
                    .mend = "A wide pot covers the spots after its own too."});
        }
    }

    void check_loads() {
        std::map<std::pair<std::string, int>, double> load_kg;
        std::map<std::pair<std::string, int>, double> pinned_kg;
        for (const Standing& standing : standing_) {
            const Spot& spot = garden_.spots[standing.first];
            load_kg[{spot.bench, spot.tier}] += standing.pot->weight_kg;
            if (standing.pot->pinned) {
                pinned_kg[{spot.bench, spot.tier}] += standing.pot->weight_kg;
            }
        }
        for (const LoadLimit& limit : load_limits(garden_.scene)) {
            const std::pair key(limit.holder_id, limit.tier);
            // A gram, so that sums of rounded weights do not differ by their order.
            const double allowed_kg = limit.max_load_kg + 0.001;
            const bool is_pinned = pinned_kg[key] > allowed_kg;
            if (load_kg[key] <= allowed_kg) continue;
            const Label* holder = holder_named(limit.holder_id);
            const Findings::Words words{
                .code = "load_above_limit",
                .pointer = holder->pointer,
                .message = called(*holder) + " carries " +
                           weight_words(is_pinned ? pinned_kg[key] : load_kg[key]) +
                           (is_pinned ? " of pinned pots" : "") + " on tier " +
                           std::to_string(limit.tier) + ", more than its " +
                           weight_words(limit.max_load_kg) + ".",
                .mend = "Take pots off before it gives way."};
            is_pinned ? findings_.error(words) : findings_.warning(words);
        }
    }

    const CheckedGarden& garden_;
    Findings& findings_;
    Footprints footprints_;
    std::vector<Standing> standing_;
};

}  // namespace

void check_places(const CheckedGarden& garden, Findings& findings) {
    PlaceCheck(garden, findings).run();
}

}  // namespace sunfleck::scene
