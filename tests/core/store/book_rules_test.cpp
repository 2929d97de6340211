// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/read/book_rules.h"

#include <catch2/catch.hpp>

#include "core/criteria/criteria_json.h"
#include "core/recipe/mixture.h"
#include "core/store/state.h"

using namespace midden;

TEST_CASE("a new book asks for 55 degrees over 72 hours first and then for what ships") {
    const auto book = Logbook::inMemory();
    const auto criteria = criteriaOf(book);
    REQUIRE(criteria.size() == shippedCriteria().size() + 1);
    CHECK(criteria[0].id == "target");
    CHECK(criteria[0].alternatives[0].steps[0].threshold == WrittenTemperature{550'000});
    CHECK(criteria[0].alternatives[0].steps[0].hold == hours(72));
}

TEST_CASE("the book's own target is asked and nonsense in its place is not") {
    auto book = Logbook::inMemory();
    book.setSetting(setting::targetTemperature, "140 °F");
    book.setSetting(setting::targetHours, "48");
    const auto questions = questionsOf(book);
    CHECK(questions.stalls.target.threshold == Celsius::ofTenThousandths(600'000));
    CHECK(questions.stalls.target.hold == hours(48));
    CHECK(questions.stalls.target.maxGap == hours(26));
    book.setSetting(setting::targetHours, "-3");
    book.setSetting(setting::targetTemperature, "hot");
    const auto plain = targetOf(book).alternatives[0].steps[0];
    CHECK(plain.hold == hours(72));
    CHECK(plain.threshold == WrittenTemperature{550'000});
}

TEST_CASE("a group's own criteria come back as they were stored and after the others") {
    auto book = Logbook::inMemory();
    auto own = shippedCriteria().front();
    own.id = "our-own";
    own.title = "What we agreed on";
    auto second = own;
    second.id = "our-second";
    storeGroupCriteria(book, std::vector{own, second});
    const auto criteria = criteriaOf(book);
    REQUIRE(criteria.size() == shippedCriteria().size() + 3);
    CHECK(criteria[criteria.size() - 2].id == "our-own");
    CHECK(criteria.back().id == "our-second");
    CHECK(criteria.back().ofTheGroup);
    storeGroupCriteria(book, {});
    CHECK(groupCriteriaOf(book).empty());
}

TEST_CASE("a criterion that cannot be read stays in the book when others are stored") {
    auto book = Logbook::inMemory();
    const std::string later = R"({"id": "of a later Middenbook", "shape": 7})";
    auto own = shippedCriteria().front();
    own.id = "our-own";
    book.setSetting(setting::criteria, "\x1e" + later + "\x1e" + criterionText(own) + "\x1e\n");
    REQUIRE(groupCriteriaOf(book).size() == 1);
    own.id = "our-other";
    storeGroupCriteria(book, std::vector{own});
    CHECK(groupCriteriaOf(book).size() == 1);
    CHECK(groupCriteriaOf(book).front().id == "our-other");
    storeGroupCriteria(book, {});
    CHECK(groupCriteriaOf(book).empty());
    CHECK(book.setting(setting::criteria).find(later) != std::string::npos);
}

TEST_CASE("the group's own materials take the place of those that ship") {
    auto book = Logbook::inMemory();
    auto changed = builtInMaterials().all().front();
    changed.carbonNitrogen = Estimate::exactly(99);
    book.setSetting(setting::materials, tableOf({changed}));
    REQUIRE(materialsOf(book).find(changed.name));
    CHECK(materialsOf(book).find(changed.name)->carbonNitrogen->typical == 99);
    book.setSetting(setting::materials, "not a table");
    CHECK(materialsOf(book).all().size() == builtInMaterials().all().size());
}

TEST_CASE("the borders of phases and stalls are the book's own and nonsense leaves those that ship") {
    auto book = Logbook::inMemory();
    CHECK(outlookSettingsOf(book).stalls.hot == StallSettings{}.hot);
    book.setSetting(setting::hot, "40.5");
    book.setSetting(setting::tooHot, "68");
    book.setSetting(setting::heatingUp, "7");
    book.setSetting(setting::probeCheck, "30");
    book.setSetting(setting::stallSpan, "-3");
    book.setSetting(setting::remedy, "soon");
    CHECK(questionsOf(book).stalls.hot == Celsius::ofTenThousandths(405'000));
    CHECK(questionsOf(book).stalls.heatingUp == days(7));
    CHECK(questionsOf(book).stalls.span == StallSettings{}.span);
    CHECK(outlookSettingsOf(book).tooHot == Celsius::ofTenThousandths(680'000));
    CHECK(taskSettingsOf(book).care.check == days(30));
    CHECK(taskSettingsOf(book).remedy == StallSettings{}.remedy);
}

TEST_CASE("in force are the target and what was chosen for certificates") {
    auto book = Logbook::inMemory();
    REQUIRE(criteriaInForce(book).size() == 1);
    CHECK(criteriaInForce(book).front().id == "target");
    book.setSetting(setting::inForce, shippedCriteria().front().id + " no-such-rule");
    REQUIRE(criteriaInForce(book).size() == 2);
    CHECK(criteriaInForce(book).back().id == shippedCriteria().front().id);
}

TEST_CASE("a book of before keeps what it said of its additions and reads the next with the present list") {
    auto book = Logbook::inMemory();
    const auto bin = std::get<BinId>(book.apply(Put<Bin>{{.name = "North"}}).id);
    Batch batch;
    batch.name = "Spring";
    batch.started.at = Instant{1'000};
    batch.stays = {{Instant{1'000}, bin}};
    const auto id = std::get<BatchId>(book.apply(Put<Batch>{batch}).id);
    const auto add = [&](const char* material, std::int64_t at) {
        Addition addition;
        addition.batch = id;
        addition.material = material;
        addition.massKilograms = 10;
        addition.when.at = Instant{at};
        book.apply(Put<Addition>{addition});
    };
    SECTION("a new book has the present list from the beginning") {
        add("tomatoes", 2'000);
        CHECK(*mixtureOf(book.additions(id), materialsOf(book))->moisturePercent == Approx(94.5));
    }
    SECTION("a book that had additions already") {
        add("tomatoes", 2'000);
        // As a book that was written before the setting was known.
        Query{Logbook::State::of(book).file, "DELETE FROM setting WHERE name = 'materials_since'"}.run();
        CHECK(*mixtureOf(book.additions(id), materialsOf(book))->moisturePercent == Approx(62));
        add("tomatoes", 3'000);
        const auto materials = materialsOf(book);
        const auto additions = book.additions(id);
        REQUIRE(additions.size() == 2);
        CHECK(materials.find(additions[0])->id == "tomato-plants");
        CHECK(materials.find(additions[1])->id == "tomatoes");
        add("bread", 4'000);
        CHECK(book.setting(setting::materialsSince) == "2001");
    }
}
