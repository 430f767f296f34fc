#include "sunfleck/base/parallel.h"

#include <tbb/parallel_for.h>
#include <tbb/task_arena.h>

namespace sunfleck {

void parallel_for_each_index(std::size_t count, int thread_count,
                             const std::function<void(std::size_t)>& task) {
    if (thread_count == 1) {
        for (std::size_t i = 0; i < count; ++i) task(i);
        return;
    }
    tbb::task_arena arena(thread_count > 0 ? thread_count : tbb::task_arena::automatic);
    arena.execute([&] { tbb::parallel_for(std::size_t{0}, count, task); });
}

}  // namespace sunfleck
