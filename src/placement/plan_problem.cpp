#include "placement/plan_problem.h"

#include "sunfleck/base/require.h"

#include <algorithm>
#include <limits>

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

bool is_lift(const HarmRow& row, std::size_t spot) {
    return row.start_spot && *row.start_spot != spot;
}

}  // namespace

PlanProblem::PlanProblem(const scene::Scene& scene, const HarmTable& table,
                         const PlanOptions& options)
    : table_(&table) {
    const std::vector<scene::LoadLimit> limits = scene::load_limits(scene);
    load_of_spot_ = loads_of_spots(limits, table.spots);
    for (const scene::LoadLimit& limit : limits) problem_.load_limits.push_back(limit.max_load_kg);
    problem_.cell_count = static_cast<std::int32_t>(table.spots.size());
    for (std::size_t row = 0; row < table.rows.size(); ++row) {
        assign::Item item;
        item.weight = scene.pots[table.rows[row].pot].weight_kg;
        weight_kg_.push_back(item.weight);
        spots_of_row_.push_back(allowed_spots(row, options));
        for (const std::size_t spot : spots_of_row_.back()) {
            assign::Choice choice;
            choice.cost = table.cost(row, spot);
            for (const std::size_t cell : table.covered(row, spot)) {
                choice.cells.push_back(static_cast<std::int32_t>(cell));
            }
            choice.load = load_of_spot_[spot];
            item.choices.push_back(std::move(choice));
        }
        problem_.items.push_back(std::move(item));
    }
}

std::vector<std::size_t> PlanProblem::allowed_spots(std::size_t row,
                                                    const PlanOptions& options) const {
    const std::optional<std::size_t> start = table_->rows[row].start_spot;
    if (options.forced && options.forced->row == row) {
        SUNFLECK_REQUIRE(table_->at(row, options.forced->spot).refusal == Refusal::none,
                         "a pot is forced to a spot that is refused to it");
        return {options.forced->spot};
    }
    if (options.keeps_standing && start && table_->at(row, *start).refusal == Refusal::none) {
        return {*start};
    }
    std::vector<std::size_t> spots;
    for (std::size_t spot = 0; spot < table_->spots.size(); ++spot) {
        if (table_->at(row, spot).refusal == Refusal::none) spots.push_back(spot);
    }
    return spots;
}

PlanProblem::Answer PlanProblem::solve(double lift_price) const {
    Answer answer = solve_priced(lift_price, 0.0);
    if (leaves_out_a_standing_pot(answer.standing)) {
        // A price on placing newcomers makes them the ones who save most when left out.
        answer = solve_priced(lift_price, unpayable_price(*this) + lift_price);
    }
    return answer;
}

bool PlanProblem::leaves_out_a_standing_pot(const Standing& standing) const {
    for (std::size_t row = 0; row < standing.size(); ++row) {
        if (!standing[row] && table_->rows[row].start_spot) return true;
    }
    return false;
}

PlanProblem::Answer PlanProblem::solve_priced(double lift_price, double newcomer_price) const {
    const bool is_priced = lift_price > 0.0 || newcomer_price > 0.0;
    assign::PeriodProblem priced;
    if (is_priced) {
        priced = problem_;
        for (std::size_t row = 0; row < spots_of_row_.size(); ++row) {
            const HarmRow& pot = table_->rows[row];
            for (std::size_t c = 0; c < spots_of_row_[row].size(); ++c) {
                double& cost = priced.items[row].choices[c].cost;
                if (is_lift(pot, spots_of_row_[row][c])) cost += lift_price;
                if (!pot.start_spot) cost += newcomer_price;
            }
        }
    }
    const assign::PeriodPlan plan = assign::solve_period(is_priced ? priced : problem_);
    Answer answer;
    answer.bound = plan.bound;
    answer.is_optimal = plan.is_optimal;
    answer.standing.resize(spots_of_row_.size());
    for (std::size_t row = 0; row < spots_of_row_.size(); ++row) {
        const std::int32_t choice = plan.choice_of_item[row];
        if (choice < 0) continue;
        answer.standing[row] = spots_of_row_[row][static_cast<std::size_t>(choice)];
        if (!table_->rows[row].start_spot) answer.bound -= newcomer_price;
    }
    return answer;
}

bool PlanProblem::is_possible(const Standing& standing) const {
    std::vector<bool> is_covered(table_->spots.size(), false);
    std::vector<double> load_kg(problem_.load_limits.size(), 0.0);
    for (std::size_t row = 0; row < standing.size(); ++row) {
        if (!standing[row]) continue;
        const std::size_t spot = *standing[row];
        if (!std::binary_search(spots_of_row_[row].begin(), spots_of_row_[row].end(), spot)) {
            return false;
        }
        for (const std::size_t cell : table_->covered(row, spot)) {
            if (is_covered[cell]) return false;
            is_covered[cell] = true;
        }
        if (const std::int32_t load = load_of_spot_[spot]; load >= 0) {
            const auto tier = static_cast<std::size_t>(load);
            load_kg[tier] += weight_kg_[row];
            if (load_kg[tier] > problem_.load_limits[tier] + 1e-9) return false;
        }
    }
    return true;
}

double unpayable_price(const PlanProblem& problem) {
    double price = 1.0;
    const HarmTable& table = problem.table();
    for (std::size_t row = 0; row < table.rows.size(); ++row) {
        double least = std::numeric_limits<double>::infinity();
        double most = 0.0;
        for (const std::size_t spot : problem.choices_of(row)) {
            least = std::min(least, table.cost(row, spot));
            most = std::max(most, table.cost(row, spot));
        }
        if (most > least) price += most;
    }
    return price;
}

int lifts_of(const HarmTable& table, const Standing& standing) {
    int lifts = 0;
    for (std::size_t row = 0; row < standing.size(); ++row) {
        if (standing[row] && is_lift(table.rows[row], *standing[row])) ++lifts;
    }
    return lifts;
}

double objective_of(const HarmTable& table, const Standing& standing) {
    double sum = 0.0;
    for (std::size_t row = 0; row < standing.size(); ++row) {
        if (standing[row]) sum += table.cost(row, *standing[row]);
    }
    return sum;
}

}  // namespace sunfleck::placement
