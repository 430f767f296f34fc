#include "scene/scene_keys.h"

namespace sunfleck::scene {

namespace {

/// Tolerances are 0 to 1 in files and 0 to 5 inside, the scale of the trade's tables.
constexpr double tolerance_scale = 5.0;

void add_tolerance(ObjectKeys<OwnWants>& keys, KeyHead head,
                   std::optional<double> OwnWants::*tolerance) {
    keys.key(
        std::move(head), {NumberShape{0.0, 1.0}},
        [tolerance](OwnWants& wants, const Value& value, const Reading&) {
            wants.*tolerance = tolerance_scale * value->number;
        },
        [tolerance](const OwnWants& wants) {
            const std::optional<double>& inside = wants.*tolerance;
            return inside ? number_in_key_unit(*inside / tolerance_scale, 1.0) : std::string();
        });
}

ObjectKeys<OwnWants> make_wants_keys() {
    ObjectKeys<OwnWants> keys("wants", "What the tree wants, where it differs from its species.");
    keys.number({"sun_min_h", "least sun", "Hours of direct sun a day that keep it compact."},
                {0, 24}, &OwnWants::sun_min_h);
    keys.number({"sun_max_h", "most sun", "Hours of direct sun that it bears on a hot clear day."},
                {0, 24}, &OwnWants::sun_max_h);
    add_tolerance(keys, {"drought_tolerance_fraction", "drought tolerance", "0 none, 1 most."},
                  &OwnWants::drought_tolerance);
    add_tolerance(keys, {"shade_tolerance_fraction", "shade tolerance", "0 none, 1 most."},
                  &OwnWants::shade_tolerance);
    keys.word<ScorchRisk>(
        {"scorch_risk", "scorch risk", "How easily its leaves burn."},
        {{"low", ScorchRisk::low}, {"medium", ScorchRisk::medium}, {"high", ScorchRisk::high}},
        &OwnWants::scorch_risk);
    keys.number({"shelter_below_c", "shelter temperature", "Colder than this it wants shelter."},
                {-60, 25}, &OwnWants::shelter_below_c);
    return keys;
}

ObjectKeys<StateUntil> make_state_keys() {
    ObjectKeys<StateUntil> keys("state", "A passing state, in which it wants shade.");
    keys.word<PassingState>({"is", "state", "What was done to it.", Need::required},
                            {{"repotted", PassingState::repotted},
                             {"defoliated", PassingState::defoliated},
                             {"wired", PassingState::wired},
                             {"sick", PassingState::sick}},
                            &StateUntil::state);
    keys.key(
        {"until", "end of the state", "The last day of it.", Need::required},
        {TextShape{TextForm::date}},
        [](StateUntil& state, const Value& value, const Reading& reading) {
            const auto date = parse_date(value->text);
            if (date) {
                state.until = *date;
            } else {
                reading.complain(value, "no_such_day", "There is no " + value->text + ".",
                                 "That year has no 29 February.");
            }
        },
        [](const StateUntil& state) { return json_quoted(iso_date(state.until)); });
    return keys;
}

void add_place(ObjectKeys<Pot>& keys) {
    keys.label("pot", &Pot::label);
    keys.text({"species", "species", "Botanical or common name."}, TextForm::free, &Pot::species);
    keys.text({"spot", "spot", "Where it stands now."}, TextForm::spot, &Pot::spot);
    keys.flag({"pinned", "pin", "Whether it must stay where it stands."}, &Pot::pinned);
    keys.texts({"not_on", "list of places", "Benches, stands and spots where it must not stand."},
               TextForm::spot, {0, 1000}, &Pot::not_on);
}

void add_sizes(ObjectKeys<Pot>& keys) {
    keys.number({"pot_length_cm", "length of the pot", "Outside, along the bench."}, {1, 300},
                &Pot::pot_length_m);
    keys.number({"pot_width_cm", "width of the pot", "Outside, across the bench."}, {1, 300},
                &Pot::pot_width_m);
    keys.number({"pot_height_cm", "height of the pot", "Outside."}, {0.5, 200}, &Pot::pot_height_m);
    keys.number({"crown_width_cm", "width of the crown", "The widest."}, {0.5, 600},
                &Pot::crown_width_m);
    keys.number({"crown_height_cm", "height of the crown", "From the pot's rim to the top."},
                {0.5, 600}, &Pot::crown_height_m);
    keys.number({"soil_l", "volume of soil", "In the pot."}, {0.005, 1000}, &Pot::soil_l);
    keys.number({"weight_kg", "weight", "Watered, with its tree."}, {0.01, 2000}, &Pot::weight_kg);
    keys.number({"receiver_height_m", "receiver height",
                 "Of the point whose sun is asked, above the top it stands on."},
                {0, 5}, &Pot::receiver_height_m);
}

ObjectKeys<Pot> make_pot_keys() {
    static const ObjectKeys<OwnWants> wants = make_wants_keys();
    static const ObjectKeys<StateUntil> state = make_state_keys();
    ObjectKeys<Pot> keys("pot", "A tree in its pot.");
    add_place(keys);
    add_sizes(keys);
    keys.word<PotColour>(
        {"pot_colour", "colour of the pot", "How dark its wall is."},
        {{"pale", PotColour::pale}, {"medium", PotColour::medium}, {"dark", PotColour::dark}},
        &Pot::colour);
    keys.text({"substrate", "substrate", "What it grows in."}, TextForm::free, &Pot::substrate);
    keys.number({"count", "count", "Of a batch of equal pots; each takes a spot."}, {1, 1000},
                &Pot::count);
    keys.object({"wants", "wants", "In place of the species'."}, wants, &Pot::own_wants);
    keys.object({"state", "state", "A passing state such as repotted."}, state, &Pot::state);
    keys.note();
    return keys;
}

}  // namespace

const ObjectKeys<Pot>& pot_keys() {
    static const ObjectKeys<Pot> keys = make_pot_keys();
    return keys;
}

void add_pot_keys(ObjectKeys<Scene>& keys) {
    keys.objects({"pots", "list of pots", "The trees in their pots."}, pot_keys(), {0, most_pots},
                 &Scene::pots);
}

}  // namespace sunfleck::scene
