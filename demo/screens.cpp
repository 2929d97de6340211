// SPDX-License-Identifier: GPL-3.0-or-later
// middenbook_screens LOGBOOK AS_OF DIRECTORY TABLE: a picture of every screen, and of the questions about the CSV file
// TABLE, light and dark, at one and at two pixels a point. Nothing is written into the logbook that opening it would
// not write.
#include <QApplication>
#include <QComboBox>
#include <QDialog>
#include <QDir>
#include <QElapsedTimer>
#include <QImage>
#include <QLineEdit>
#include <QPixmap>
#include <QPushButton>
#include <QStandardPaths>
#include <QTextStream>
#include <QThread>

#include "core/quantities/time.h"
#include "ui/shared/appearance.h"
#include "ui/shared/qt_prompts.h"
#include "ui/shell/main_window.h"
#include "ui/shell/screens.h"
#include "ui/shell/workspace.h"

namespace {

using namespace midden;

constexpr int stillMilliseconds = 800;
constexpr int longestMilliseconds = 20'000;

/// Lets layouts and what is loaded in the background come to rest: until nothing has moved for a while.
void settle(QWidget& window) {
    QElapsedTimer all;
    QElapsedTimer still;
    all.start();
    still.start();
    QImage before;
    while (still.elapsed() < stillMilliseconds && all.elapsed() < longestMilliseconds) {
        QCoreApplication::processEvents(QEventLoop::AllEvents, 50);
        QThread::msleep(50);
        const QImage now = window.grab().toImage();
        if (now != before) {
            still.restart();
        }
        before = now;
    }
}

bool save(QWidget& window, const QString& path, qreal scale) {
    QPixmap picture{window.size() * scale};
    picture.setDevicePixelRatio(scale);
    window.render(&picture);
    return picture.save(path);
}

bool saveBoth(QWidget& window, const QDir& out, const QString& stem) {
    settle(window);
    const bool first = save(window, out.filePath(stem + QStringLiteral(".png")), 1);
    return save(window, out.filePath(stem + QStringLiteral("@2x.png")), 2) && first;
}

bool saveAll(ui::MainWindow& window, const QDir& out, const QString& look) {
    bool done = true;
    for (const ui::ScreenEntry& screen : ui::screens()) {
        const QString id = QLatin1String{screen.id};
        window.workspace()->showScreen(id);
        done = saveBoth(window, out, QStringLiteral("%1-%2").arg(id, look)) && done;
    }
    return done;
}

/// The questions about a table, and what it would bring; then it is left.
bool saveIntake(ui::MainWindow& window, const QString& table, const QDir& out, const QString& look) {
    window.bringInTable(table);
    auto* dialog = window.findChild<QDialog*>(QStringLiteral("intake"));
    auto* batch = dialog->findChild<QComboBox*>(QStringLiteral("intakeBatch"));
    batch->setCurrentIndex(batch->count() - 1);
    dialog->findChild<QLineEdit*>(QStringLiteral("intakeNewBatch"))->setText(QStringLiteral("Hedge, last year"));
    dialog->findChild<QComboBox*>(QStringLiteral("intakeBin"))->setCurrentText(QStringLiteral("Hedge"));
    const bool asked = saveBoth(*dialog, out, QStringLiteral("intake-%1").arg(look));
    dialog->findChild<QPushButton*>(QStringLiteral("intakeGo"))->click();
    const bool found = saveBoth(*dialog, out, QStringLiteral("intake-found-%1").arg(look));
    dialog->close();
    return asked && found;
}

struct Wish {
    QString book;
    Instant asOf;
    QDir out;
    QString table;
};

int draw(QApplication& application, const Wish& wish) {
    const auto& [book, asOf, out, table] = wish;
    ui::QtPrompts prompts;
    for (const auto lightness : {ui::Lightness::light, ui::Lightness::dark}) {
        ui::apply({.lightness = lightness}, application);
        ui::MainWindow window{prompts, [asOf = wish.asOf] { return asOf; }};
        window.resize(1'280, 800);
        window.show();
        if (!window.openBook(book)) {
            QTextStream{stderr} << "middenbook_screens: " << book << " could not be opened\n";
            return 3;
        }
        const QString look = lightness == ui::Lightness::light ? QStringLiteral("light") : QStringLiteral("dark");
        if (!saveAll(window, out, look) || !saveIntake(window, table, out, look)) {
            QTextStream{stderr} << "middenbook_screens: pictures could not be written to " << out.path() << '\n';
            return 3;
        }
    }
    return 0;
}

}  // namespace

int main(int argc, char** argv) {
    QStandardPaths::setTestModeEnabled(true);
    QApplication application{argc, argv};
    QApplication::setCursorFlashTime(0);
    QCoreApplication::setOrganizationName(QStringLiteral("middenbook-screens"));
    QCoreApplication::setApplicationName(QStringLiteral("middenbook-screens"));
    const QStringList arguments = QCoreApplication::arguments();
    const auto asOf = parseIsoTime(arguments.value(2).toStdString());
    if (arguments.size() != 5 || !asOf) {
        QTextStream{stderr} << "usage: middenbook_screens LOGBOOK AS_OF DIRECTORY TABLE\n";
        return 2;
    }
    return draw(application,
                {arguments.at(1), instantOf(asOf->wall, asOf->offset), QDir{arguments.at(3)}, arguments.at(4)});
}
