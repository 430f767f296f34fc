#include "sunfleck/base/parallel.h"

#include <tbb/info.h>
#include <tbb/parallel_for.h>
#include <tbb/task_arena.h>

#include <algorithm>

namespace sunfleck {
namespace {

// No more than there are cores: TBB has no more workers, and says so on standard error.
int workers(int thread_count) {
    const int cores = tbb::info::default_concurrency();
    return thread_count > 0 ? std::min(thread_count, cores) : cores;
}

}  // namespace

void parallel_for_each_index(std::size_t count, int thread_count,
                             const std::function<void(std::size_t)>& task) {
    const int threads = workers(thread_count);
    if (threads == 1) {
        for (std::size_t i = 0; i < count; ++i) task(i);
        return;
    }
    tbb::task_arena arena(threads);
    arena.execute([&] { tbb::parallel_for(std::size_t{0}, count, task); });
}

}  // namespace sunfleck
