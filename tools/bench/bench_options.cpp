#include "bench_options.h"

#include <CLI/CLI.hpp>

#include <map>

namespace sunfleck::bench {

ParsedOptions parse_options(int argc, const char* const* argv) {
    ParsedOptions parsed;
    BenchOptions& options = parsed.options;
    const std::map<std::string, GardenSize> sizes{
        {"S", GardenSize::small}, {"M", GardenSize::medium}, {"L", GardenSize::large}};
    CLI::App app{"Proves that ray casters agree on generated gardens, then measures them."};
    std::vector<std::string> names{"M"};
    app.add_option("--garden", names, "Gardens to race in: S, M, L (M)")
        ->check(CLI::IsMember({"S", "M", "L"}))
        ->delimiter(',');
    app.add_flag("--agree", options.only_agreement, "Only prove agreement; 1 when a ray is wrong");
    app.add_flag("--json", options.is_json, "One JSON object on standard output");
    app.add_option("--repeats", options.repeats, "Repeats of each measurement (3)")
        ->check(CLI::Range(1, 99));
    app.add_option("--year-step", options.year_step, "Trace every n-th day of the year (1)")
        ->check(CLI::Range(1, 365));
    app.add_option("--cgal-spots", options.cgal_spots, "Spots CGAL answers before scaling (100)")
        ->check(CLI::Range(100, 20000));
    std::size_t embree_spots = 0;
    CLI::Option* embree =
        app.add_option("--embree-spots", embree_spots, "The same for Embree (all; 200 in L)")
            ->check(CLI::Range(100, 20000));
    app.add_option("--rays", options.agreement_rays_m, "Million rays to compare (20)")
        ->check(CLI::Range(0.1, 10000.0));
    app.add_flag("--no-proof", options.skips_proof, "Measure only, for profiling");
    app.add_option("--only", options.only, "Measure those whose names hold one of these texts")
        ->delimiter(',');
    app.add_option("--simd", options.simd_target, "Instruction set to hold the product to");
    try {
        app.parse(argc, argv);
    } catch (const CLI::ParseError& error) {
        const int code = app.exit(error);
        parsed.exit_code = code == 0 ? 0 : 2;
        return parsed;
    }
    if (*embree) options.embree_spots = embree_spots;
    for (const std::string& name : names) options.gardens.push_back(sizes.at(name));
    return parsed;
}

}  // namespace sunfleck::bench
