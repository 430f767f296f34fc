#include "sunfleck/base/parallel.h"

#include <catch2/catch.hpp>

#include <algorithm>
#include <cstddef>
#include <numeric>
#include <stdexcept>
#include <vector>

using sunfleck::parallel_for_each_index;

TEST_CASE("every index is worked once, whatever the threads", "[base][property][threads]") {
    for (const int threads : {0, 1, 2, 3, 64}) {
        for (const std::size_t count : {0U, 1U, 2U, 1000U}) {
            CAPTURE(threads, count);
            std::vector<int> calls(count, 0);
            parallel_for_each_index(count, threads, [&](std::size_t i) { ++calls[i]; });
            CHECK(std::accumulate(calls.begin(), calls.end(), std::size_t{0}) == count);
            CHECK(std::count(calls.begin(), calls.end(), 1) == static_cast<std::ptrdiff_t>(count));
        }
    }
}

TEST_CASE("what threads write the caller reads, and the caller's writing they",
          "[base][property][threads]") {
    std::vector<std::vector<double>> slots(200);
    std::vector<double> sums(slots.size());
    for (int round = 0; round < 20; ++round) {
        for (std::size_t i = 0; i < slots.size(); ++i) {
            slots[i].assign(i + 1, static_cast<double>(round));
        }
        parallel_for_each_index(slots.size(), 2, [&](std::size_t i) {
            slots[i].push_back(0.5);
            sums[i] = std::accumulate(slots[i].begin(), slots[i].end(), 0.0);
        });
        for (std::size_t i = 0; i < sums.size(); ++i) {
            CHECK(sums[i] == Approx(static_cast<double>(i + 1) * round + 0.5));
        }
    }
}

TEST_CASE("what a task throws reaches the caller", "[base][property][threads]") {
    for (const int threads : {1, 2}) {
        CAPTURE(threads);
        CHECK_THROWS_AS(parallel_for_each_index(100, threads,
                                                [](std::size_t i) {
                                                    if (i == 57) throw std::out_of_range("57");
                                                }),
                        std::out_of_range);
    }
}
