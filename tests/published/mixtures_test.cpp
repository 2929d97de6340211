// SPDX-License-Identifier: GPL-3.0-or-later
// Mixtures worked out elsewhere: each case names where its figures are printed.
#include <algorithm>
#include <array>
#include <catch2/catch.hpp>
#include <cmath>
#include <utility>

#include "core/recipe/balance.h"

using namespace midden;

namespace {

Portion portion(double kilograms, double moisture, double carbon, double nitrogen) {
    return {"material", kilograms, Estimate::exactly(moisture), carbon, Estimate::exactly(nitrogen), {}};
}

ToHand toHand(double moisture, double carbon, double nitrogen) {
    return {portion(0, moisture, carbon, nitrogen), 0, std::nullopt, false};
}

Bounds exactly(double goal) {
    return {goal, goal};
}

using Row = std::array<double, 18>;
const std::vector<Row> bySympy{
#include "mixtures_by_sympy.inc"
};

/// Moisture, nitrogen, C:N of the scraps as published; the mixture; the least that balances it.
using ScrapsRow = std::array<double, 6>;
const std::vector<ScrapsRow> scrapsByPython{
#include "scraps_by_python.inc"
};

/// The column's lowest and highest figure.
Bounds spreadOf(std::size_t column) {
    Bounds spread{1e300, -1e300};
    for (const ScrapsRow& row : scrapsByPython) {
        spread = {std::min(spread.low, row.at(column)), std::max(spread.high, row.at(column))};
    }
    return spread;
}

bool lies(double figure, const Bounds& within, double margin = 0.05) {
    return figure >= within.low - margin && figure <= within.high + margin;
}

Portion listed(const char* name, double kilograms) {
    return portionOf(*builtInMaterials().find(name), kilograms);
}

const Portion grass = portion(10, 77, 45, 2.4);
const ToHand leaves = toHand(35, 50, 0.75);
const ToHand water = toHand(100, 0, 0);

Mixture mixed(const Portion& first, const ToHand& second, double kilograms) {
    std::vector both{first, second.material};
    both[1].kilograms = kilograms;
    return mixtureOf(both);
}

}  // namespace

TEST_CASE("ten kilograms of grass at 77 % want 6.8 kg of leaves at 35 % for 60 % moisture") {
    // Cornell, "Moisture content" (T. Richard), as copied at jerrysplantsonline.com: 6.8 kg leaves.
    const auto found = balance(std::vector{grass}, std::vector{leaves}, {exactly(60), {}});
    REQUIRE(found.feasible);
    CHECK(found.kilograms[0] == Approx(6.8).epsilon(1e-9));
    CHECK(*found.mixture.moisturePercent == Approx(60));
    // The same page's discussion: C:N about 37 (from memory, unverified).
    CHECK(*found.mixture.carbonNitrogen == Approx(36.73).margin(0.005));
}

TEST_CASE("the same grass wants 3.5 kg of the same leaves for C to N of 30") {
    // Cornell, "C/N ratio" (compost.css.cornell.edu/calc/cn_ratio.html), second half, from memory: 3.5 kg.
    const auto found = balance(std::vector{grass}, std::vector{leaves}, {{}, exactly(30)});
    REQUIRE(found.feasible);
    CHECK(found.kilograms[0] == Approx(6210.0 / 1787.5).epsilon(1e-9));
    CHECK(found.kilograms[0] == Approx(3.5).margin(0.05));
}

TEST_CASE("ten kilograms of that grass and 3.5 kg of those leaves") {
    const Mixture mixture = mixed(grass, leaves, 3.5);
    CHECK(*mixture.moisturePercent == Approx(66.11).margin(0.005));
    CHECK(*mixture.carbonNitrogen == Approx(2.1725 / 0.0722625));  // 30.06
}

TEST_CASE("hay scraps and coffee weighed as they are make 34.7 to 1") {
    // docslib.org/doc/12269573: 50 lb hay 40 % C 1 % N, 10 lb scraps 10/1, 2 lb coffee 25/1; percent of the mass as it
    // is, without a moisture term: 21.5/0.62 = 34.7.
    const std::vector all{portion(50, 0, 40, 1), portion(10, 0, 10, 1), portion(2, 0, 25, 1)};
    CHECK(*mixtureOf(all).carbonNitrogen == Approx(34.7).margin(0.05));
    CHECK(*mixtureOf(all).carbonNitrogen == Approx(21.5 / 0.62));
}

TEST_CASE("manure and sawdust in the handbook's example") {
    // NRAES-54, chapter on raw materials, worked example (inputs from memory, unverified): manure 70 %, N 6 %, C:N 10;
    // sawdust 35 %, N 0.11 %, C:N 500. 60 % moisture takes 0.4 parts of sawdust, C:N 30 takes about 1.07.
    const std::vector manure{portion(1, 70, 60, 6)};
    const std::vector sawdust{toHand(35, 55, 0.11)};
    const auto moist = balance(manure, sawdust, {exactly(60), {}});
    REQUIRE(moist.feasible);
    CHECK(moist.kilograms[0] == Approx(0.40));
    CHECK(*moist.mixture.carbonNitrogen == Approx(17.66).margin(0.005));
    const auto mixed = balance(manure, sawdust, {{}, exactly(30)});
    REQUIRE(mixed.feasible);
    CHECK(mixed.kilograms[0] == Approx(1.0713).margin(0.00005));
    CHECK(*mixed.mixture.moisturePercent == Approx(51.9).margin(0.05));
}

TEST_CASE("water to add to twenty kilograms at 35 % for 55 %") {
    // W = Q (G - M)/(100 - G), Cornell "Moisture content", water as an ingredient: 20 * 20/45.
    const auto found = balance(std::vector{portion(20, 35, 45, 1)}, std::vector{water}, {exactly(55), {}});
    REQUIRE(found.feasible);
    CHECK(found.kilograms[0] == Approx(400.0 / 45));
}

TEST_CASE("vegetables cardboard and leaves together") {
    // 10 kg at 87 %, N 2.7, C:N 19; 1 kg at 8 %, 0.10, 563; 4 kg at 38 %, 0.9, 54 (NRAES-54 Table A.1, from memory).
    const std::vector all{portion(10, 87, 2.7 * 19, 2.7), portion(1, 8, 56.3, 0.10), portion(4, 38, 48.6, 0.9)};
    CHECK(*mixtureOf(all).moisturePercent == Approx(68.67).margin(0.005));
    CHECK(*mixtureOf(all).carbonNitrogen == Approx(40.97).margin(0.005));
}

TEST_CASE("hen manure with straw for C to N of 30 and then water for 60 %") {
    // Third-material equations, Cornell "Solving the equations simultaneously"; figures of NRAES-54 Table A.1 (memory).
    const std::vector manure{portion(10, 69, 48, 8)};
    const ToHand straw = toHand(12, 56, 0.7);
    const auto found = balance(manure, std::vector{straw}, {{}, exactly(30)});
    REQUIRE(found.feasible);
    CHECK(found.kilograms[0] == Approx(5.952 / 0.308));  // 19.325
    CHECK(*found.mixture.moisturePercent == Approx(31.44).margin(0.005));
    const auto wetted = balance(manure, std::vector{straw, water}, {exactly(60), exactly(30)});
    REQUIRE(wetted.feasible);
    CHECK(wetted.kilograms[0] == Approx(5.952 / 0.308));
    CHECK(wetted.kilograms[1] == Approx(20.94).margin(0.005));
}

TEST_CASE("averaging the ratios of the materials is not what a mixture is") {
    // A widely printed short cut: 4 parts at 20:1 and 1 part at 80:1 called 32:1 (NMSU column, 12 December 2009,
    // aces.nmsu.edu/ces/yard/2009/december-12.html); 2 lb at 15:1 and 1 lb at 65:1 called 31.7:1
    // (studylib.net/doc/7712348). With the nitrogen and moisture such materials have, it comes out otherwise.
    const std::vector column{portion(4, 87, 54, 2.7), portion(1, 12, 56, 0.7)};  // kitchen produce and straw: 38.3
    CHECK(std::abs(*mixtureOf(column).carbonNitrogen - 32) > 1);
    const std::vector key{portion(2, 69, 36, 2.4), portion(1, 38, 48.75, 0.75)};  // food waste and leaves: 26.9
    CHECK(std::abs(*mixtureOf(key).carbonNitrogen - 31.7) > 1);
    // It is right in the one case where every material brings the same nitrogen.
    const std::vector same{portion(4, 50, 20, 1), portion(1, 50, 80, 1)};
    CHECK(*mixtureOf(same).carbonNitrogen == Approx(32));
}

TEST_CASE("random mixtures agree with exact algebra") {
    for (const Row& r : bySympy) {
        const Mixture mixture = mixtureOf(std::vector{portion(r[0], r[1], r[2], r[3]), portion(r[4], r[5], r[6], r[7]),
                                                      portion(r[8], r[9], r[10], r[11])});
        CHECK(*mixture.moisturePercent == Approx(r[12]).epsilon(1e-12));
        CHECK(*mixture.carbonNitrogen == Approx(r[13]).epsilon(1e-12));
    }
}

TEST_CASE("random balances agree with exact algebra") {
    for (const Row& r : bySympy) {
        const std::vector unknown{toHand(r[5], r[6], r[7]), toHand(r[9], r[10], r[11])};
        const auto found =
            balance(std::vector{portion(r[0], r[1], r[2], r[3])}, unknown, {exactly(r[14]), exactly(r[15])});
        CHECK(found.feasible == (r[16] >= 0 && r[17] >= 0));
        CHECK((!found.feasible || found.kilograms[0] == Approx(r[16])));
        CHECK((!found.feasible || found.kilograms[1] == Approx(r[17])));
    }
    CHECK(std::ranges::count_if(bySympy, [](const Row& r) { return r[16] >= 0 && r[17] >= 0; }) == 25);
}

TEST_CASE("ten kilograms of kitchen scraps with card and leaves lie within the spread of what is published") {
    // tests/support/scraps_by_python.py works it out for each published figure of the scraps, and names them.
    const Mixture mixture =
        mixtureOf(std::vector{listed("kitchen scraps", 10), listed("leaves", 4), listed("card", 1)});
    CHECK(lies(*mixture.moisturePercent, spreadOf(3)));
    CHECK(lies(*mixture.carbonNitrogen, spreadOf(4)));
    // The range we show takes all of them in.
    for (const ScrapsRow& row : scrapsByPython) {
        CHECK(lies(row[3], *mixture.moistureRange));
        CHECK(lies(row[4], *mixture.carbonNitrogenRange));
    }
}

TEST_CASE("what ten kilograms of kitchen scraps want of card and leaves lies within the spread of what is published") {
    const std::vector toHand{ToHand{listed("leaves", 0), 0, std::nullopt, false},
                             ToHand{listed("card", 0), 0, std::nullopt, false}};
    const auto found =
        balance(std::vector{listed("kitchen scraps", 10)}, toHand, {Bounds{0, 70}, Bounds{25, 50}}, Aim::leastMass);
    REQUIRE(found.feasible);
    CHECK(lies(found.kilograms[0] + found.kilograms[1], spreadOf(5)));
}

TEST_CASE("the food table's carrot and the handbook's produce are what the list has") {
    // USDA SR28, food 11124, grams in 100 g: water 88.29, protein 0.93, fat 0.24, ash 0.97, carbohydrate 9.58.
    const Material& carrots = *builtInMaterials().find("carrot");
    CHECK(carrots.moisturePercent->typical == Approx(88.29).margin(0.05));
    CHECK(carrots.nitrogenPercent->typical == Approx(0.93 / 6.25 / 11.71 * 100).margin(0.005));
    CHECK(carrots.carbonNitrogen->typical ==
          Approx((0.53 * 0.93 + 0.77 * 0.24 + 0.44 * 9.58) / (0.93 / 6.25)).margin(0.05));
    // The short cut of Cornell's carbon page, (100 - ash) / 1.8, lies in its range: 40.1.
    CHECK(lies((100 - 0.97 / 11.71 * 100) / 1.8 / (0.93 / 6.25 / 11.71 * 100), carrots.carbonNitrogen->within));
    // NRAES-54 Table A.1 as reprinted in How to Mix Composting Materials (businessdocbox.com/98528550).
    const Material& produce = *builtInMaterials().find("vegetable produce");
    CHECK(produce.nitrogenPercent->typical == 2.7);
    CHECK(produce.carbonNitrogen->typical == 19);
    CHECK(produce.moisturePercent->typical == 87);
    CHECK(produce.bulkDensity->typical == 940);  // 1,585 lb/yd3
    const Material& coffee = *builtInMaterials().find("coffee");
    CHECK(coffee.nitrogenPercent->typical == 2.28);
    CHECK(coffee.carbonNitrogen->typical == 20);
    CHECK(coffee.moisturePercent->typical == 75);
}

TEST_CASE("the fertiliser manual's manures lie in the handbook's range for them") {
    // Nutrient Management Guide RB209 (2023), Tables 2.2 and 2.5: kg of nitrogen in a tonne as it is, dry matter.
    struct Manure {
        const char* name;
        double nitrogenPerTonne;
        double dryPercent;
    };
    for (const auto& manure : {Manure{"cattle manure", 6.0, 25}, Manure{"sheep manure", 7.0, 25},
                               Manure{"horse manure", 5.0, 25}, Manure{"poultry litter", 19, 40}}) {
        INFO(manure.name);
        const double ofDryMass = manure.nitrogenPerTonne / 10 / manure.dryPercent * 100;
        const auto& listed = *builtInMaterials().find(manure.name)->nitrogenPercent;
        CHECK(lies(ofDryMass, listed.within, 0.001));
    }
    // Table 2.17: green compost 7.5 and green with food 11 at 60 % dry matter.
    const auto& compost = *builtInMaterials().find("finished compost")->nitrogenPercent;
    CHECK(compost.within.low == Approx(7.5 / 10 / 60 * 100));
    CHECK(compost.within.high == Approx(11.0 / 10 / 60 * 100).margin(0.005));
}

TEST_CASE("what the extension service of Cornell says of C to N lies in the range of the list") {
    struct Said {
        const char* name;
        double carbonNitrogen;
    };
    // S. Reiners, The Do's and Don'ts of Composting (Cornell AgriTech, 9 April 2021, cals.cornell.edu): sawdust may
    // have 500, poultry manure just 10, coffee grounds about 20. Home Composting Slide Show III (Richard, Kozlowski,
    // Dickson, Kline 1989, compost.css.cornell.edu/slideshow): fresh grass clippings 20, oak leaves about 60. Compost
    // Chemistry, as a stored copy gives it: newspaper or corrugated 560, leaves 30 to 80, straw 40 to 100, bark 100 to
    // 130, mixed paper 150 to 200, vegetable scraps 15 to 20, grass 15 to 25; fact sheet 2: grass 19, coffee 20.
    for (const auto& [name, ratio] :
         {Said{"sawdust", 500}, Said{"hen manure", 10}, Said{"coffee grounds", 20}, Said{"grass", 20},
          Said{"leaves", 60}, Said{"newspaper", 560}, Said{"corrugated card", 560}, Said{"leaves", 80},
          Said{"straw", 100}, Said{"bark", 100}, Said{"bark", 130}, Said{"paper", 150}, Said{"paper", 200},
          Said{"kitchen scraps", 15}, Said{"kitchen scraps", 20}, Said{"grass", 15}, Said{"grass", 25},
          Said{"grass", 19}}) {
        INFO(name << " " << ratio);
        CHECK(lies(ratio, builtInMaterials().find(name)->carbonNitrogen->within, 0));
    }
    for (const auto& [name, within] :
         {std::pair{"leaves", Bounds{30, 80}}, std::pair{"straw", Bounds{40, 100}}, std::pair{"bark", Bounds{100, 130}},
          std::pair{"paper", Bounds{150, 200}}, std::pair{"grass", Bounds{15, 25}}}) {
        INFO(name);
        CHECK(lies(builtInMaterials().find(name)->carbonNitrogen->typical, within, 0));
    }
}

TEST_CASE("what Oregon and the federal agency weigh in a cubic yard lies in the range of the list") {
    constexpr double poundsACubicYard = 0.593276;  // kg/m³
    const auto weighs = [](const char* name, double pounds) {
        INFO(name << " " << pounds);
        CHECK(lies(pounds * poundsACubicYard, builtInMaterials().find(name)->bulkDensity->within, 1));
    };
    // Oregon Department of Environmental Quality, factors of its Materials Recovery Survey
    // (greenyes.grrn.org/2005/04/msg00009.html): grass clippings up to 1,500, leaves 250 to 500, dry wood chips 243.
    weighs("grass", 1'500);
    weighs("leaves", 250);
    weighs("leaves", 500);
    weighs("wood chips", 243);
    // US EPA 2016 as quoted in the help page of its building benchmarks: mixed paper 245, cardboard 106, grass and yard
    // trimmings 250. EPA's older table as reprinted (Solid Waste Analysis and Minimization, Table 2.2): loose cardboard
    // 50 to 150.
    weighs("paper", 245);
    weighs("card", 106);
    weighs("card", 50);
    weighs("card", 150);
    weighs("grass", 250);
}

TEST_CASE("a litre of kitchen waste and of garden waste weighs what the weights table says") {
    // merseysidewda.gov.uk/volume-to-kgs: food waste 0.425 kg, garden waste 0.231 kg a litre.
    CHECK(builtInMaterials().find("kitchen scraps")->bulkDensity->typical == 425);
    CHECK(builtInMaterials().find("plant waste")->bulkDensity->typical == 231);
    // US EPA 2016 as quoted: food scraps 396 lb a cubic yard and 3.8 lb a gallon.
    const auto& within = builtInMaterials().find("kitchen scraps")->bulkDensity->within;
    CHECK(within.low == Approx(396 * 0.593276).margin(1));
    CHECK(within.high == Approx(3.8 * 0.45359237 / 3.785411784 * 1'000).margin(1));
}
