// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/recipe/material.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

#include "core/recipe/caution.h"
#include "core/recipe/mixture.h"

using namespace midden;

namespace {

Addition addition(const std::string& material, double kilograms = 1) {
    Addition a;
    a.material = material;
    a.massKilograms = kilograms;
    return a;
}

const std::string header =
    "id;name;aliases;group;nitrogen;nitrogen_low;nitrogen_high;carbon_nitrogen;carbon_nitrogen_low;"
    "carbon_nitrogen_high;moisture;moisture_low;moisture_high;bulk;bulk_low;bulk_high;raw;cautions;source;checked\n";

/// Names of the built-in materials that are not as they should be: compare with {}.
template <class Wrong>
std::vector<std::string> builtInWhere(const Wrong& wrong) {
    std::vector<std::string> names;
    for (const Material& m : builtInMaterials().all()) {
        if (wrong(m)) {
            names.push_back(m.name);
        }
    }
    return names;
}
const std::vector<std::string> none;

bool isAmbiguous(const Material& m) {
    const auto leadsElsewhere = [&](const std::string& name) { return builtInMaterials().find(name)->id != m.id; };
    return leadsElsewhere(m.name) || leadsElsewhere(m.id) || std::ranges::any_of(m.aliases, leadsElsewhere);
}

bool hasTooMuchCarbon(const Material& m) {
    return portionOf(m, 1).carbonPercent.value_or(0) > 60;
}

bool hasUnorderedNitrogen(const Material& m) {
    const auto n = portionOf(m, 1).nitrogenPercent.value_or(Estimate{});
    return n.within.low > n.typical || n.typical > n.within.high;
}

bool namesUnknownCaution(const Material& m) {
    const auto& known = builtInCautions();
    return !std::ranges::all_of(
        m.cautions, [&](const std::string& id) { return std::ranges::find(known, id, &Caution::id) != known.end(); });
}

std::set<std::string> cautionIds(std::string_view name) {
    std::set<std::string> ids;
    for (const Caution& c : cautionsFor(name)) {
        ids.insert(c.id);
    }
    return ids;
}

using Ids = std::set<std::string>;

}  // namespace

TEST_CASE("the built in materials are about forty and each says where its figures are from") {
    CHECK(builtInMaterials().all().size() >= 40);
    CHECK(builtInWhere([](const Material& m) { return m.source.empty() || m.checked.empty(); }) == none);
    CHECK(builtInWhere([](const Material& m) { return m.ofTheGroup; }) == none);
}

TEST_CASE("no name or alias of a built in material stands for two of them") {
    std::set<std::string> ids;
    CHECK(builtInWhere([&](const Material& m) { return !ids.insert(m.id).second; }) == none);
    CHECK(builtInWhere(isAmbiguous) == none);
}

TEST_CASE("no built in material holds more carbon than organic matter can") {
    // Organic matter is 45 to 60 % carbon: Cornell, compost.css.cornell.edu/calc/carbon.html (Adams et al. 1951).
    CHECK(builtInWhere(hasTooMuchCarbon) == none);
    CHECK(builtInWhere(hasUnorderedNitrogen) == none);
}

TEST_CASE("a material is found by id name or alias whatever its case spaces or plural") {
    const std::string name =
        GENERATE("straw", "Straw", "  STRAW ", "clean  straw", "Straws", "straw (general)", "general straw");
    INFO(name);
    REQUIRE(builtInMaterials().find(name) != nullptr);
    CHECK(builtInMaterials().find(name)->id == "straw");
    CHECK(builtInMaterials().find("wet grass")->id == "grass-clippings");
    CHECK(builtInMaterials().find("moon dust") == nullptr);
    CHECK(builtInMaterials().find("") == nullptr);
}

TEST_CASE("an entry's own mark says whether it is raw and else its material does and the unknown is raw") {
    CHECK(isRaw(addition("vegetable scraps")));
    CHECK_FALSE(isRaw(addition("wood chips")));
    CHECK_FALSE(isRaw(addition("finished compost")));
    CHECK_FALSE(isRaw(addition("Water")));
    CHECK(isRaw(addition("moon dust")));
    Addition own = addition("wood chips");
    own.raw = true;
    CHECK(isRaw(own));
    own = addition("moon dust");
    own.raw = false;
    CHECK_FALSE(isRaw(own));
}

TEST_CASE("the table is read back as it was written") {
    const auto& all = builtInMaterials().all();
    const auto again = Materials::parse(tableOf(all));
    REQUIRE(again);
    CHECK((again->all() == all));
}

TEST_CASE("the steward's own materials stand in for those of the same id and are marked") {
    const auto own = Materials::parse(header +
                                      "straw;Straw;;brown;0.5;;;100;;;10;;;90;;;no;;own analysis;weighed and dried\n"
                                      "hops;Spent hops;;garden;3;;;15;;;75;;;;;;yes;;brewery;told\n");
    REQUIRE(own);
    const Materials both = builtInMaterials().with(*own);
    CHECK(both.all().size() == builtInMaterials().all().size() + 1);
    CHECK(both.find("straw")->ofTheGroup);
    CHECK(both.find("straw")->carbonNitrogen->typical == 100);
    CHECK(both.find("spent hops")->ofTheGroup);
    CHECK_FALSE(both.find("leaves")->ofTheGroup);
}

TEST_CASE("a wrong line of a materials table is refused with its number") {
    const std::string line =
        GENERATE("x;X;;brown;abc;;;100;;;10;;;90;;;no;;s;c", "x;X;;brown;-1;;;100;;;10;;;90;;;no;;s;c",
                 "x;X;;brown;0.5;;;nan;;;10;;;90;;;no;;s;c", "x;X;;brown;0.5;;;inf;;;10;;;90;;;no;;s;c",
                 "x;X;;brown;0.5;;;100;;;110;;;90;;;no;;s;c", "x;X;;brown;0.5;;;100;120;140;10;;;90;;;no;;s;c",
                 "x;X;;brown;0.5;;;100;;;10;;;0;;;no;;s;c", "x;X;;brown;0.5;;;100;;;10;;;90;;;maybe;;s;c",
                 "x;X;;brown;0.5", ";X;;brown;0.5;;;100;;;10;;;90;;;no;;s;c");
    INFO(line);
    const auto read = Materials::parse(header + line + "\n");
    REQUIRE_FALSE(read);
    CHECK(read.error().wrong.find("line 2") != std::string::npos);
    CHECK_FALSE(read.error().expected.empty());
}

TEST_CASE("cautions come for listed materials and for telling words in an unknown one") {
    CHECK(cautionIds("grass") == Ids{"herbicide"});
    CHECK(cautionIds("horse manure") == Ids{"herbicide", "manure"});
    CHECK(cautionIds("dog poo") == Ids{"pets"});
    CHECK(cautionIds("chicken bones") == Ids{"animal"});
    CHECK(cautionIds("ash from the stove") == Ids{"ash"});
    CHECK(cautionIds("blighted potatoes") == Ids{"disease"});
    CHECK(cautionIds("MDF offcuts") == Ids{"wood"});
    CHECK(cautionIds("catalogue").empty());
    CHECK(cautionIds("water").empty());
}

TEST_CASE("every caution has its words and source and every one a material names exists") {
    for (const Caution& c : builtInCautions()) {
        CHECK_FALSE((c.words.empty() || c.source.empty()));
    }
    CHECK(builtInWhere(namesUnknownCaution) == none);
}
