// SPDX-License-Identifier: GPL-3.0-or-later
// The Setup screen over an invented book, and hands to type with.
#pragma once

#include <QComboBox>
#include <QLineEdit>
#include <QPushButton>
#include <QTest>
#include <QUndoStack>

#include "tests/ui/support/qt_support.h"
#include "ui/setup/setup_screen.h"
#include "ui/shared/appearance.h"
#include "ui/shared/book.h"

namespace midden::testing {

inline const Instant checkDay{1'772'280'000};  // 2026-02-28T12:00:00Z

/// A logbook with one bin, one batch in it and one probe.
inline Logbook smallBook() {
    auto log = Logbook::inMemory();
    const auto bin = std::get<BinId>(log.apply(Put<Bin>{{.name = "North"}}).id);
    log.apply(Put<Batch>{{.name = "Invented", .started = {checkDay, {}}, .stays = {{checkDay, bin}}}});
    log.apply(Put<Probe>{{.name = "Dial", .accuracy = Kelvins::ofTenThousandths(10'000)}});
    return log;
}

struct ShownSetup {
    ui::Book book;
    ui::SetupScreen screen{book};

    explicit ShownSetup(Instant now = checkDay)
        : book{smallBook(), *TimeZone::named("Europe/London"), [now] { return now; }} {
        screen.resize(1'000, 1'600);
        screen.show();
        screen.activateWindow();
        REQUIRE(QTest::qWaitForWindowActive(&screen, aMinute));
    }
    ProbeId probe() const { return book.log().probes().front().id; }
    std::vector<ThermometerCheck> checks() const { return book.log().checks(probe()); }
    QPushButton* button(const char* start) const {
        for (auto* found : screen.findChildren<QPushButton*>()) {
            if (found->objectName().startsWith(QLatin1String{start}) && found->isVisible()) {
                return found;
            }
        }
        return nullptr;
    }
    template <class W = QLineEdit>
    W* field(const char* name) const {
        return screen.findChild<W*>(QLatin1String{name});
    }
    QString words(const char* name) const { return plain(field<QLabel>(name)->text()); }
    /// Forms that were closed are gone.
    static void settle() {
        QCoreApplication::processEvents();
        QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
    }
    /// Goes to the button with the keyboard and presses it.
    void press(const char* start) const {
        auto* pressed = button(start);
        REQUIRE(pressed != nullptr);
        pressed->setFocus(Qt::TabFocusReason);
        QTest::keyClick(pressed, Qt::Key_Space);
        settle();
    }
    /// Types over what stands in the field.
    void type(const char* name, const QString& text) const {
        auto* line = field(name);
        REQUIRE(line != nullptr);
        line->setFocus(Qt::TabFocusReason);
        line->selectAll();
        QTest::keyClick(line, Qt::Key_Delete);
        typeHere(text);
    }
    /// Into whatever has the keyboard.
    static void typeHere(const QString& text) {
        for (const QChar& letter : text) {
            QTest::sendKeyEvent(QTest::Click, QApplication::focusWidget(), Qt::Key_unknown, letter, Qt::NoModifier);
        }
    }
    static void tab() { QTest::keyClick(QApplication::focusWidget(), Qt::Key_Tab); }
    static void enter() {
        QTest::keyClick(QApplication::focusWidget(), Qt::Key_Return);
        settle();
    }
    static QString here() { return QApplication::focusWidget()->objectName(); }
    /// A picture, when SETUP_PICTURES names a folder.
    void picture(const char* name) {
        const QString folder = qEnvironmentVariable("SETUP_PICTURES");
        if (folder.isEmpty()) {
            return;
        }
        for (const auto lightness : {ui::Lightness::light, ui::Lightness::dark}) {
            ui::apply({.lightness = lightness}, *qApp);
            settle();
            auto* page = screen.findChild<QWidget*>(QStringLiteral("setupPage"));
            const QString look = lightness == ui::Lightness::light ? QStringLiteral("light") : QStringLiteral("dark");
            page->grab().save(QStringLiteral("%1/%2-%3.png").arg(folder, QLatin1String{name}, look));
        }
    }
};

}  // namespace midden::testing
