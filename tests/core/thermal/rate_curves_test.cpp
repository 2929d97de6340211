// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/thermal/rate_curves.h"

#include <catch2/catch.hpp>

using namespace midden;
using namespace midden::literals;

// Haug 1993 and Rosso et al. 1993 with 5/58.6/71.6 °C, both reckoned apart from this program.
TEST_CASE("the rate factors take the reckoned values") {
    struct Row {
        Celsius at;
        double haug;
        double cardinal;
    };
    const auto row = GENERATE(Row{10_degC, 0.5277, 0.0141}, Row{20_degC, 0.9995, 0.1229}, Row{30_degC, 1.8916, 0.3264},
                              Row{40_degC, 3.5683, 0.5968}, Row{45_degC, 4.8850, 0.7406}, Row{50_degC, 6.6546, 0.8736},
                              Row{55_degC, 8.9793, 0.9725}, Row{60_degC, 11.891, 0.9947}, Row{65_degC, 15.151, 0.8522},
                              Row{70_degC, 17.699, 0.3300}, Row{75_degC, 16.174, 0.0}, Row{80_degC, 1.025, 0.0});
    CHECK(haugFactor(row.at) == Approx(row.haug).epsilon(0.0005));
    CHECK(cardinalFactor(row.at) == Approx(row.cardinal).margin(0.00006));
}

TEST_CASE("the curves end where they must") {
    CHECK(haugFactor(80.2_degC) == 0);
    CHECK(haugFactor(80.1_degC) > 0);
    CHECK(cardinalFactor(5_degC) == 0);
    CHECK(cardinalFactor(71.6_degC) == 0);
    CHECK(cardinalFactor(58.6_degC) == Approx(1));
    CHECK(doublingFactor(20_degC) == 1);
    CHECK(doublingFactor(30_degC) == Approx(2));
}
