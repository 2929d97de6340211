// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/recipe/mixture.h"

#include <rapidcheck.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <cmath>

using namespace midden;

namespace {

Addition addition(const std::string& material, double kilograms) {
    Addition a;
    a.material = material;
    a.massKilograms = kilograms;
    return a;
}

Portion measured(double kilograms, double moisture, double carbon, double nitrogen) {
    return {"m", kilograms, Estimate::exactly(moisture), carbon, Estimate::exactly(nitrogen), {}};
}

Estimate spread(double low, double typical, double high) {
    return {typical, {low, high}, true};
}

/// A material of any sort: moisture 0 to 100, some carbon, some nitrogen, each with a range.
rc::Gen<Portion> anyPortion() {
    const auto tenths = [](int low, int high) { return rc::gen::inRange(low, high + 1); };
    return rc::gen::map(rc::gen::tuple(tenths(1, 500), tenths(0, 990), tenths(200, 600), tenths(2, 80), tenths(0, 100)),
                        [](const auto& t) {
                            const double moisture = std::get<1>(t) / 10.0;
                            const double nitrogen = std::get<3>(t) / 10.0;
                            const double part = std::get<4>(t) / 200.0;
                            return Portion{"m",
                                           std::get<0>(t) / 10.0,
                                           spread(moisture * (1 - part), moisture, moisture + (100 - moisture) * part),
                                           std::get<2>(t) / 10.0,
                                           spread(nitrogen * (1 - part), nitrogen, nitrogen * (1 + part)),
                                           {}};
                        });
}

bool nearly(double a, double b) {
    return std::abs(a - b) <= 1e-9 * std::max({1.0, std::abs(a), std::abs(b)});
}

/// Highest or lowest C:N over all corners of all ranges, by trying every one.
double corner(const std::vector<Portion>& all, bool highest) {
    double best = highest ? 0 : 1e300;
    for (unsigned pick = 0; pick < 1U << (2 * all.size()); ++pick) {
        double carbon = 0;
        double nitrogen = 0;
        for (std::size_t i = 0; i < all.size(); ++i) {
            const auto& m = all[i].moisturePercent->within;
            const auto& n = all[i].nitrogenPercent->within;
            const double dry = all[i].kilograms * (100 - ((pick >> (2 * i)) & 1U ? m.high : m.low));
            carbon += dry * *all[i].carbonPercent;
            nitrogen += dry * ((pick >> (2 * i + 1)) & 1U ? n.high : n.low);
        }
        best = highest ? std::max(best, carbon / nitrogen) : std::min(best, carbon / nitrogen);
    }
    return best;
}

}  // namespace

TEST_CASE("nothing is known of no additions and an empty mixture weighs nothing") {
    CHECK_FALSE(mixtureOf(std::span<const Addition>{}).has_value());
    const Mixture none = mixtureOf(std::span<const Portion>{});
    CHECK(none.wetMassKilograms == 0);
    CHECK_FALSE(none.moisturePercent);
    CHECK_FALSE(none.carbonNitrogen);
}

TEST_CASE("an unknown material counts in the mass and leaves the rest unknown") {
    const std::vector additions{addition("straw", 2), addition("moon dust", 3)};
    const auto mixture = mixtureOf(additions);
    REQUIRE(mixture);
    CHECK(mixture->wetMassKilograms == 5);
    CHECK_FALSE(mixture->moisturePercent);
    CHECK_FALSE(mixture->carbonNitrogen);
    CHECK(mixture->withoutFigures == std::vector<std::string>{"moon dust"});
}

TEST_CASE("what an addition says of itself wins over the list") {
    Addition grass = addition("grass", 10);
    grass.moisturePercent = 77;
    grass.nitrogenPercent = 2.4;
    grass.carbonPercent = 45;
    const auto mixture = mixtureOf(std::vector{grass});
    REQUIRE(mixture);
    CHECK(*mixture->moisturePercent == Approx(77));
    CHECK(*mixture->carbonNitrogen == Approx(18.75));
    CHECK(mixture->withoutSpread.empty());
}

TEST_CASE("two of carbon nitrogen and their ratio give the third") {
    Addition a = addition("moon dust", 1);
    a.moisturePercent = 50;
    SECTION("carbon and nitrogen") {
        a.carbonPercent = 40;
        a.nitrogenPercent = 2;
    }
    SECTION("carbon and the ratio") {
        a.carbonPercent = 40;
        a.carbonNitrogen = 20;
    }
    SECTION("nitrogen and the ratio") {
        a.nitrogenPercent = 2;
        a.carbonNitrogen = 20;
    }
    const Portion portion = portionOf(a);
    CHECK(*portion.carbonPercent == Approx(40));
    CHECK(portion.nitrogenPercent->typical == Approx(2));
}

TEST_CASE("a ratio alone is weighed with the nitrogen of its material and unknown without one") {
    Addition a = addition("straw", 1);
    a.carbonNitrogen = 60;
    CHECK(*portionOf(a).carbonPercent == Approx(0.6 * 60));
    a.material = "moon dust";
    CHECK_FALSE(portionOf(a).carbonPercent);
}

TEST_CASE("water wets and does nothing else") {
    const auto dry = mixtureOf(std::vector{addition("straw", 10)});
    const auto wet = mixtureOf(std::vector{addition("straw", 10), addition("water", 10)});
    CHECK(*wet->carbonNitrogen == Approx(*dry->carbonNitrogen));
    CHECK(*wet->moisturePercent == Approx((10 * 12 + 10 * 100) / 20.0));
    CHECK(*wet->volumeLitres == Approx(*dry->volumeLitres));
    const auto waterAlone = mixtureOf(std::vector{addition("water", 10)});
    CHECK(*waterAlone->moisturePercent == 100);
    CHECK_FALSE(waterAlone->carbonNitrogen);
}

TEST_CASE("an addition's own volume gives its bulk density") {
    // A 20 L bucket of 10 kg full and 1 kg empty holds 0.45 kg/L: a teaching note after Cooperband,
    // scribd.com/document/456947730.
    Addition a = addition("straw", 9);
    a.volumeLitres = 20;
    CHECK(*mixtureOf(std::vector{a})->bulkDensity == Approx(450));
}

TEST_CASE("free air space follows the estimate of Haug") {
    // BD 0.45 kg/L, moisture 60 %, volatile solids 85 %: 1/Gs = 0.91, 1 - 0.45 (0.6 + 0.4 * 0.91) = 0.5662.
    CHECK(*freeAirSpacePercent(450, 60, 0.85) == Approx(56.62));
    CHECK_FALSE(freeAirSpacePercent(1'500, 60, 0.85));
}

TEST_CASE("the running mixture has one entry for each instant something went in") {
    std::vector additions{addition("grass", 10), addition("leaves", 5), addition("water", 2)};
    additions[1].when.at = additions[0].when.at + hours(1);
    additions[2].when.at = additions[1].when.at;
    const auto running = runningMixture(additions);
    REQUIRE(running.size() == 2);
    CHECK(running[0].mixture.wetMassKilograms == 10);
    CHECK(running[1].mixture.wetMassKilograms == 17);
    CHECK(*running[1].mixture.moisturePercent == *mixtureOf(additions)->moisturePercent);
}

TEST_CASE("scaling all masses scales nothing but the mass", "[random]") {
    CHECK(rc::check("scaling", [] {
        auto all = *rc::gen::nonEmpty(rc::gen::container<std::vector<Portion>>(anyPortion()));
        const double factor = *rc::gen::inRange(1, 1000) / 100.0;
        const Mixture before = mixtureOf(all);
        for (auto& p : all) {
            p.kilograms *= factor;
        }
        const Mixture after = mixtureOf(all);
        RC_ASSERT(nearly(after.wetMassKilograms, before.wetMassKilograms * factor));
        RC_ASSERT(nearly(*after.moisturePercent, *before.moisturePercent));
        RC_ASSERT(nearly(*after.carbonNitrogen, *before.carbonNitrogen));
        RC_ASSERT(nearly(after.carbonNitrogenRange->high, before.carbonNitrogenRange->high));
    }));
}

TEST_CASE("the order of the materials does not matter", "[random]") {
    CHECK(rc::check("order", [] {
        auto all = *rc::gen::nonEmpty(rc::gen::container<std::vector<Portion>>(anyPortion()));
        const Mixture before = mixtureOf(all);
        std::ranges::reverse(all);
        const Mixture after = mixtureOf(all);
        RC_ASSERT(nearly(*after.moisturePercent, *before.moisturePercent));
        RC_ASSERT(nearly(*after.carbonNitrogen, *before.carbonNitrogen));
    }));
}

TEST_CASE("a mixture lies between its materials", "[random]") {
    CHECK(rc::check("between", [] {
        const auto all = *rc::gen::nonEmpty(rc::gen::container<std::vector<Portion>>(anyPortion()));
        double low = 1e300;
        double high = 0;
        for (const auto& p : all) {
            low = std::min(low, *p.carbonPercent / p.nitrogenPercent->typical);
            high = std::max(high, *p.carbonPercent / p.nitrogenPercent->typical);
        }
        const double ratio = *mixtureOf(all).carbonNitrogen;
        RC_ASSERT(ratio >= low - 1e-9);
        RC_ASSERT(ratio <= high + 1e-9);
    }));
}

TEST_CASE("the range of a mixture is exactly that of all corners of its materials' ranges", "[random]") {
    CHECK(rc::check("corners", [] {
        const auto count = *rc::gen::inRange<std::size_t>(1, 5);
        const auto all = *rc::gen::container<std::vector<Portion>>(count, anyPortion());
        const Mixture mixture = mixtureOf(all);
        RC_ASSERT(nearly(mixture.carbonNitrogenRange->high, corner(all, true)));
        RC_ASSERT(nearly(mixture.carbonNitrogenRange->low, corner(all, false)));
        RC_ASSERT(mixture.moistureRange->low <= *mixture.moisturePercent);
        RC_ASSERT(mixture.moistureRange->high >= *mixture.moisturePercent);
    }));
}

TEST_CASE("measured figures leave no doubt") {
    const std::vector all{measured(10, 77, 45, 2.4), measured(5, 35, 50, 0.75)};
    const Mixture mixture = mixtureOf(all);
    CHECK(mixture.carbonNitrogenRange->low == Approx(*mixture.carbonNitrogen));
    CHECK(mixture.carbonNitrogenRange->high == Approx(*mixture.carbonNitrogen));
}
