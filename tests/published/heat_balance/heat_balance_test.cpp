// SPDX-License-Identifier: GPL-3.0-or-later
// The heat balance against bins simulated by scipy (simulate.py beside this file; the CSV files are its output).
#include "core/thermal/heat_balance.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>
#include <fstream>
#include <sstream>

using namespace midden;

namespace {

constexpr HeatSettings settings{.maxGap = hours(36), .outsideReach = hours(36)};

struct Simulated {
    double tau = 0;
    HeatSeries series;
    std::vector<double> trueRates;  ///< the mean since the reading before
};

Simulated load(const std::string& name) {
    std::ifstream in{std::string{MIDDENBOOK_SOURCE_DIR} + "/tests/published/heat_balance/" + name + ".csv"};
    REQUIRE(in);
    Simulated loaded;
    std::string line;
    std::getline(in, line);
    loaded.tau = std::stod(line.substr(line.find("tau_hours ") + 10));
    std::getline(in, line);
    double hour = 0;
    double read = 0;
    double outside = 0;
    double rate = 0;
    char comma = ',';
    while (in >> hour >> comma >> read >> comma >> outside >> comma >> rate) {
        const Instant at{static_cast<std::int64_t>(std::llround(hour * 3'600))};
        loaded.series.bin.push_back({at, read});
        loaded.series.outside.push_back({at, outside});
        loaded.trueRates.push_back(rate);
    }
    return loaded;
}

double trueRateAt(const Simulated& simulated, Instant to) {
    const auto& bin = simulated.series.bin;
    const auto at = std::find_if(bin.begin(), bin.end(), [&](const HeatPoint& point) { return point.at == to; });
    return simulated.trueRates[static_cast<std::size_t>(at - bin.begin())];
}

std::vector<Simulated> allBins() {
    std::vector<Simulated> bins;
    for (int number = 1; number <= 12; ++number) {
        bins.push_back(load(number < 10 ? "bin_0" + std::to_string(number) : "bin_" + std::to_string(number)));
    }
    return bins;
}

}  // namespace

TEST_CASE("the time constants of simulated bins are found from their cool downs within the range given") {
    int found = 0;
    int covered = 0;
    int close = 0;
    for (const auto& bin : allBins()) {
        if (const auto tau = timeConstantOfCoolDowns(bin.series, settings)) {
            ++found;
            covered += tau->low <= bin.tau && bin.tau <= tau->high ? 1 : 0;
            WARN("true time constant " << bin.tau << " h, found " << tau->hours << " h (" << tau->low << " to "
                                       << tau->high << ") from " << tau->readings << " readings");
            close += std::abs(tau->hours / bin.tau - 1) <= 0.25 ? 1 : 0;
        }
    }
    WARN(found << " of 12 found, " << covered << " of them in their range, " << close << " within 25 % of the truth");
    CHECK(found == 12);
    CHECK(covered >= 11);
    CHECK(close >= 9);
}

TEST_CASE("the self heating rates of simulated bins lie in their bands") {
    std::size_t inside = 0;
    std::size_t all = 0;
    double squares = 0;
    for (const auto& bin : allBins()) {
        const auto tau = timeConstantOfCoolDowns(bin.series, settings)
                             .value_or(TimeConstant{bin.tau, bin.tau / 2, bin.tau * 2, TauBasis::wall});
        for (const auto& rate : heatRates(bin.series, tau, settings)) {
            const double expected = trueRateAt(bin, rate.to);
            ++all;
            inside += rate.low <= expected && expected <= rate.high ? 1U : 0U;
            squares += std::pow((rate.rate - expected) * bin.tau, 2);
        }
    }
    const double share = static_cast<double>(inside) / static_cast<double>(all);
    const double error = std::sqrt(squares / static_cast<double>(all));
    WARN(inside << " of " << all << " rates in their band; root mean square error, as the excess over the air that the "
                << "rate holds: " << error << " K");
    REQUIRE(all > 300);
    CHECK(share >= 0.95);
    CHECK(error <= 6);
}
