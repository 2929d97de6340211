// SPDX-License-Identifier: GPL-3.0-or-later
// Fed bins through the program itself. The figures are worked out by hand from the definitions: what is left of a feed
// after a days is V·(s + (1 − s)·e^(−a/k)), and 2.5 L lie in a centimetre of these bins.
#include <catch2/catch.hpp>
#include <fstream>
#include <nlohmann/json.hpp>

#include "tests/core/exchange/shell.h"

using midden::testing::comesBackFrom;
using midden::testing::Scratch;
using midden::testing::Shell;
using Json = nlohmann::json;

namespace {

constexpr const char* bins = "bin,volume_l,height_cm\nNorth,250,100\n";

/// Noon of so many days after 1 March 2026.
std::string day(int number) {
    const bool isMarch = number < 31;
    const auto date = std::to_string(isMarch ? number + 1 : number - 30);
    return std::string{"2026-0"} + (isMarch ? "3-" : "4-") + (date.size() < 2 ? "0" : "") + date + "T12:00:00Z";
}

Json reviewOf(const Shell& shell, const std::string& arguments) {
    const auto made = shell.run("import b.midden --batch Spring --bin North --fed --bins bins.csv " + arguments);
    INFO(made.err);
    REQUIRE(made.status == 0);
    const auto ran = shell.run("review b.midden --json");
    REQUIRE(ran.status == 0);
    return Json::parse(ran.out).at("batches").at(0);
}

Approx about(double value) {
    return Approx(value).margin(0.0006);
}

double number(const Json& object, const char* key) {
    return object.at(key).get<double>();
}

/// Of the slices of one feed: lowest and highest edge, and litres.
struct Stood {
    double from = 1e9;
    double to = 0;
    double litres = 0;
};
Stood fedOn(const Json& review, const std::string& time) {
    Stood stood;
    for (const auto& layer : review.at("layers")) {
        if (layer.at("fed_from") == time) {
            stood.from = std::min(stood.from, number(layer, "from_cm"));
            stood.to = std::max(stood.to, number(layer, "to_cm"));
            stood.litres += number(layer, "litres");
        }
    }
    return stood;
}

/// 40, 30 and 30 L at intervals of a week.
void writeThreeFeeds(const Shell& shell) {
    shell.scratch.write("bins.csv", bins);
    shell.scratch.write("a.csv", "time,material,mass_kg,volume_l\n" + day(0) + ",Scraps,16,40\n" + day(7) +
                                     ",Scraps,12,30\n" + day(14) + ",Scraps,12,30\n");
}

}  // namespace

TEST_CASE("where three feeds stand, and what a measured level says of them") {
    const Shell shell;
    writeThreeFeeds(shell);
    const auto fresh = reviewOf(shell, "--additions a.csv");
    CHECK(fresh.at("feeding") == "fed");
    CHECK(fedOn(fresh, day(0)).litres == about(25.9044));
    CHECK(fedOn(fresh, day(7)).litres == about(23.7984));
    CHECK(fedOn(fresh, day(14)).litres == about(30));
    CHECK(fedOn(fresh, day(0)).to == about(10.3618));
    CHECK(fedOn(fresh, day(7)).to == about(19.8811));
    CHECK(fedOn(fresh, day(14)).to == about(31.8811));
    CHECK(fresh.at("harvests") == Json::array());
    CHECK(fresh.at("fit").at(1) == Json{{"k_days", 20.0}, {"s_inf", 0.30}, {"kept", false}});

    shell.scratch.write("o.csv", "time,kind,value\n" + day(28) + ",level,22\n");
    const auto level = reviewOf(shell, "--observations o.csv");
    CHECK(fedOn(level, day(7)).from == about(7.621));
    CHECK(fedOn(level, day(7)).to == about(14.199));
    CHECK(number(level.at("fit").at(0), "s_inf") == about(0.479745));
    CHECK(number(level.at("fit").at(1), "s_inf") == about(0.304917));
    CHECK(number(level.at("fit").at(2), "s_inf") == about(0.15));  // it would be −0.090928
    CHECK(level.at("fit").at(0).at("kept") == true);
    CHECK(level.at("fit").at(1).at("kept") == true);
    CHECK(level.at("fit").at(2).at("kept") == false);
}

TEST_CASE("what a harvest takes, and what may be in it") {
    const Shell shell;
    writeThreeFeeds(shell);
    shell.scratch.write("h.csv", "time,volume_l\n" + day(42) + ",20\n");
    const auto review = reviewOf(shell, "--additions a.csv --harvests h.csv");
    const auto& harvest = review.at("harvests").at(0);
    CHECK(harvest.at("at") == day(42));
    CHECK(number(harvest, "litres") == about(20));
    double ofFirst = 0;
    const auto& parts = harvest.at("reckoned").at("parts");
    for (std::size_t i = 0; i < 4; ++i) {
        ofFirst += number(parts.at(i), "litres");  // 40 L lie 16 cm high when loose: four slices
    }
    CHECK(ofFirst == about(15.4288));
    CHECK(fedOn(review, day(7)).from == about(0));
    CHECK(fedOn(review, day(7)).to == about(3.2312));
    CHECK(fedOn(review, day(14)).to == about(8.9026));
    const auto& cautious = harvest.at("cautious");
    CHECK(cautious.at("fed_from") == day(0));
    CHECK(cautious.at("fed_to") == day(14));  // 28 days old, at least half of the 35 of the youngest touched
    CHECK(cautious.at("at_least_hours") == 0);
    CHECK(cautious.at("at_most_hours") == 42 * 24);
    CHECK(harvest.at("reckoned").at("at_least_hours") == 0);
    CHECK(harvest.at("reckoned").at("litres_with_hold") == 0);
}

TEST_CASE("a hot bin by hand: layers, a harvest and the fit, key for key") {
    const Shell shell;
    shell.scratch.write("bins.csv", bins);
    shell.scratch.write("a.csv", "time,material,mass_kg,volume_l\n" + day(0) + ",Scraps,10,25\n");
    shell.scratch.write("o.csv", "time,kind,value\n" + day(10) + ",level,7\n");
    shell.scratch.write("p.csv", "bin,position,spot_check,height_cm\nNorth,core,no,3\n");
    shell.scratch.write("h.csv", "time,volume_l,mass_kg\n" + day(16) + ",5,3\n");
    std::string readings = "time,temperature\n";
    for (int number = 11; number <= 15; ++number) {
        readings += day(number) + ",67\n";  // ±1 °C: 11 °C to spare, so 10 cm above and below
    }
    shell.scratch.write("r.csv", readings);
    const auto review =
        reviewOf(shell, "--additions a.csv --observations o.csv --positions p.csv --harvests h.csv --readings r.csv");

    // 17.5 L on day 10. k 10: (17.5 − 25/e)/(25 − 25/e) = 0.525405; k 20: 0.237552; k 40: below 0.15.
    const auto& fit = review.at("fit");
    CHECK(number(fit.at(0), "s_inf") == Approx(0.525405).margin(6e-7));
    CHECK(number(fit.at(1), "s_inf") == Approx(0.237552).margin(6e-7));
    CHECK(number(fit.at(2), "s_inf") == 0.15);
    CHECK(fit.at(0).at("kept") == true);
    CHECK(fit.at(1).at("kept") == true);
    CHECK(fit.at(2).at("kept") == false);

    // Day 16, by 20 days: 25·(0.237552 + 0.762448·e^(−0.8)) = 14.50355 L in two slices, less 5 L.
    REQUIRE(review.at("layers").size() == 2);
    const auto& low = review.at("layers").at(0);
    const auto& high = review.at("layers").at(1);
    CHECK(number(low, "litres") == about(2.25177));
    CHECK(number(low, "from_cm") == about(0));
    CHECK(number(low, "to_cm") == about(0.90071));
    CHECK(number(high, "to_cm") == about(3.80142));
    for (const auto& layer : {low, high}) {
        CHECK(layer.at("fed_from") == day(0));
        CHECK(layer.at("fed_to") == day(0));
        CHECK(layer.at("at_least_hours") == 96);
        CHECK(layer.at("longest_run_hours") == 96);
        CHECK(layer.at("at_most_hours") == 16 * 24);
        CHECK(layer.size() == 8);
    }
    const Json expected{
        {"at", day(16)},
        {"litres", 5.0},
        {"reckoned",
         {{"at_least_hours", 96.0},
          {"longest_run_hours", 96.0},
          {"half_hours", 96.0},
          {"nine_tenths_hours", 96.0},
          {"litres_with_hold", 5.0},
          {"parts", Json::array({Json{
                        {"litres", 5.0}, {"raw", true}, {"at_least_hours", 96.0}, {"longest_run_hours", 96.0}}})}}},
        {"cautious",
         {{"fed_from", day(0)},
          {"fed_to", day(0)},
          {"at_least_hours", 96.0},
          {"longest_run_hours", 96.0},
          {"at_most_hours", 384.0}}}};
    CHECK(review.at("harvests") == Json::array({expected}));

    const auto text = shell.run("review b.midden").out;
    CHECK(text.find("25.0 L were") == std::string::npos);
    CHECK(text.find("half of it had at least 96.0 h, nine tenths at least 96.0 h, all of it at least 96.0 h") !=
          std::string::npos);
    CHECK(text.find("5.0 L had the whole hold of 72.0 h") != std::string::npos);
    CHECK(text.find("it shows no published figure") != std::string::npos);
    CHECK(text.find("missing") == std::string::npos);

    REQUIRE(shell.run("export b.midden --directory out").status == 0);
    CHECK(comesBackFrom(shell, "out"));
}

TEST_CASE("the review of a fed bin says what it lacks, which litres were assumed, and what was more than was there") {
    const Shell shell;
    shell.scratch.write("bins.csv", "bin,volume_l\nNorth,250\n");
    shell.scratch.write("a.csv", "time,material,mass_kg\n" + day(0) + ",Nothing known,10\n");
    shell.scratch.write("r.csv", "time,temperature\n" + day(1) + ",60\n" + day(2) + ",60\n");
    shell.scratch.write("h.csv", "time,volume_l\n" + day(20) + ",200\n");
    const auto review = reviewOf(shell, "--additions a.csv --readings r.csv --harvests h.csv");
    CHECK(review.at("layers") == Json::array());
    // 25·(0.3 + 0.7/e) of 20 days
    CHECK(number(review.at("harvests").at(0), "litres") == about(13.9379));
    const auto text = shell.run("review b.midden").out;
    CHECK(text.find("missing: the bin's height is not known") != std::string::npos);
    CHECK(text.find("so they show nothing: core") != std::string::npos);
    CHECK(text.find("the level of the surface was never measured") != std::string::npos);
    CHECK(text.find("1 feed of Nothing known, taken as 25.0 L at 0.40 kg per litre") != std::string::npos);
    CHECK(text.find("200.0 L were written down, more than was there") != std::string::npos);
}

TEST_CASE("a dry run refuses and counts what a fed bin's files hold, and writes nothing") {
    const Shell shell;
    writeThreeFeeds(shell);
    shell.scratch.write("h.csv", "time,volume_l\n" + day(42) + ",20\n");
    const std::string import = "import b.midden --batch Spring --bin North --fed --bins bins.csv --additions a.csv ";
    const auto good = shell.run(import + "--harvests h.csv --dry-run");
    CHECK(good.status == 0);
    CHECK(good.out.find("1 harvest would be added.") != std::string::npos);
    CHECK_FALSE(shell.exists("b.midden"));
    shell.scratch.write("h.csv", "time,volume_l\n" + day(42) + ",400\n");
    const auto bad = shell.run(import + "--harvests h.csv --dry-run");
    CHECK(bad.status == 3);
    CHECK(bad.err.starts_with("h.csv:2: volume_l: a harvest of 400 litres"));
    REQUIRE(shell.run(import).status == 0);
    const auto before = Scratch::read(shell.scratch.path("b.midden"));
    CHECK(shell.run("import b.midden --batch Spring --harvests h.csv").status == 3);
    CHECK(Scratch::read(shell.scratch.path("b.midden")) == before);
}

TEST_CASE("a filled batch's review has nothing of layers") {
    const Shell shell;
    writeThreeFeeds(shell);
    REQUIRE(shell.run("import b.midden --batch Spring --bin North --bins bins.csv --additions a.csv").status == 0);
    const auto review = Json::parse(shell.run("review b.midden --json").out).at("batches").at(0);
    for (const char* key : {"feeding", "layers", "harvests", "fit"}) {
        CHECK_FALSE(review.contains(key));
    }
    CHECK(shell.run("review b.midden").out.find("Fed on top") == std::string::npos);
}
