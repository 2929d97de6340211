// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/records/settings.h"

#include <catch2/catch.hpp>
#include <set>

#include "core/review/tasks.h"
#include "core/store/read/book_rules.h"
#include "tests/core/store/books.h"

using namespace midden;
using namespace midden::trial;

TEST_CASE("every setting has a name of its own, and a number has its bounds and says where it comes from") {
    std::set<std::string_view> names;
    for (const Setting* setting : allSettings()) {
        CAPTURE(setting->name);
        CHECK(names.insert(setting->name).second);
        const bool isNumber = setting->kind == SettingKind::number;
        CHECK((setting->source != SettingSource::noFigure) == isNumber);
        CHECK((setting->unit != SettingUnit::none) == isNumber);
        if (isNumber) {
            const double figure = numberOf(*setting, setting->otherwise);
            CHECK(setting->least <= figure);
            CHECK(figure <= setting->most);
        }
    }
    CHECK(names.size() == 33);
}

TEST_CASE("the figures of the table are those a review starts from") {
    const auto book = Logbook::inMemory();
    CHECK(stallSettingsOf(book) == StallSettings{});
    CHECK(outlookSettingsOf(book) == OutlookSettings{});
    const auto tasks = taskSettingsOf(book);
    const TaskSettings usual;
    CHECK(tasks.betweenRounds == usual.betweenRounds);
    CHECK(tasks.remedy == usual.remedy);
    CHECK(tasks.care.cured == usual.care.cured);
    CHECK(tasks.care.curing == usual.care.curing);
    CHECK(tasks.care.check == usual.care.check);
    CHECK(roundLengthOf(book) == minutes(60));
}

TEST_CASE("a number that cannot be one leaves what holds otherwise") {
    CHECK(numberOf(setting::bucket, "12.5") == 12.5);
    for (const auto* text : {"", "0", "-3", "ten", "12 L", "1e9", "nan", "inf"}) {
        CAPTURE(text);
        CHECK(numberOf(setting::bucket, text) == 10);
    }
    CHECK(numberOf(setting::unlikelyBelowOutside, "0") == 0);
}

TEST_CASE("a setting that was emptied is not one that nobody set") {
    auto book = Logbook::inMemory();
    CHECK_FALSE(book.storedSetting(setting::recipeToHand));
    CHECK(book.setting(setting::recipeToHand) == setting::recipeToHand.otherwise);
    book.setSetting(setting::recipeToHand, "");
    CHECK(book.setting(setting::recipeToHand).empty());
}
