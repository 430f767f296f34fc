#pragma once

#include "sunfleck/document/document.h"
#include "sunfleck/output/plan_view.h"
#include "sunfleck/sun/civil_time.h"
#include "window/input.h"
#include "window/plan_answers.h"
#include "window/regions.h"
#include "window/sky_moment.h"
#include "window/sun_answers.h"

#include <optional>
#include <string>
#include <vector>

namespace sunfleck::window {

/// What of the window must be drawn anew.
struct Stale {
    bool sky = true;
    bool ground = true;
    bool page = true;
    bool path = true;
};

/// The stepping stones that can be stood on so far.
enum class Stone { sun, plan };

/// What the window shows, and what a hand may do to it. Knows no screen: it is driven by Input
/// from mouse, keyboard or script, and drawn by others. What must be computed is asked for in
/// wanted_day() and wanted_year() and handed back by take().
class ViewModel {
  public:
    /// `today`: the date that "Today" means and that the window opens on.
    ViewModel(document::Document document, sun::TimeZone zone, SkyMoment today);

    void react(const Input& input);

    [[nodiscard]] const document::Document& document() const { return document_; }
    [[nodiscard]] const scene::Scene& scene() const { return document_.scene(); }
    [[nodiscard]] const sun::TimeZone& zone() const { return zone_; }
    [[nodiscard]] const std::vector<scene::Spot>& spots() const { return spots_; }
    [[nodiscard]] SkyMoment moment() const { return moment_; }
    [[nodiscard]] UtcSeconds instant() const { return instant_of(moment_, zone_); }
    [[nodiscard]] const Regions& regions() const { return regions_; }
    [[nodiscard]] const output::PlanView& plan_view() const { return plan_view_; }
    [[nodiscard]] std::optional<std::size_t> chosen_spot() const { return chosen_spot_; }
    [[nodiscard]] std::optional<std::size_t> pointed_spot() const { return pointed_spot_; }
    /// The page shows the chosen spot alone.
    [[nodiscard]] bool is_spot_open() const { return is_spot_open_; }
    /// Playing the day: the clock runs by itself.
    [[nodiscard]] bool is_playing() const { return is_playing_; }
    /// First row of the page's list that is shown.
    [[nodiscard]] std::size_t first_row() const { return first_row_; }
    /// Changes that were found from a session that ended without keeping them; empty: none.
    [[nodiscard]] bool has_found_changes() const { return !found_text_.empty(); }
    /// Offers a text found so.
    void offer_found_changes(std::string text);
    /// Puts them in place of the garden as it was kept; undo brings that back.
    void take_found_changes();
    void leave_found_changes();
    /// What went wrong at last, in the place; empty: nothing.
    [[nodiscard]] const std::string& trouble() const { return trouble_; }

    /// The newest answers, which may be of another date or an older garden; null before the first.
    [[nodiscard]] const DayAnswers* day() const { return day_ ? &*day_ : nullptr; }
    [[nodiscard]] const YearAnswers* year() const { return year_ ? &*year_ : nullptr; }
    [[nodiscard]] Stone stone() const { return stone_; }
    /// Which plan the page asks for; nothing when the scene has no seasons or another stone is
    /// stood on.
    [[nodiscard]] std::optional<PlanAsked> wanted_plan() const;
    [[nodiscard]] const std::string& season() const { return season_; }
    [[nodiscard]] const PlanAnswers* plan() const { return plan_ ? &*plan_ : nullptr; }
    [[nodiscard]] bool is_plan_current() const;
    [[nodiscard]] bool is_day_current() const;
    [[nodiscard]] bool is_year_current() const;
    void take(DayAnswers answers);
    void take(YearAnswers answers);
    void take(PlanAnswers answers);
    void take_trouble(const Problems& problems);

    /// Lets time pass while the day is played: a day in 8 s.
    void let_pass(double seconds);
    /// What changed since it was asked last.
    [[nodiscard]] Stale take_stale();

    // What buttons do; each also has a key.
    void play_or_stop();
    void go_to_noon();
    void go_to_today();
    void set_moment(SkyMoment moment);
    void choose_spot(std::optional<std::size_t> spot);
    void open_spot();
    void close_spot();
    void go_to(Stone stone);
    /// The season so many seasons on.
    void step_season(int steps);
    /// Makes the plan the pots' own places.
    void take_plan();
    void undo();
    void redo();
    void keep();

  private:
    enum class Drag { none, plumb_line, flag, ground };

    void press(SheetPoint at);
    void press_target(const std::string& name, SheetPoint at);
    [[nodiscard]] std::size_t row_count() const;
    void move(SheetPoint at);
    void press_key(const KeyPressed& pressed);
    void drag_to(SheetPoint at);
    void wheel(const WheelTurned& turned);
    void resize(double width, double height);
    void garden_changed();
    void go_to_next_spot(Key key);
    void move_choice_in_list(int rows);
    /// Shows the ground so many times as near, what lies at a place of the window staying there.
    void go_nearer(double times, SheetPoint about);
    void show_whole_garden();
    void show_part(const output::PlanBox& part);
    [[nodiscard]] Vec2 plan_at(SheetPoint at) const;
    [[nodiscard]] std::optional<std::size_t> spot_at(SheetPoint at) const;

    document::Document document_;
    sun::TimeZone zone_;
    SkyMoment today_;
    SkyMoment moment_;
    std::vector<scene::Spot> spots_;
    double width_ = 1280.0;
    double height_ = 800.0;
    Regions regions_;
    output::PlanBox shown_part_;  ///< of the plan
    output::PlanView plan_view_;
    SheetPoint dragged_from_;
    std::optional<std::size_t> chosen_spot_;
    std::optional<std::size_t> pointed_spot_;
    bool is_spot_open_ = false;
    bool is_playing_ = false;
    double played_min_ = 0.0;  ///< not yet shown
    std::size_t first_row_ = 0;
    std::string trouble_;
    std::string found_text_;
    Stone stone_ = Stone::sun;
    std::string season_;
    Drag drag_ = Drag::none;
    Stale stale_;
    std::optional<DayAnswers> day_;
    std::optional<YearAnswers> year_;
    std::optional<PlanAnswers> plan_;
};

}  // namespace sunfleck::window
