// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/recipe/material.h"

#include <algorithm>
#include <catch2/catch.hpp>
#include <set>
#include <utility>

#include "core/recipe/caution.h"
#include "core/recipe/fact.h"
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
    "carbon_nitrogen_high;moisture;moisture_low;moisture_high;bulk;bulk_low;bulk_high;raw;cautions;source;checked;"
    "known;basis;note\n";

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

/// Carbon outside 35–52 % of the dry mass, and no word why.
bool hasStrangeCarbon(const Material& m) {
    const auto carbon = portionOf(m, 1).carbonPercent;
    return carbon && m.carbonNote.empty() && (*carbon < 35 || *carbon > 52);
}

bool hasNoteWithoutNeed(const Material& m) {
    const auto carbon = portionOf(m, 1).carbonPercent;
    return !m.carbonNote.empty() && carbon && *carbon >= 35 && *carbon <= 52;
}

/// Does each of its figures say how it is known, none of them by memory, and each with words for it?
bool isWellKnown(const Material& m) {
    const auto isKnown = [&](const std::optional<Estimate>& figure, const std::optional<Known>& known) {
        return figure.has_value() == known.has_value() && (!known || (*known != Known::memory && *known != Known::own));
    };
    const std::set<std::string> bases{"food-table", "handbook", "manual", "mixture", "estimate", "definition", "none"};
    return isKnown(m.nitrogenPercent, m.known.nitrogen) && isKnown(m.carbonNitrogen, m.known.carbonNitrogen) &&
           isKnown(m.moisturePercent, m.known.moisture) && isKnown(m.bulkDensity, m.known.bulk) &&
           bases.contains(m.basis) && m.source.size() > 5 && m.checked.size() > 10 &&
           m.checked.find("memory") == std::string::npos;
}

/// A figure that is our estimate without a range.
bool hasBareEstimate(const Material& m) {
    const auto isBare = [](const std::optional<Estimate>& figure, const std::optional<Known>& known) {
        return figure && known == Known::estimate && !figure->spreadKnown;
    };
    return isBare(m.nitrogenPercent, m.known.nitrogen) || isBare(m.carbonNitrogen, m.known.carbonNitrogen) ||
           isBare(m.moisturePercent, m.known.moisture) || isBare(m.bulkDensity, m.known.bulk);
}

std::string idOf(const Materials& materials, std::string_view name) {
    const Material* material = materials.find(name);
    return material == nullptr ? "" : material->id;
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

TEST_CASE("the built in materials are about a hundred and each figure says how it is known and none by memory") {
    CHECK(builtInMaterials().all().size() >= 90);
    CHECK(builtInWhere([](const Material& m) { return !isWellKnown(m); }) == none);
    CHECK(builtInWhere(hasBareEstimate) == none);
    CHECK(builtInWhere([](const Material& m) { return m.ofTheGroup; }) == none);
}

TEST_CASE("no name or alias of a built in material stands for two of them") {
    std::set<std::string> ids;
    CHECK(builtInWhere([&](const Material& m) { return !ids.insert(m.id).second; }) == none);
    CHECK(builtInWhere(isAmbiguous) == none);
}

TEST_CASE("no built in material holds more or less carbon than plants do unless it says why") {
    // Organic matter is 45 to 60 % carbon: Cornell, compost.css.cornell.edu/calc/carbon.html (Adams et al. 1951);
    // starch and cellulose are 72/162, 44 %. With ash that makes 35 to 52 % of the dry mass.
    CHECK(builtInWhere(hasStrangeCarbon) == none);
    CHECK(builtInWhere(hasNoteWithoutNeed) == none);
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

TEST_CASE("common foods are found by their own names whether one or many") {
    for (const auto& [name, id] :
         std::vector<std::pair<std::string, std::string>>{{"carrot", "carrots"},
                                                          {"Carrots", "carrots"},
                                                          {"cabbage", "cabbage"},
                                                          {"cabbages", "cabbage"},
                                                          {"apple", "apples"},
                                                          {"apples", "apples"},
                                                          {"banana skins", "fruit-waste"},
                                                          {"banana skin", "fruit-waste"},
                                                          {"lettuce", "lettuce"},
                                                          {"onions", "onions"},
                                                          {"onion", "onions"},
                                                          {"tomato", "tomatoes"},
                                                          {"tomatoes", "tomatoes"},
                                                          {"potato", "potatoes"},
                                                          {"potatoes", "potatoes"},
                                                          {"strawberry", "strawberries"},
                                                          {"strawberries", "strawberries"},
                                                          {"radishes", "root-vegetables"},
                                                          {"peach", "fruit-waste"},
                                                          {"peaches", "fruit-waste"},
                                                          {"egg boxes", "cardboard"},
                                                          {"egg box", "cardboard"},
                                                          {"rice", "boiled-rice"},
                                                          {"pasta", "cooked-pasta"},
                                                          {"kitchen scraps", "vegetable-scraps"},
                                                          {"leaf", "leaves"},
                                                          {"grass", "grass-clippings"}}) {
        INFO(name);
        CHECK(idOf(builtInMaterials(), name) == id);
    }
}

TEST_CASE("tomato plants bread seaweed and rice no longer answer to one another's names") {
    CHECK(idOf(builtInMaterials(), "tomato plants") == "tomato-plants");
    CHECK(idOf(builtInMaterials(), "bread") == "bread");
    CHECK(idOf(builtInMaterials(), "seaweed") == "seaweed");
    CHECK(idOf(builtInMaterials(), "kelp") == "seaweed");
    CHECK(builtInMaterials().find("rice")->id != builtInMaterials().find("bread")->id);
}

TEST_CASE("every name of the list before is still known") {
    for (const Material& m : earlierMaterials().all()) {
        INFO(m.name);
        REQUIRE(builtInMaterials().find(m.id) != nullptr);
        const auto isKnown = [](const std::string& name) { return builtInMaterials().find(name) != nullptr; };
        CHECK(isKnown(m.name));
        CHECK(std::ranges::all_of(m.aliases, isKnown));
        CHECK(builtInMaterials().find(m.name)->raw == m.raw);
    }
}

TEST_CASE("what was put in before the list changed is read with the list of then") {
    const Materials now = builtInMaterials().withEarlier(earlierMaterials(), Instant{1'000});
    Addition before = addition("tomatoes");
    before.id.digits = "0123";
    before.when.at = Instant{999};
    CHECK(now.find(before)->id == "tomato-plants");
    CHECK(portionOf(before, now).moisturePercent->typical == 62);
    Addition after = before;
    after.when.at = Instant{1'000};
    CHECK(now.find(after)->id == "tomatoes");
    CHECK(portionOf(after, now).moisturePercent->typical == Approx(94.5));
    Addition typed = before;  // not in the book yet
    typed.id = {};
    CHECK(now.find(typed)->id == "tomatoes");
}

TEST_CASE("a name the steward gave keeps its meaning when the list comes to have it too") {
    const auto own = Materials::parse(header + "own-carrots;Carrots;;garden;1;;;60;;;90;;;;;;no;;own analysis;told\n");
    REQUIRE(own);
    const Materials both = builtInMaterials().with(*own);
    CHECK(both.find("carrots")->id == "own-carrots");
    CHECK(both.find("carrot")->carbonNitrogen->typical == 60);
    CHECK_FALSE(isRaw(addition("carrots"), both));
}

TEST_CASE("the steward's own lines are written as older programs read them and are known as their own") {
    const std::string line = "hops;Spent hops;;garden;3;;;15;;;75;;;;;;yes;;brewery;told";
    const auto own = Materials::parse(header + line + "\n");
    REQUIRE(own);
    CHECK(own->all().front().known == FiguresKnown{Known::own, Known::own, Known::own, std::nullopt});
    CHECK(own->all().front().basis == "own");
    CHECK(tableOf(own->all()).find(line + "\n") != std::string::npos);
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
                 "x;X;;brown;0.5", "x;X;;brown;0.5;;;100;;;10;;;90;;;no;;s;c;seen|quoted|quoted|quoted;handbook;",
                 "x;X;;brown;0.5;;;100;;;10;;;90;;;no;;s;c;quoted|quoted|quoted|;handbook;",
                 "x;X;;brown;0.5;;;100;;;10;;;90;;;no;;s;c;quoted|quoted|quoted|quoted|quoted;handbook;",
                 "x;X;;brown;0.5;;;100;;;10;;;;;;no;;s;c;quoted|quoted|quoted|quoted;handbook;",
                 ";X;;brown;0.5;;;100;;;10;;;90;;;no;;s;c");
    INFO(line);
    const auto read = Materials::parse(header + line + "\n");
    REQUIRE_FALSE(read);
    CHECK(read.error().wrong.find("line 2") != std::string::npos);
    CHECK_FALSE(read.error().expected.empty());
}

TEST_CASE("cautions come for listed materials and for telling words in an unknown one") {
    CHECK(cautionIds("grass") == Ids{"herbicide"});
    CHECK(cautionIds("horse manure") == Ids{"herbicide", "manure", "tetanus"});
    CHECK(cautionIds("dog poo") == Ids{"pets"});
    CHECK(cautionIds("compostable cups") == Ids{"packaging"});
    CHECK(cautionIds("old decking") == Ids{"wood"});
    CHECK(cautionIds("sweepings with glass") == Ids{"glass"});
    CHECK(cautionIds("kitchen scraps") == Ids{"animal", "farm-animals"});
    CHECK(cautionIds("chicken bones") == Ids{"animal"});
    CHECK(cautionIds("ash from the stove") == Ids{"ash"});
    CHECK(cautionIds("blighted potatoes") == Ids{"disease"});
    CHECK(cautionIds("MDF offcuts") == Ids{"wood"});
    CHECK(cautionIds("catalogue").empty());
    CHECK(cautionIds("water").empty());
}

TEST_CASE("droppings and litter of cats and dogs never suggest the rules of manure") {
    for (const char* name : {"cat litter", "dog droppings", "cat droppings", "used litter of the cat", "puppy litter",
                             "dung of the dog", "cat or dog droppings"}) {
        INFO(name);
        CHECK(cautionIds(name).contains("pets"));
        CHECK_FALSE(cautionIds(name).contains("manure"));
    }
    CHECK(cautionIds("chicken litter").contains("manure"));
}

TEST_CASE("every caution has its words and source and every one a material names exists") {
    std::set<std::string> ids;
    for (const Caution& c : builtInCautions()) {
        INFO(c.id);
        CHECK_FALSE((c.words.empty() || c.source.empty()));
        CHECK(ids.insert(c.id).second);
        CHECK((c.known == "opened" || c.known == "quoted" || c.known == "practice"));
        CHECK(c.source.find("memory") == std::string::npos);
    }
    CHECK(builtInWhere(namesUnknownCaution) == none);
}

TEST_CASE("every fact of the trade says what limits it and that it is common practice") {
    CHECK(tradeFacts().size() == 5);
    for (const TradeFact& fact : tradeFacts()) {
        INFO(fact.id);
        CHECK(fact.words.size() > 20);
        CHECK(fact.limits.size() > 20);
        CHECK(fact.known == "practice");
        CHECK(fact.source.find("common practice, no source") == 0);
    }
    CHECK(tradeFact("household-food-waste").value == 250);
    CHECK_THROWS(tradeFact("moon-dust"));
}
