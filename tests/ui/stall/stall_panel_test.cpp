// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/stall/stall_panel.h"

#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTest>
#include <QUndoStack>
#include <algorithm>
#include <catch2/catch.hpp>

#include "tests/ui/support/qt_support.h"
#include "ui/shared/book.h"

using namespace midden;
using namespace midden::ui;
using midden::testing::aMinute;
using midden::testing::waitUntil;

namespace {

constexpr Instant start{1'772'352'000};  // 2026-03-01T08:00:00Z
constexpr Instant nowInTest{start.utcSeconds + 6 * 86'400 + 600};

/// An invented bin read once a day at the core, 10 °C outside.
Logbook bookOf(std::initializer_list<int> temperatures) {
    auto logbook = Logbook::inMemory();
    Bin bin;
    bin.name = "North";
    const auto binId = std::get<BinId>(logbook.apply(Put<Bin>{bin}).id);
    Batch batch;
    batch.name = "Invented";
    batch.started.at = start;
    batch.stays = {{start, binId}};
    logbook.apply(Put<Batch>{batch});
    int day = 0;
    for (const int temperature : temperatures) {
        for (const bool isOutside : {false, true}) {
            Reading reading;
            reading.place = {binId, isOutside ? "" : "core"};
            reading.when.at = start + days(day);
            reading.written = {(isOutside ? 10 : temperature) * 10'000};
            logbook.apply(Put<Reading>{reading});
        }
        ++day;
    }
    return logbook;
}

struct Shown {
    Book book;
    StallPanel panel{book};

    explicit Shown(std::initializer_list<int> temperatures)
        : book{bookOf(temperatures), TimeZone::utc(), [] { return nowInTest; }} {
        const auto batch = book.log().batches().front();
        book.lookAt(batch.stays.front().bin, batch.id);
        panel.resize(1'000, 500);
    }
    QString text(const char* name) const { return panel.findChild<QLabel*>(QLatin1String{name})->text(); }
    QPushButton* button(const char* name) const { return panel.findChild<QPushButton*>(QLatin1String{name}); }
};

}  // namespace

TEST_CASE("a bin without an open stall shows no panel") {
    Shown shown{20, 58, 60, 60, 60, 60, 58};
    CHECK_FALSE(shown.panel.isVisibleTo(nullptr));
}

TEST_CASE("a stalled bin says since when and how many hours short in one line") {
    Shown shown{20, 58, 60, 58, 44, 38, 33};
    CHECK(shown.panel.isVisibleTo(nullptr));
    CHECK_FALSE(shown.panel.isOpen());
    CHECK(shown.text("stallHeadline").toStdString() ==
          "North has been cold since Thu 5 March 08:00: 24 h short of the target");
}

TEST_CASE("opened it names causes and one key logs the remedy") {
    Shown shown{20, 58, 60, 58, 44, 38, 33};
    shown.panel.show();
    shown.panel.activateWindow();
    REQUIRE(QTest::qWaitForWindowActive(&shown.panel, aMinute));
    QTest::mouseClick(shown.button("stallOpener"), Qt::LeftButton);
    CHECK(shown.panel.isOpen());
    auto* first = shown.button("logRemedy1");
    REQUIRE(first != nullptr);
    CHECK(first->text().startsWith(QLatin1String{"&1"}));
    CHECK(first->accessibleName() == QLatin1String{"Squeeze test: dry"});
    QTest::keyClick(&shown.panel, Qt::Key_4, Qt::AltModifier);
    // A button pressed by its key clicks a tenth of a second later.
    const auto noted = [&] { return !shown.book.log().record(*shown.book.batch()).observations.empty(); };
    REQUIRE(waitUntil(noted));
    const auto record = shown.book.log().record(*shown.book.batch());
    REQUIRE(record.observations.size() == 1);
    CHECK(record.observations[0].kind == ObservationKind::remedy);
    CHECK_FALSE(record.observations[0].subject.empty());
    CHECK(record.observations[0].value == "turned");
    REQUIRE(record.aerations.size() == 1);
    CHECK(record.aerations[0].kind == AerationKind::turned);
    CHECK(record.aerations[0].when.at == record.observations[0].when.at);
    shown.book.undoStack().undo();
    CHECK(shown.book.log().record(*shown.book.batch()).aerations.empty());
    CHECK(shown.book.log().record(*shown.book.batch()).observations.empty());
    shown.book.undoStack().redo();
    CHECK(shown.panel.isOpen());
    CHECK(shown.panel.findChildren<QLabel*>().size() > 4);
    if (qEnvironmentVariableIsSet("STALL_PICTURE")) {
        shown.panel.grab().save(qEnvironmentVariable("STALL_PICTURE"));
    }
}

TEST_CASE("the squeeze test is answered by one key and the causes follow") {
    Shown shown{20, 58, 60, 58, 44, 38, 33};
    shown.panel.show();
    REQUIRE(QTest::qWaitForWindowExposed(&shown.panel, aMinute));
    shown.panel.setOpen(true);
    QTest::mouseClick(shown.button("logRemedy1"), Qt::LeftButton);
    REQUIRE(waitUntil([&] {
        auto* first = shown.button("logRemedy1");
        return first != nullptr && first->accessibleName() == QLatin1String{"Log as done: watered and forked over"};
    }));
    const auto record = shown.book.log().record(*shown.book.batch());
    REQUIRE(record.observations.size() == 1);
    CHECK(record.observations[0].kind == ObservationKind::squeeze);
    CHECK(record.observations[0].value == "dry");
}

TEST_CASE("a remedy that adds something asks what went in and writes down both") {
    Shown shown{20, 58, 60, 58, 44, 38, 33};
    Observation squeeze;
    squeeze.batch = *shown.book.batch();
    squeeze.when = shown.book.now();
    squeeze.kind = ObservationKind::squeeze;
    squeeze.value = "wet";
    shown.book.change(Put<Observation>{squeeze}, QStringLiteral("squeeze"));
    shown.panel.show();
    shown.panel.activateWindow();
    REQUIRE(QTest::qWaitForWindowActive(&shown.panel, aMinute));
    shown.panel.takeKeyboard();
    REQUIRE(shown.button("logRemedy1")->accessibleName() ==
            QLatin1String{"Log as done: turned, with coarse dry material mixed in"});
    QTest::keyClick(&shown.panel, Qt::Key_1, Qt::AltModifier);
    const auto material = [&] { return shown.panel.findChild<QLineEdit*>(QStringLiteral("addedMaterial")); };
    REQUIRE(waitUntil([&] { return material() != nullptr; }));
    CHECK(shown.book.log().record(*shown.book.batch()).observations.size() == 1);
    QTest::keyClicks(material(), QStringLiteral("wood chips"));
    auto* mass = shown.panel.findChild<QLineEdit*>(QStringLiteral("addedMass"));
    QTest::keyClicks(mass, QStringLiteral("4"));
    QTest::keyClick(mass, Qt::Key_Return);
    const auto record = shown.book.log().record(*shown.book.batch());
    REQUIRE(record.observations.size() == 2);
    // Entries of one instant come in no particular order.
    const auto& seen = record.observations;
    const auto remedy = std::find_if(seen.begin(), seen.end(),
                                     [](const Observation& one) { return one.kind == ObservationKind::remedy; });
    REQUIRE(remedy != seen.end());
    CHECK(remedy->value == "turned, with coarse dry material mixed in");
    CHECK(record.additions.size() == 1);
    CHECK(record.aerations.size() == 1);
    CHECK(shown.panel.isOpen());
    const auto labels = shown.panel.findChildren<QLabel*>();
    CHECK(std::any_of(labels.begin(), labels.end(), [](const QLabel* label) {
        return label->text().startsWith(QLatin1String{"Tried"}) &&
               label->text().contains(QLatin1String{"Too early to say"});
    }));
}

TEST_CASE("a remedy given up halfway leaves nothing in the log") {
    Shown shown{20, 58, 60, 58, 44, 38, 33};
    Observation squeeze;
    squeeze.batch = *shown.book.batch();
    squeeze.when = shown.book.now();
    squeeze.kind = ObservationKind::squeeze;
    squeeze.value = "wet";
    shown.book.change(Put<Observation>{squeeze}, QStringLiteral("squeeze"));
    shown.panel.show();
    REQUIRE(QTest::qWaitForWindowExposed(&shown.panel, aMinute));
    shown.panel.takeKeyboard();
    QTest::mouseClick(shown.button("logRemedy1"), Qt::LeftButton);
    const auto material = [&] { return shown.panel.findChild<QLineEdit*>(QStringLiteral("addedMaterial")); };
    REQUIRE(waitUntil([&] { return material() != nullptr; }));
    QTest::keyClick(material(), Qt::Key_Escape);
    CHECK(shown.panel.isOpen());
    CHECK(shown.book.log().record(*shown.book.batch()).observations.size() == 1);
}

TEST_CASE("a stall that is over is shown on demand without anything to log") {
    Shown shown{20, 58, 60, 44, 38, 33, 50};
    CHECK_FALSE(shown.panel.isVisibleTo(nullptr));
    const auto stalls = stallsOf(shown.book.log().record(*shown.book.batch()));
    REQUIRE(stalls.size() == 1);
    shown.panel.show();
    shown.panel.showStall(stalls.front());
    CHECK(shown.panel.isOpen());
    CHECK(shown.text("stallHeadline").toStdString() == "North was cold from Wed 4 March 08:00 to Sat 7 March 08:00");
    CHECK(shown.button("logRemedy1") == nullptr);
    shown.panel.setOpen(false);
    CHECK_FALSE(shown.panel.isVisibleTo(nullptr));
}
