#include "window/answer_desk.h"

#include <condition_variable>
#include <mutex>
#include <optional>
#include <stop_token>
#include <thread>
#include <utility>
#include <vector>

namespace sunfleck::window {
namespace {

struct DayQuestion {
    scene::Scene scene;
    std::size_t revision = 0;
    Date date;
};

struct YearQuestion {
    scene::Scene scene;
    std::size_t revision = 0;
    int year = 0;
    std::optional<std::size_t> spot;
};

struct PlanQuestion {
    scene::Scene scene;
    PlanAsked asked;
};

}  // namespace

struct AnswerDesk::Room {
    std::mutex mutex;
    std::condition_variable_any asked;
    std::optional<DayQuestion> day_question;
    std::optional<YearQuestion> year_question;
    std::optional<PlanQuestion> plan_question;
    bool is_working = false;
    std::vector<Result<DayAnswers>> day_answers;
    std::vector<Result<YearAnswers>> year_answers;
    std::vector<Result<PlanAnswers>> plan_answers;
    // What was asked last, so that nothing is asked twice.
    std::optional<std::pair<std::size_t, Date>> last_day;
    std::optional<std::tuple<std::size_t, int, std::optional<std::size_t>>> last_year;
    std::optional<PlanAsked> last_plan;
    std::jthread worker;  // last: it uses all the others

    void work(const std::stop_token& stop);
};

void AnswerDesk::Room::work(const std::stop_token& stop) {
    std::unique_lock lock(mutex);
    while (true) {
        is_working = false;
        asked.wait(lock, stop, [&] { return day_question || year_question || plan_question; });
        if (stop.stop_requested()) return;
        is_working = true;
        // The day first: it is what the hand is moving.
        if (day_question) {
            const DayQuestion question = std::move(*std::exchange(day_question, std::nullopt));
            lock.unlock();
            auto answer = window::day_answers(question.scene, question.revision, question.date, 0);
            lock.lock();
            day_answers.push_back(std::move(answer));
            continue;
        }
        if (year_question) {
            const YearQuestion question = std::move(*std::exchange(year_question, std::nullopt));
            lock.unlock();
            auto answer = window::year_answers(question.scene, question.revision, question.year,
                                               question.spot, 0);
            lock.lock();
            year_answers.push_back(std::move(answer));
            continue;
        }
        const PlanQuestion question = std::move(*std::exchange(plan_question, std::nullopt));
        lock.unlock();
        auto answer = window::plan_answers(question.scene, question.asked, 0);
        lock.lock();
        plan_answers.push_back(std::move(answer));
    }
}

AnswerDesk::AnswerDesk() : room_(std::make_unique<Room>()) {
    room_->worker =
        std::jthread([room = room_.get()](const std::stop_token& stop) { room->work(stop); });
}

AnswerDesk::~AnswerDesk() = default;

bool AnswerDesk::is_busy() const {
    const std::lock_guard lock(room_->mutex);
    return room_->is_working || room_->day_question || room_->year_question ||
           room_->plan_question || !room_->plan_answers.empty() || !room_->day_answers.empty() ||
           !room_->year_answers.empty();
}

void AnswerDesk::serve(ViewModel& view) {
    std::vector<Result<DayAnswers>> days;
    std::vector<Result<YearAnswers>> years;
    std::vector<Result<PlanAnswers>> plans;
    {
        const std::lock_guard lock(room_->mutex);
        days.swap(room_->day_answers);
        years.swap(room_->year_answers);
        plans.swap(room_->plan_answers);
        const std::size_t revision = view.document().revision();
        const std::pair day{revision, view.moment().date};
        if (!view.is_day_current() && room_->last_day != day) {
            room_->last_day = day;
            room_->day_question = DayQuestion{view.scene(), revision, day.second};
        }
        const std::tuple year{revision, year_of(view.moment().date), view.chosen_spot()};
        if (!view.is_year_current() && room_->last_year != year) {
            room_->last_year = year;
            room_->year_question =
                YearQuestion{view.scene(), revision, std::get<1>(year), std::get<2>(year)};
        }
        const auto plan = view.wanted_plan();
        if (plan && !view.is_plan_current() && room_->last_plan != plan) {
            room_->last_plan = plan;
            room_->plan_question = PlanQuestion{view.scene(), *plan};
        }
    }
    room_->asked.notify_one();
    for (auto& answer : days) {
        answer ? view.take(std::move(*answer)) : view.take_trouble(answer.error());
    }
    for (auto& answer : years) {
        answer ? view.take(std::move(*answer)) : view.take_trouble(answer.error());
    }
    for (auto& answer : plans) {
        answer ? view.take(std::move(*answer)) : view.take_trouble(answer.error());
    }
}

}  // namespace sunfleck::window
