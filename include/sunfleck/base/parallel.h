#pragma once

#include <cstddef>
#include <functional>

namespace sunfleck {

/// Calls `task(i)` once for every i in [0, count), on up to `thread_count` threads (0: as many as
/// the machine has cores). Each call must write only to its own slot, so that the result is the
/// same on any number of threads. An exception of a task is thrown again here.
void parallel_for_each_index(std::size_t count, int thread_count,
                             const std::function<void(std::size_t)>& task);

}  // namespace sunfleck
