// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/criteria/criteria_json.h"
#include "core/criteria/judgement.h"
#include "core/store/read/book_rules.h"
#include "tests/ui/setup/shown_setup.h"
#include "ui/setup/criteria_list.h"
#include "ui/setup/criterion_words.h"
#include "ui/setup/own_criterion.h"
#include "ui/shared/palette.h"

using namespace midden;
using namespace midden::testing;
using ui::OwnField;

namespace {

ui::OwnDraft sixtyForTwoDays() {
    ui::OwnDraft draft;
    draft.title = "Hot and short";
    draft.threshold = "60";
    draft.hold = "2";
    draft.holdInDays = true;
    return draft;
}

const Criterion& shipped(const std::string& id) {
    for (const Criterion& criterion : shippedCriteria()) {
        if (criterion.id == id) {
            return criterion;
        }
    }
    FAIL("no such criterion: " << id);
    return shippedCriteria().front();
}

}  // namespace

TEST_CASE("an own criterion is typed and saved and judged like the others") {
    const NoQtWarnings quiet;
    ShownSetup shown;
    shown.press("addCriterion");
    CHECK(shown.here() == "ownTitle");
    shown.typeHere("Hot and short");
    shown.tab();
    shown.typeHere("60");
    shown.type("ownHold", "48");
    shown.type("ownTurnings", "1");
    CHECK(shown.words("ownOutcome") ==
          "As it will be judged: At or above 60 °C for 48 h (2 days) without a break. At least 1 turning in that time. "
          "Readings may lie at most 26 h apart; the rule gives no figure of its own. "
          "Read once a day, that takes 3 readings: the time from one to the next is what counts.");
    shown.picture("own-form");
    shown.enter();
    const auto own = groupCriteriaOf(shown.book.log());
    REQUIRE(own.size() == 1);
    CHECK(own[0].id == "own-hot-and-short");
    CHECK(own[0].ofTheGroup);
    CHECK(shown.here() == "criteriaList");
    CHECK(shown.field<ui::CriteriaList>("criteriaList")->chosen() == "own-hot-and-short");
    CHECK(shown.words("criterionPage").contains("In this logbook only."));
    shown.picture("own-saved");

    BatchRecord record;
    record.tracks = {{"core", false, {}}};
    for (int hour = 0; hour <= 60; hour += 12) {
        record.tracks[0].samples.push_back({checkDay + hours(hour), Celsius::ofTenThousandths(610'000)});
    }
    CHECK(judge(own[0], record).verdict != Verdict::notShown);
    record.tracks[0].samples.resize(3);
    CHECK(judge(own[0], record).verdict == Verdict::notShown);
}

TEST_CASE("what cannot be used is explained beside its field in the words of the file") {
    ShownSetup shown;
    shown.press("addCriterion");
    shown.type("ownThreshold", "60");
    shown.type("ownCeiling", "50");
    CHECK(shown.words("ownCeilingRemark") == "“50” cannot be used; expected a temperature above the lower one");
    shown.type("ownHold", "0");
    CHECK(shown.words("ownHoldRemark") == "“0” cannot be used; expected a time from 1 minute to 10 years");
    shown.type("ownTurnings", "1.5");
    CHECK(shown.words("ownTurningsRemark").contains("a whole number"));
    shown.type("ownThreshold", "hot");
    CHECK_FALSE(shown.words("ownThresholdRemark").isEmpty());
    shown.picture("own-wrong");
    shown.enter();
    CHECK(shown.words("formProblem").startsWith("Not saved:"));
    CHECK(groupCriteriaOf(shown.book.log()).empty());
}

TEST_CASE("an own criterion is edited under its own name and removed and both can be undone") {
    ShownSetup shown;
    storeGroupCriteria(shown.book.writable(), std::vector{*ui::readOwn(sixtyForTwoDays(), {}, {}).criterion});
    emit shown.book.changed();
    auto* list = shown.field<ui::CriteriaList>("criteriaList");
    list->setFocus();
    QTest::keyClick(list, Qt::Key_End);
    for (int i = 0; i < 50 && list->chosen() != "own-hot-and-short"; ++i) {  // what is only told stands behind it
        QTest::keyClick(list, Qt::Key_Up);
    }
    REQUIRE(list->chosen() == "own-hot-and-short");
    shown.press("editCriterion");
    CHECK(shown.field("ownThreshold")->text() == "60 °C");
    shown.type("ownThreshold", "140 F");
    shown.type("ownTitle", "Hot, in Fahrenheit");
    shown.enter();
    auto own = groupCriteriaOf(shown.book.log());
    REQUIRE(own.size() == 1);
    CHECK(own[0].id == "own-hot-and-short");
    CHECK(own[0].title == "Hot, in Fahrenheit");
    CHECK(own[0].alternatives[0].steps[0].threshold == WrittenTemperature{1'400'000, TemperatureUnit::fahrenheit});

    shown.press("removeCriterion");
    CHECK(groupCriteriaOf(shown.book.log()).empty());
    CHECK(shown.button("editCriterion") == nullptr);
    CHECK(shown.book.undoStack().undoText() == "Hot, in Fahrenheit removed");
    shown.book.undoStack().undo();
    REQUIRE(groupCriteriaOf(shown.book.log()).size() == 1);
    CHECK(groupCriteriaOf(shown.book.log())[0].title == "Hot, in Fahrenheit");
    shown.book.undoStack().undo();
    CHECK(groupCriteriaOf(shown.book.log())[0].title == "Hot and short");
    shown.book.undoStack().redo();
    shown.book.undoStack().redo();
    CHECK(groupCriteriaOf(shown.book.log()).empty());
}

TEST_CASE("what the form makes the file reads back and the form shows again") {
    auto draft = sixtyForTwoDays();
    draft.exceeds = true;
    draft.ceiling = "70,5";
    draft.turnings = "3";
    draft.apartHours = "48";
    draft.gapHours = "12.5";
    draft.continuity = Continuity::cumulative;
    draft.note = "tried";
    draft.source = "a neighbour's book";
    const auto read = ui::readOwn(draft, {}, {});
    REQUIRE(read.criterion);
    const auto again = parseGroupCriterion(criterionText(*read.criterion));
    REQUIRE(again);
    const auto shown = ui::draftOf(*again);
    CHECK(shown.exceeds);
    CHECK(shown.threshold == "60 °C");
    CHECK(shown.ceiling == "70.5 °C");
    CHECK(shown.hold == "2");
    CHECK(shown.holdInDays);
    CHECK(shown.continuity == Continuity::cumulative);
    CHECK(shown.turnings == "3");
    CHECK(shown.apartHours == "48");
    CHECK(shown.gapHours == "12.5");
    CHECK(shown.source == "a neighbour's book");
    CHECK(shown.note == "tried");
}

TEST_CASE("a title is needed once and a spacing needs a number of turnings") {
    auto draft = sixtyForTwoDays();
    draft.apartHours = "24";
    auto read = ui::readOwn(draft, {}, {*ui::readOwn(sixtyForTwoDays(), {}, {}).criterion});
    CHECK(read.wrong.count(OwnField::title) == 1);
    CHECK(read.wrong.count(OwnField::apart) == 1);
    CHECK_FALSE(read.criterion);
    draft.title = "";
    draft.apartHours = "";
    read = ui::readOwn(draft, {}, {});
    CHECK(read.wrong.empty());
    CHECK_FALSE(read.criterion);
}

TEST_CASE("two titles that read alike get names of their own") {
    const auto first = *ui::readOwn(sixtyForTwoDays(), {}, {}).criterion;
    auto draft = sixtyForTwoDays();
    draft.title = "Hot & short";
    CHECK(ui::readOwn(draft, {}, {}).criterion->id == "own-hot-short");
    draft.title = "Hot and short!";
    CHECK(ui::readOwn(draft, {}, {first}).criterion->id == "own-hot-and-short-2");
}

TEST_CASE("the chosen criterion stands in full with its source and how it was checked") {
    ShownSetup shown;
    auto* list = shown.field<ui::CriteriaList>("criteriaList");
    CHECK(list->count() == static_cast<int>(shippedCriteria().size() + shippedInformation().size()) + 1);
    list->choose("ca-static");
    CHECK(shown.words("criterionPage").contains("From memory, unverified."));
    list->choose("us503-vector");
    CHECK(shown.words("criterionPage").contains("The average over that time must lie above 45 °C."));
    shown.picture("browser");
    CHECK(unnamed(shown.screen).join(", ") == "");
}

TEST_CASE("titles of criteria stand whole in their list where there is room") {
    ShownSetup shown;
    shown.screen.resize(1'150, 800);
    ShownSetup::settle();
    const auto* list = shown.field<ui::CriteriaList>("criteriaList");
    CHECK(list->width() >= list->sizeHint().width());
    for (int row = 0; row < list->count(); ++row) {
        INFO(list->item(row)->text().toStdString());
        CHECK(list->fontMetrics().horizontalAdvance(list->item(row)->text()) < list->viewport()->width() - 16);
    }
}

TEST_CASE("steps are told whole") {
    CHECK(ui::stepWords(shipped("us503-psrp").alternatives[0].steps[1]) ==
          "Above 55 °C for 4 h. Whether without a break is not said: it is judged without one, and the sum of all "
          "hours is shown beside it. It counts inside the time of step 1. Readings may lie at most 2 h apart; the rule "
          "gives no figure of its own.");
    CHECK(ui::stepWords(shipped("us503-vessel").alternatives[0].steps[0])
              .contains("Read once a day, that takes 4 readings: the time from one to the next is what counts."));
    CHECK(ui::stepWords(shipped("us503-windrow").alternatives[0].steps[0]).contains("takes 16 readings"));
    for (const Criterion& criterion : shippedCriteria()) {
        const QString page = ui::criterionPage(criterion, ui::Palette::light());
        INFO(criterion.id);
        CHECK(page.contains(QString::fromStdString(criterion.source.document).toHtmlEscaped()));
        CHECK(page.contains(QString::fromStdString(criterion.scope).toHtmlEscaped()));
        CHECK(page.contains(QString::fromStdString(criterion.note).toHtmlEscaped()));
        CHECK(page.contains("From memory, unverified.") == criterion.source.fromMemory);
    }
}

TEST_CASE("rules that are told and not judged stand below the criteria with what they say") {
    const NoQtWarnings quiet;
    ShownSetup shown;
    auto* list = shown.field<ui::CriteriaList>("criteriaList");
    list->choose("fr-2018-shared");
    CHECK(list->chosen() == "fr-2018-shared");
    CHECK(shown.words("criterionPage").contains("told, not judged"));
    CHECK(shown.words("criterionPage").contains("No figure is set."));
    list->choose("fr-turned");
    CHECK(shown.words("criterionPage").contains("in all; breaks are allowed"));
    CHECK(shown.words("criterionPage").contains("Read once a day, that takes 4 readings"));
    shown.picture("criterion-french");
}
