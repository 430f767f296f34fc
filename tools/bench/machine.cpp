#include "machine.h"

#include <malloc.h>
#include <stdlib.h>
#include <sys/resource.h>

#include <fstream>
#include <map>
#include <thread>

namespace sunfleck::bench {
namespace {

#if defined(__clang__)
constexpr const char* compiler = __VERSION__;
#else
constexpr const char* compiler = "g++ " __VERSION__;
#endif

/// The first "key : value" lines of /proc/cpuinfo.
std::map<std::string, std::string> cpu_lines() {
    std::map<std::string, std::string> lines;
    std::ifstream file("/proc/cpuinfo");
    for (std::string line; std::getline(file, line) && !line.empty();) {
        const std::size_t colon = line.find(':');
        if (colon == std::string::npos) continue;
        const std::size_t end = line.find_last_not_of(" \t", colon - 1);
        const std::size_t value = line.find_first_not_of(" \t", colon + 1);
        if (end == std::string::npos || value == std::string::npos) continue;
        lines.emplace(line.substr(0, end + 1), line.substr(value));
    }
    return lines;
}

std::string widest_vectors() {
#if defined(__x86_64__)
    if (__builtin_cpu_supports("avx512f") && __builtin_cpu_supports("avx512bw")) return "AVX-512";
    if (__builtin_cpu_supports("avx2")) return "AVX2";
    if (__builtin_cpu_supports("sse4.2")) return "SSE4.2";
    return "SSE2";
#else
    return "baseline";
#endif
}

}  // namespace

Machine this_machine() {
    std::map<std::string, std::string> lines = cpu_lines();
    return {
        .cpu = lines["model name"] + ", family " + lines["cpu family"] + " model " + lines["model"],
        .cores = static_cast<int>(std::thread::hardware_concurrency()),
        .instructions = widest_vectors(),
        .compiler = compiler};
}

double load_average() {
    double load = 0.0;
    return getloadavg(&load, 1) == 1 ? load : -1.0;
}

std::size_t allocated_bytes() {
    const struct mallinfo2 info = mallinfo2();
    return info.uordblks + info.hblkhd;
}

std::size_t peak_bytes() {
    rusage usage{};
    getrusage(RUSAGE_SELF, &usage);
    return static_cast<std::size_t>(usage.ru_maxrss) * 1024;
}

}  // namespace sunfleck::bench
