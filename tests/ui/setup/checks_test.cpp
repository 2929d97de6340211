// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/ui/setup/shown_setup.h"
#include "ui/setup/check_words.h"

using namespace midden;
using namespace midden::testing;
using namespace midden::literals;

namespace {

/// A reading of 55.4 °C by the one probe, at the core of the one bin.
void addReading(ui::Book& book, Instant at) {
    Reading reading;
    reading.place = {book.log().bins().front().id, "core"};
    reading.when.at = at;
    reading.written = {554'000};
    reading.probe = book.log().probes().front().id;
    REQUIRE(book.change(Put<Reading>{reading}, "reading"));
}

ThermometerCheck iceCheck(Instant at, int tenThousandths) {
    ThermometerCheck check;
    check.when.at = at;
    check.read = {tenThousandths};
    return check;
}

ui::checks::Telling in2026(Instant now = checkDay) {
    return {TemperatureUnit::celsius, TimeZone::utc(), {now, {}}};
}

}  // namespace

TEST_CASE("a whole ice check is typed and the sentence says what it means before it is saved") {
    const NoQtWarnings quiet;
    ShownSetup shown;
    CHECK(shown.words("checkState") == "No check yet: its readings are taken as they were typed.");
    CHECK(shown.words("checkOverdue").startsWith("Due: never checked."));
    shown.press("checkInIce");
    CHECK(shown.here() == "checkReading");
    shown.typeHere("0.5");
    CHECK(shown.words("checkOutcome") ==
          "It reads 0.5 °C high in ice. Saving means: its readings from 28 February 2026 12:00 on are corrected by "
          "−0.5 °C. What was written down stays as it was.");
    shown.picture("ice");
    shown.enter();
    REQUIRE(shown.checks().size() == 1);
    CHECK(shown.checks()[0].kind == CheckKind::ice);
    CHECK(shown.checks()[0].read == WrittenTemperature{5'000});
    CHECK(shown.checks()[0].when.at == checkDay);
    CHECK_FALSE(shown.checks()[0].appliesFrom);
    CHECK(shown.words("checkState") ==
          "Reads 0.5 °C high in ice; readings from 28 February 2026 on are corrected by −0.5 °C.");
    CHECK(shown.words("checkOverdue").isEmpty());
    CHECK(shown.here().startsWith("checkInIce"));
    shown.picture("checked");
    shown.book.undoStack().undo();
    CHECK(shown.checks().empty());
}

TEST_CASE("a check corrects later readings only unless it is said to reach back") {
    ShownSetup shown{checkDay + days(3)};
    addReading(shown.book, checkDay + days(1));
    addReading(shown.book, checkDay + days(3));
    const auto core = [&] {
        return shown.book.log().record(shown.book.log().batches().front().id).tracks.front().samples;
    };
    shown.press("checkInIce");
    shown.typeHere("0.4");
    shown.type("checkWhen", "2 March 2026 12:00");
    shown.enter();
    REQUIRE(core().size() == 2);
    CHECK(core()[0].temperature() == 55.4_degC);
    CHECK(core()[1].temperature() == 55_degC);

    shown.press("amendCheck");
    shown.field<QComboBox>("checkHolds")->setFocus();
    QTest::keyClick(shown.field<QComboBox>("checkHolds"), Qt::Key_Down);
    shown.tab();
    CHECK(shown.here() == "checkSince");
    shown.typeHere("1 March 2026");
    shown.picture("amend");
    shown.enter();
    REQUIRE(shown.checks().size() == 1);
    CHECK(shown.checks()[0].appliesFrom == Instant{1'772'323'200});  // 2026-03-01T00:00:00Z
    CHECK(core()[0].temperature() == 55_degC);
}

TEST_CASE("boiling at 500 m shows the computed boiling point and corrects from both points") {
    const NoQtWarnings quiet;
    ShownSetup shown;
    REQUIRE(shown.book.change(
        [&] {
            auto ice = iceCheck(checkDay - hours(1), 5'000);
            ice.probe = shown.probe();
            return Put<ThermometerCheck>{ice};
        }(),
        "ice"));
    shown.press("checkInBoiling");
    CHECK(shown.here() == "checkAltitude");
    shown.typeHere("500");
    // 98.313 °C: US Standard Atmosphere 1976 and IAPWS-IF97 region 4, computed independently.
    CHECK(shown.words("checkAltitudeRemark") ==
          "Water boils at 98.313 °C here on an ordinary day; weather moves it by up to 0.8 °C.");
    shown.tab();
    CHECK(shown.here() == "checkPressure");
    shown.typeHere("980");
    CHECK(shown.words("checkPressureRemark").startsWith("Water boils at 99.042 °C."));
    QTest::keyClick(QApplication::focusWidget(), Qt::Key_A, Qt::ControlModifier);
    QTest::keyClick(QApplication::focusWidget(), Qt::Key_Delete);
    shown.tab();
    CHECK(shown.here() == "checkReading");
    shown.typeHere("98");
    // (55 − 0.5) · 98.313 / 97.5 = 54.954
    CHECK(shown.words("checkOutcome").contains("corrected from both points: 55.00 °C becomes 54.95 °C"));
    shown.picture("boiling");
    shown.enter();
    REQUIRE(shown.checks().size() == 2);
    CHECK(shown.words("checkState") ==
          "Reads 0.3 °C low in boiling water and 0.5 °C high in ice; readings from 28 February "
          "2026 on are corrected from both points: 55.00 °C becomes 54.95 °C.");
}

TEST_CASE("a check that cannot be right is explained and not saved") {
    ShownSetup shown;
    shown.press("checkInIce");
    shown.enter();
    CHECK(shown.words("formProblem").startsWith("Not saved:"));
    shown.typeHere("31");
    shown.enter();
    CHECK(shown.words("formProblem") == "Not saved: 31 °C in melting ice; expected a reading within 20 °C of 0.0 °C.");
    shown.type("checkReading", "abc");
    CHECK_FALSE(shown.words("checkReadingRemark").isEmpty());
    shown.type("checkReading", "0");
    shown.type("checkWhen", "4 March 2030 08:00");
    CHECK(shown.words("checkWhenRemark").contains("still to come"));
    shown.enter();
    CHECK(shown.checks().empty());
    QTest::keyClick(QApplication::focusWidget(), Qt::Key_Escape);
    QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
    CHECK(shown.field("checkReading") == nullptr);
    CHECK(shown.here().startsWith("checkInIce"));
}

TEST_CASE("boiling asks for the height or the pressure and refuses heights nobody lives at") {
    ShownSetup shown;
    shown.press("checkInBoiling");
    shown.type("checkReading", "99");
    CHECK(shown.words("checkOutcome").contains("the height above the sea or the air pressure"));
    shown.type("checkAltitude", "12000");
    CHECK(shown.words("checkAltitudeRemark").contains("from -500 to 9000 m"));
    shown.enter();
    CHECK(shown.checks().empty());
}

TEST_CASE("a check is withdrawn with a reason and undo brings it back") {
    ShownSetup shown;
    shown.press("checkInIce");
    shown.typeHere("0.5");
    shown.enter();
    shown.press("withdrawCheck");
    CHECK(shown.here() == "withdrawWhy");
    CHECK(plain(shown.field("withdrawWhy")->accessibleDescription())
              .startsWith("Withdraw the check in ice of Dial, which read 0.5 °C on "));
    shown.typeHere("wrong cup");
    shown.enter();
    CHECK(shown.here() == "withdraw");
    CHECK(shown.checks().size() == 1);
    shown.enter();
    CHECK(shown.checks().empty());
    shown.book.undoStack().undo();
    CHECK(shown.checks().size() == 1);
}

TEST_CASE("drift and a check overdue are told in words") {
    const std::vector<ThermometerCheck> both{iceCheck(checkDay - days(400), 2'000), iceCheck(checkDay, 5'000)};
    CHECK(plain(ui::checks::driftWords(both, in2026())) ==
          "It reads 0.3 °C higher than at the check before, 24 January 2025.");
    CHECK(ui::checks::overdueWords(both, in2026()).isEmpty());
    CHECK(ui::checks::overdueWords(both, in2026(checkDay + days(365))).isEmpty());
    CHECK(ui::checks::overdueWords(both, in2026(checkDay + days(366)))
              .startsWith("Overdue: last checked 28 February 2026."));
    const std::vector<ThermometerCheck> same{iceCheck(checkDay - days(9), 5'000), iceCheck(checkDay, 5'000)};
    CHECK(ui::checks::driftWords(same, in2026()) == "No drift since the check before, 19 February 2026.");
    CHECK(ui::checks::driftWords({iceCheck(checkDay, 0)}, in2026()).isEmpty());
}

TEST_CASE("every field of the checks has a name and the Tab key reads down the page") {
    const NoQtWarnings quiet;
    ShownSetup shown;
    shown.press("checkInBoiling");
    CHECK(unnamed(shown.screen).join(", ") == "");
    QStringList order;
    shown.button("checkInBoiling")->setFocus();
    for (int i = 0; i < 7; ++i) {
        shown.tab();
        order.append(shown.here());
    }
    CHECK(order.join(' ') == "checkAltitude checkPressure checkReading checkWhen checkHolds formSave formCancel");
}
