#include "sunfleck/base/parallel.h"

#include <algorithm>
#include <atomic>
#include <future>
#include <thread>
#include <vector>

// Stands in for parallel.cpp under the thread sanitizer. TBB hands work over inside a library that
// Debian builds without the sanitizer, which then takes every hand-over for a race, and leaving
// such reports out would leave out true ones too. All code of ours that runs at the same time is
// in the tasks: here they run on threads the sanitizer sees whole, with nothing left out. What
// this cannot show is a fault of TBB itself.

namespace sunfleck {

void parallel_for_each_index(std::size_t count, int thread_count,
                             const std::function<void(std::size_t)>& task) {
    const auto cores = static_cast<int>(std::thread::hardware_concurrency());
    const int threads = thread_count > 0 ? thread_count : std::max(2, cores);
    // Relaxed, so that taking the next index does not order one task after another.
    std::atomic<std::size_t> next{0};
    const auto take = [&] { return next.fetch_add(1, std::memory_order_relaxed); };
    const auto work = [&] {
        for (std::size_t i = take(); i < count; i = take()) task(i);
    };
    std::vector<std::future<void>> workers;
    workers.reserve(static_cast<std::size_t>(threads));
    for (int i = 0; i < threads; ++i) workers.push_back(std::async(std::launch::async, work));
    for (auto& worker : workers) worker.get();
}

}  // namespace sunfleck
