// SPDX-License-Identifier: GPL-3.0-or-later
// One row of the benchmark's table, printed as a line of JSON. tests/bench/run says what the fields mean.
#pragma once

#include <fmt/core.h>

#include <algorithm>
#include <ctime>
#include <string>
#include <vector>

namespace midden::bench {

struct Row {
    std::string name;
    double measured = 0;
    std::string against;         ///< what it is measured against; empty = the figure stands alone
    double againstMeasured = 0;  ///< in the same unit
    double goal = 0;             ///< most the ratio, or the figure that stands alone, may be
    std::string unit = "ns";
    std::string clock = "cpu";  ///< "cpu", "wall" or "" for what is no time
    std::string note;
};

inline void print(const Row& row) {
    const bool alone = row.against.empty();
    const double figure = alone ? row.measured : row.measured / row.againstMeasured;
    fmt::print(
        R"({{"name": "{}", "measured": {}, "unit": "{}", "clock": "{}", "against": "{}", "against_measured": {}, )"
        R"("ratio": {}, "goal": {}, "met": {}, "note": "{}"}})"
        "\n",
        row.name, row.measured, row.unit, row.clock, row.against,
        alone ? "null" : fmt::format("{}", row.againstMeasured), alone ? "null" : fmt::format("{}", figure), row.goal,
        figure <= row.goal, row.note);
}

/// Processor time of this process so far, all threads, in nanoseconds.
inline double cpuNanoseconds() {
    timespec now{};
    clock_gettime(CLOCK_PROCESS_CPUTIME_ID, &now);
    return static_cast<double>(now.tv_sec) * 1e9 + static_cast<double>(now.tv_nsec);
}

/// Time on the clock, in nanoseconds since some instant.
inline double wallNanoseconds() {
    timespec now{};
    clock_gettime(CLOCK_MONOTONIC, &now);
    return static_cast<double>(now.tv_sec) * 1e9 + static_cast<double>(now.tv_nsec);
}

inline double median(std::vector<double> values) {
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

/// Median processor time of `runs` runs of `work`, in nanoseconds.
template <class Work>
double medianCpu(int runs, Work work) {
    std::vector<double> times;
    for (int i = 0; i < runs; ++i) {
        const double begun = cpuNanoseconds();
        work();
        times.push_back(cpuNanoseconds() - begun);
    }
    return median(std::move(times));
}

}  // namespace midden::bench
