// SPDX-License-Identifier: GPL-3.0-or-later
// A window with a book in a folder of its own, a clock that stands still until told, and questions answered in advance.
#pragma once

#include <QApplication>
#include <QLabel>
#include <QLineEdit>
#include <QSettings>
#include <QTemporaryDir>
#include <QTest>
#include <memory>

#include "tests/ui/support/qt_support.h"
#include "ui/shared/prompts.h"
#include "ui/shell/main_window.h"
#include "ui/shell/workspace.h"

namespace midden::testing {

/// Answers from a list; an unexpected question answers "changed my mind".
class ScriptedPrompts : public ui::Prompts {
  public:
    std::optional<QString> openAnswer;
    std::optional<QString> saveAnswer;
    bool confirmAnswer = false;
    int asked = 0;

    std::optional<QString> fileToOpen(QWidget* /*parent*/, const QString& /*title*/,
                                      const QString& /*filter*/) override {
        ++asked;
        return openAnswer;
    }
    std::optional<QString> fileToSave(QWidget* /*parent*/, const QString& /*title*/, const QString& /*suggested*/,
                                      const QString& /*filter*/) override {
        ++asked;
        return saveAnswer;
    }
    bool confirm(QWidget* /*parent*/, const QString& /*question*/, const QString& /*yes*/) override {
        ++asked;
        return confirmAnswer;
    }
    bool choosePrinter(QWidget* /*parent*/, QPrinter& /*printer*/) override {
        ++asked;
        return false;
    }
};

constexpr Instant fourthOfMarch{1'772'611'800};  // 2026-03-04T08:10:00Z, the same in London

class Desk {
  public:
    Desk() {
        QSettings::setDefaultFormat(QSettings::IniFormat);
        QSettings::setPath(QSettings::IniFormat, QSettings::UserScope, folder.path());
        QCoreApplication::setOrganizationName(QStringLiteral("middenbook-tests"));
        window = std::make_unique<ui::MainWindow>(prompts, [this] { return now; });
        window->resize(1'180, 760);
        window->show();
        window->activateWindow();
        REQUIRE(QTest::qWaitForWindowActive(window.get(), aMinute));
    }

    QString path(const QString& name) const { return folder.filePath(name); }
    ui::Book& book() const { return *window->book(); }

    /// A bin with a running batch, read at these positions.
    BinId addBin(const std::string& name, const std::vector<std::string>& positions) {
        BinId bin{};
        book().changeTogether(QStringLiteral("set up"), [&](const ui::Book::Apply& apply) {
            bin = std::get<BinId>(apply(Put<Bin>{{.name = name}}).id);
            for (const std::string& position : positions) {
                apply(Put<PlaceSetting>{{.place = {bin, position}}});
            }
            const Instant start = now - days(10);
            apply(Put<Batch>{{.name = name + " batch", .started = {start, {}}, .stays = {{start, bin}}}});
        });
        settle();
        return bin;
    }
    void addReading(BinId bin, const std::string& position, Instant at, int tenThousandths) {
        book().change(Put<Reading>{{.place = {bin, position}, .when = {at, {}}, .written = {tenThousandths}}},
                      QStringLiteral("earlier reading"));
    }

    static void settle() { QCoreApplication::processEvents(); }
    static void type(const QString& keys) { QTest::keyClicks(QApplication::focusWidget(), keys); }
    static void press(Qt::Key key, Qt::KeyboardModifiers with = Qt::NoModifier) {
        QTest::keyClick(QApplication::focusWidget(), key, with);
        settle();
    }
    static QString focus() {
        return QApplication::focusWidget() != nullptr ? QApplication::focusWidget()->objectName() : QString{};
    }
    template <class T = QWidget>
    T& find(const char* name) const {
        auto* found = window->findChild<T*>(QLatin1String{name});
        REQUIRE(found != nullptr);
        return *found;
    }
    QString words(const char* name) const { return find<QLabel>(name).text(); }
    std::optional<Reading> reading(BinId bin, const std::string& position, Instant at) const {
        return book().log().reading({{bin, position}, at});
    }

    QTemporaryDir folder;
    Instant now = fourthOfMarch;
    ScriptedPrompts prompts;
    std::unique_ptr<ui::MainWindow> window;
};

}  // namespace midden::testing
