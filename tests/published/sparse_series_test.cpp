// SPDX-License-Identifier: GPL-3.0-or-later
// Real but sparse core temperatures, readings 2 to 11 days apart: facts quoted from the supplement (mmc2) to the
// article PII S0960852422014407, where day and core temperature of several composting runs were digitised.
//
// Expected values by linear joining, numpy and R agreeing to the printed digit:
//   python3 -c "import numpy as np; d=np.array([...]); t=np.array([...]); f=np.linspace(d[0],d[-1],20_000_001);
//               print(np.mean(np.interp(f,d,t)>=55)*(d[-1]-d[0]))"
#include <catch2/catch.hpp>
#include <cmath>

#include "core/review/review.h"

using namespace midden;
using namespace midden::literals;

namespace {

struct Point {
    double day;
    double celsius;
};

Track track(const std::vector<Point>& points) {
    Track made{"core"};
    for (const auto& [day, celsius] : points) {
        made.samples.emplace_back(Instant{std::llround(day * 86'400)},
                                  Celsius::ofTenThousandths(std::llround(celsius * 10'000)));
    }
    return made;
}

const Track s1m1 = track({{0.972222, 51.0514},
                          {2.97743, 48.7164},
                          {6.97917, 69.864},
                          {14.0017, 62.806},
                          {20.9549, 55.8806},
                          {27.9688, 36.5638},
                          {35.0087, 33.592}});
const Track s1m2 = track({{1.01563, 52.2985},
                          {2.96875, 70.9254},
                          {7.03125, 67.3433},
                          {13.9063, 49.9104},
                          {21.0156, 33.4328},
                          {28.125, 31.2836},
                          {34.8438, 27.9403}});
const Track s6a = track({{0.0986193, 20.8511},
                         {2.07101, 47.234},
                         {7.00197, 56.4539},
                         {14.0039, 50.7801},
                         {21.0059, 31.0638},
                         {28.0079, 27.234},
                         {39.0533, 12.1986},
                         {49.0138, 11.3475}});

double interpolatedDays(const Track& series, Celsius threshold, Seconds maxGap) {
    const Monitored one{series.position, BlockExtremes{series.samples}};
    return thresholdReview({&one, 1}, threshold, maxGap).whole.interpolatedSeconds / 86'400;
}

}  // namespace

TEST_CASE("straight lines through sparse readings reproduce numpy and R") {
    const auto anyGap = days(100);
    CHECK(interpolatedDays(s1m1, 55_degC, anyGap) == Approx(17.1082).margin(0.0001));
    CHECK(interpolatedDays(s1m1, 60_degC, anyGap) == Approx(11.7063).margin(0.0001));
    CHECK(interpolatedDays(s1m1, 65_degC, anyGap) == Approx(5.7600).margin(0.0001));
    CHECK(interpolatedDays(s1m2, 55_degC, anyGap) == Approx(10.6002).margin(0.0001));
    CHECK(interpolatedDays(s6a, 55_degC, anyGap) == Approx(2.5718).margin(0.0001));
}

TEST_CASE("readings days apart prove no hour at all") {
    for (const Track* series : {&s1m1, &s1m2, &s6a}) {
        const Monitored one{series->position, BlockExtremes{series->samples}};
        const auto review = thresholdReview({&one, 1}, 55_degC, hours(24));
        CHECK(review.whole.credited == Seconds{});
        CHECK(review.whole.interpolatedSeconds == 0);
    }
}
