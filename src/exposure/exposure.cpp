#include "sunfleck/exposure/exposure.h"

#include "exposure/receivers.h"
#include "exposure/sun_days.h"
#include "sunfleck/base/parallel.h"
#include "sunfleck/base/require.h"
#include "sunfleck/exposure/spot_sun.h"
#include "sunfleck/geometry/garden.h"
#include "sunfleck/rays/engine.h"
#include "sunfleck/rays/sight.h"
#include "sunfleck/scene/plan_frame.h"
#include "sunfleck/sun/civil_time.h"

#include <algorithm>
#include <atomic>
#include <cstddef>
#include <mutex>
#include <utility>

namespace sunfleck::exposure {
namespace {

// Days of one receiver that are computed in one go: long enough that the sights of its
// surroundings, which serve all of them, cost little; short enough to share out a single spot.
constexpr std::size_t days_per_task = 24;

std::vector<Date> dates_between(Date from, Date to, int step) {
    std::vector<Date> dates;
    for (int i = 0; i < days_between(from, to); i += step) dates.push_back(add_days(from, i));
    dates.push_back(to);
    return dates;
}

// How many days of the range each computed day stands for when the days between two computed
// ones are taken on the straight line between them. The sum is the range's number of days.
std::vector<double> day_weights(const std::vector<Date>& dates) {
    std::vector<double> weights(dates.size(), 1.0);
    for (std::size_t i = 1; i < dates.size(); ++i) {
        const double between = 0.5 * (days_between(dates[i - 1], dates[i]) - 1);
        weights[i - 1] += between;
        weights[i] += between;
    }
    return weights;
}

// Days whose effective sun differs by less are equal; the earlier is named.
constexpr double same_min = 1e-6;

void summarise(ReceiverExposure& receiver) {
    double days = 0.0;
    for (const DayExposure& day : receiver.days) days += day.represents_days;
    const DayExposure* least = &receiver.days.front();
    const DayExposure* most = least;
    for (const DayExposure& day : receiver.days) {
        receiver.mean.add(day.total, day.represents_days / days);
        if (day.total.effective_min < least->total.effective_min - same_min) least = &day;
        if (day.total.effective_min > most->total.effective_min + same_min) most = &day;
    }
    receiver.least = least->total;
    receiver.least_date = least->date;
    receiver.most = most->total;
    receiver.most_date = most->date;
}

// Tells the caller how far the work is, from one thread at a time, and asks whether to go on.
class ProgressTeller {
  public:
    ProgressTeller(const Progress& progress, std::size_t task_count)
        : progress_(&progress), task_count_(task_count) {}

    void task_done() {
        const std::size_t done = ++done_;
        if (!*progress_) return;
        const std::lock_guard lock(mutex_);
        if (is_stopped_ || done <= told_) return;
        told_ = done;
        const double share = static_cast<double>(done) / static_cast<double>(task_count_);
        if (!(*progress_)(share)) is_stopped_ = true;
    }
    [[nodiscard]] bool is_stopped() const { return is_stopped_; }

  private:
    const Progress* progress_;
    std::size_t task_count_;
    std::size_t told_ = 0;
    std::atomic<std::size_t> done_{0};
    std::atomic<bool> is_stopped_{false};
    std::mutex mutex_;
};

tl::unexpected<Problems> interrupted() {
    return failure({.kind = ProblemKind::no_answer,
                    .code = "interrupted",
                    .message = "The work was stopped before it was done.",
                    .mend = "Run it again to the end."});
}

// A garden with what its rays need. Not movable: the parts point at each other.
struct TracedGarden {
    explicit TracedGarden(geometry::Garden made)
        : garden(std::move(made)), engine(rays::make_reference_engine(garden)), sights(garden) {}
    TracedGarden(const TracedGarden&) = delete;
    TracedGarden& operator=(const TracedGarden&) = delete;

    geometry::Garden garden;
    std::unique_ptr<rays::Engine> engine;
    rays::Sights sights;
};

// One receiver over days[first, last).
void trace_days(const TracedGarden& garden, const Receiver& receiver,
                const std::vector<TracedDay>& days, std::size_t first, std::size_t last,
                std::vector<DayExposure>& results) {
    SpotSun spot(*garden.engine, garden.sights, receiver);
    for (std::size_t i = first; i < last; ++i) {
        const TracedDay& day = days[i];
        const DaySun sun = spot.day(day.arc, day.optics, day.cuts);
        const double represents_days = results[i].represents_days;
        results[i] = day_exposure(day.date, sun, day.hours, day.hot);
        results[i].represents_days = represents_days;
    }
}

ExposureTable empty_table(const scene::Scene& scene, const ExposureRequest& request,
                          const std::vector<Date>& dates, std::vector<PlacedReceiver>& placed) {
    ExposureTable table{
        .from = request.from, .to = request.to, .day_step = request.day_step, .receivers = {}};
    const std::vector<scene::Spot> spots = scene::spots_of(scene);
    const scene::PlanFrame frame(scene);
    const std::vector<double> weights = day_weights(dates);
    for (const ReceiverRequest& asked : request.receivers) {
        SUNFLECK_REQUIRE(asked.spot < spots.size(), "a receiver stands at a spot of its scene");
        placed.push_back(place_receiver(frame, spots[asked.spot], asked));
        ReceiverExposure receiver{
            .receiver = asked, .position = placed.back().position, .z_m = placed.back().z_m};
        receiver.days.resize(dates.size());
        for (std::size_t i = 0; i < dates.size(); ++i) {
            receiver.days[i].represents_days = weights[i];
        }
        table.receivers.push_back(std::move(receiver));
    }
    return table;
}

}  // namespace

void SunMinutes::add(const SunMinutes& other, double weight) {
    sun_up_min += weight * other.sun_up_min;
    full_min += weight * other.full_min;
    filtered_min += weight * other.filtered_min;
    shade_min += weight * other.shade_min;
    effective_min += weight * other.effective_min;
    hot_full_min += weight * other.hot_full_min;
    hot_effective_min += weight * other.hot_effective_min;
}

int usual_day_step(Date from, Date to) {
    constexpr int most_single_days = 10;
    constexpr int stride_days = 5;
    return days_between(from, to) < most_single_days ? 1 : stride_days;
}

Result<ExposureTable> compute_exposure(const scene::Scene& scene, const ExposureRequest& request) {
    SUNFLECK_REQUIRE(request.day_step >= 1, "days are stepped forwards");
    SUNFLECK_REQUIRE(days_between(request.from, request.to) >= 0, "a range ends after it begins");
    auto zone = sun::TimeZone::find(scene.site.time_zone);
    if (!zone) return tl::unexpected(zone.error());
    auto made = geometry::build_garden(scene);
    if (!made) return tl::unexpected(made.error());
    const TracedGarden garden(std::move(*made));

    const std::vector<Date> dates = dates_between(request.from, request.to, request.day_step);
    const std::vector<TracedDay> days =
        traced_days(garden.garden, scene.site.place, *zone, dates, request.thread_count);
    std::vector<PlacedReceiver> placed;
    ExposureTable table = empty_table(scene, request, dates, placed);

    const std::size_t blocks = (days.size() + days_per_task - 1) / days_per_task;
    const std::size_t tasks = blocks * placed.size();
    ProgressTeller progress(request.progress, tasks);
    parallel_for_each_index(tasks, request.thread_count, [&](std::size_t task) {
        if (progress.is_stopped()) return;
        const std::size_t receiver = task / blocks;
        const std::size_t first = task % blocks * days_per_task;
        const std::size_t last = std::min(days.size(), first + days_per_task);
        trace_days(garden, placed[receiver].receiver, days, first, last,
                   table.receivers[receiver].days);
        progress.task_done();
    });
    if (progress.is_stopped()) return interrupted();
    for (ReceiverExposure& receiver : table.receivers) summarise(receiver);
    return table;
}

Result<std::vector<SunnySeason>> sunny_seasons(const scene::Scene& scene,
                                               const std::vector<ReceiverRequest>& receivers,
                                               int year, int thread_count) {
    auto zone = sun::TimeZone::find(scene.site.time_zone);
    if (!zone) return tl::unexpected(zone.error());
    auto made = geometry::build_garden(scene);
    if (!made) return tl::unexpected(made.error());
    const TracedGarden garden(std::move(*made));
    const std::vector<Date> dates =
        dates_between(make_date(year, 1, 1), make_date(year, 12, 31), 1);
    const std::vector<TracedDay> days =
        traced_days(garden.garden, scene.site.place, *zone, dates, thread_count);
    const std::vector<scene::Spot> spots = scene::spots_of(scene);
    const scene::PlanFrame frame(scene);

    std::vector<SunnySeason> seasons(receivers.size());
    parallel_for_each_index(receivers.size(), thread_count, [&](std::size_t i) {
        SUNFLECK_REQUIRE(receivers[i].spot < spots.size(), "a receiver stands at a spot");
        const PlacedReceiver placed = place_receiver(frame, spots[receivers[i].spot], receivers[i]);
        SpotSun spot(*garden.engine, garden.sights, placed.receiver);
        const auto is_sunny = [&](const TracedDay& day) {
            return spot.has_sun(day.arc, day.optics);
        };
        const auto first = std::find_if(days.begin(), days.end(), is_sunny);
        if (first == days.end()) return;
        const auto last = std::find_if(days.rbegin(), days.rend(), is_sunny);
        seasons[i] = {.first = first->date, .last = last->date};
    });
    return seasons;
}

}  // namespace sunfleck::exposure
