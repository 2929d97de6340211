// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/desktop.h"

#include <QApplication>
#include <QDateTime>
#include <QFileInfo>
#include <iostream>
#include <optional>

#include "ui/shared/appearance.h"
#include "ui/shared/plain_text.h"
#include "ui/shared/qt_prompts.h"
#include "ui/shell/main_window.h"
#include "ui/shell/recent_files.h"

namespace midden::app {

namespace {

Instant systemClock() {
    return {QDateTime::currentSecsSinceEpoch()};
}

constexpr auto usage = "usage: middenbook [--as-of TIME] [LOGBOOK]\n";

/// What the desktop program is asked for. `ahead` is how far its clock runs before the computer's: to look at an old
/// book as its steward saw it.
struct Wish {
    QString path;
    Seconds ahead;
};

std::optional<Wish> wishOf(QStringList words) {
    Wish wish;
    words.removeFirst();
    if (words.size() >= 2 && words.front() == QLatin1String{"--as-of"}) {
        const auto asOf = parseIsoTime(words.at(1).toStdString());
        if (!asOf || !asOf->hasOffset) {
            return std::nullopt;
        }
        wish.ahead = instantOf(asOf->wall, asOf->offset) - systemClock();
        words = words.mid(2);
    }
    if (words.size() > 1 || (words.size() == 1 && words.front().startsWith(QLatin1Char{'-'}))) {
        return std::nullopt;
    }
    wish.path = words.value(0);
    return wish;
}

/// The named file, new or old; without a name the book that was open last, or the welcome.
void openFirst(ui::MainWindow& window, const QString& path) {
    if (!path.isEmpty()) {
        const QFileInfo file{path};
        if (file.exists() && file.size() > 0) {
            window.openBook(path);
        } else {
            window.startBook(path);
        }
        return;
    }
    const QStringList recent = ui::recent::files();
    if (!recent.isEmpty()) {
        window.openBook(recent.front());
    }
}

}  // namespace

int runDesktop(int argc, char** argv) {
    QApplication application{argc, argv};
    QApplication::setApplicationDisplayName(QStringLiteral("Middenbook"));
    QApplication::setApplicationVersion(QStringLiteral(MIDDENBOOK_VERSION));
    ui::apply(ui::Appearance::load(), application);
    ui::showTextAsText(application);
    const auto wish = wishOf(QApplication::arguments());
    if (!wish) {
        std::cerr << usage;
        return 2;
    }
    ui::QtPrompts prompts;
    ui::MainWindow window{prompts, [ahead = wish->ahead] { return systemClock() + ahead; }};
    window.keepCopiesIn(ui::copiesPlace(), systemClock);
    openFirst(window, wish->path);
    window.show();
    return QApplication::exec();
}

}  // namespace midden::app
