#include "placement/plan_problem.h"

#include "sunfleck/assign/few_moves.h"
#include "sunfleck/base/require.h"

#include <algorithm>

namespace sunfleck::placement {

namespace {

std::vector<std::int32_t> loads_of_spots(const std::vector<scene::LoadLimit>& limits,
                                         const std::vector<scene::Spot>& spots) {
    std::vector<std::int32_t> load_of_spot(spots.size(), -1);
    for (std::size_t load = 0; load < limits.size(); ++load) {
        for (std::size_t spot = 0; spot < spots.size(); ++spot) {
            if (spots[spot].bench == limits[load].holder_id &&
                spots[spot].tier == limits[load].tier) {
                load_of_spot[spot] = static_cast<std::int32_t>(load);
            }
        }
    }
    return load_of_spot;
}

}  // namespace

PlanProblem::PlanProblem(const scene::Scene& scene, const HarmTable& table,
                         const PlanOptions& options)
    : table_(&table), lifts_(options.lifts) {
    const std::vector<scene::LoadLimit> limits = scene::load_limits(scene);
    load_of_spot_ = loads_of_spots(limits, table.spots);
    for (const scene::LoadLimit& limit : limits) problem_.load_limits.push_back(limit.max_load_kg);
    problem_.cell_count = static_cast<std::int32_t>(table.spots.size());
    for (std::size_t row = 0; row < table.rows.size(); ++row) {
        assign::Item item;
        item.weight = scene.pots[table.rows[row].pot].weight_kg;
        spots_of_row_.push_back(allowed_spots(row, options));
        for (const std::size_t spot : spots_of_row_.back()) {
            item.choices.push_back(choice_at(row, spot));
        }
        problem_.items.push_back(std::move(item));
    }
}

assign::Choice PlanProblem::choice_at(std::size_t row, std::size_t spot) const {
    assign::Choice choice;
    choice.cost = table_->cost(row, spot);
    for (const std::size_t cell : table_->covered(row, spot)) {
        choice.cells.push_back(static_cast<std::int32_t>(cell));
    }
    choice.load = load_of_spot_[spot];
    return choice;
}

std::vector<std::size_t> PlanProblem::allowed_spots(std::size_t row,
                                                    const PlanOptions& options) const {
    const std::optional<std::size_t> start = table_->rows[row].start_spot;
    if (options.forced && options.forced->row == row) {
        SUNFLECK_REQUIRE(table_->at(row, options.forced->spot).refusal == Refusal::none,
                         "a pot is forced to a spot that is refused to it");
        return {options.forced->spot};
    }
    if (options.keeps_standing && start) return {*start};
    std::vector<std::size_t> spots;
    for (std::size_t spot = 0; spot < table_->spots.size(); ++spot) {
        if ((options.lifts && start == spot) || table_->at(row, spot).refusal == Refusal::none) {
            spots.push_back(spot);
        }
    }
    return spots;
}

bool PlanProblem::is_lift(std::size_t row, std::int32_t choice) const {
    const std::optional<std::size_t> start = table_->rows[row].start_spot;
    return start && choice >= 0 && spots_of_row_[row][static_cast<std::size_t>(choice)] != *start;
}

double PlanProblem::unpayable_price() const {
    double price = 1.0;
    for (const assign::Item& item : problem_.items) {
        double most = 0.0;
        for (const assign::Choice& choice : item.choices) most = std::max(most, choice.cost);
        price += most;
    }
    return price;
}

assign::PeriodPlan PlanProblem::plan_within(const assign::PeriodProblem& problem, int lifts) const {
    std::vector<std::int32_t> before(spots_of_row_.size(), -1);
    int newcomers = 0;
    for (std::size_t row = 0; row < before.size(); ++row) {
        const std::optional<std::size_t> start = table_->rows[row].start_spot;
        if (!start) {
            ++newcomers;
            continue;
        }
        const auto& spots = spots_of_row_[row];
        const auto found = std::find(spots.begin(), spots.end(), *start);
        if (found != spots.end()) before[row] = static_cast<std::int32_t>(found - spots.begin());
    }
    // Placing a newcomer counts as a lift to the solver. Where not all find room, what they leave
    // over must not be spent on others.
    while (true) {
        assign::PeriodPlan plan = assign::best_moves(problem, before, lifts + newcomers).plan;
        int lifted = 0;
        for (std::size_t row = 0; row < before.size(); ++row) {
            if (is_lift(row, plan.choice_of_item[row])) ++lifted;
        }
        if (lifted <= lifts || newcomers == 0) return plan;
        --newcomers;
    }
}

PlanProblem::Answer PlanProblem::solve() const {
    Answer answer = solve(0.0);
    for (std::size_t row = 0; row < answer.standing.size(); ++row) {
        if (!answer.standing[row] && table_->rows[row].start_spot) {
            // A price on placing newcomers makes them the ones who save most when left out.
            return solve(unpayable_price());
        }
    }
    return answer;
}

PlanProblem::Answer PlanProblem::solve(double newcomer_price) const {
    const double price_of_staying = unpayable_price();
    const auto price_of = [&](std::size_t row, std::size_t spot) {
        if (!table_->rows[row].start_spot) return newcomer_price;
        const bool is_ruled_out = table_->at(row, spot).refusal == Refusal::excluded;
        return is_ruled_out ? price_of_staying : 0.0;
    };
    assign::PeriodProblem priced = problem_;
    for (std::size_t row = 0; row < spots_of_row_.size(); ++row) {
        for (std::size_t c = 0; c < spots_of_row_[row].size(); ++c) {
            priced.items[row].choices[c].cost += price_of(row, spots_of_row_[row][c]);
        }
    }
    const assign::PeriodPlan plan =
        lifts_ ? plan_within(priced, *lifts_) : assign::solve_period(priced);
    Answer answer;
    answer.bound = plan.bound;
    answer.is_optimal = plan.is_optimal;
    answer.standing.resize(spots_of_row_.size());
    for (std::size_t row = 0; row < spots_of_row_.size(); ++row) {
        const std::int32_t choice = plan.choice_of_item[row];
        if (choice < 0) continue;
        const std::size_t spot = spots_of_row_[row][static_cast<std::size_t>(choice)];
        answer.standing[row] = spot;
        answer.bound -= price_of(row, spot);
    }
    return answer;
}

double objective_of(const HarmTable& table, const Standing& standing) {
    double sum = 0.0;
    for (std::size_t row = 0; row < standing.size(); ++row) {
        if (standing[row]) sum += table.cost(row, *standing[row]);
    }
    return sum;
}

}  // namespace sunfleck::placement
