// SPDX-License-Identifier: GPL-3.0-or-later
// The main of every test program that needs an application: no screen, no settings or fonts of this computer, British
// English.
#define CATCH_CONFIG_RUNNER
#include <QApplication>
#include <QLocale>
#include <QStandardPaths>
#include <catch2/catch.hpp>

#include "ui/certificate/paper_font.h"

namespace {

/// The bundled one, in a size of its own.
QFont screenFont() {
    QFont font{midden::ui::paperFont(midden::ui::Face::regular, 10).family()};
    font.setPointSize(10);
    return font;
}

}  // namespace

int main(int argc, char* argv[]) {
    if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM")) {
        qputenv("QT_QPA_PLATFORM", "offscreen");
    }
    QCoreApplication::setAttribute(Qt::AA_DontUseNativeDialogs);
    QStandardPaths::setTestModeEnabled(true);
    QLocale::setDefault(QLocale{QLocale::English, QLocale::UnitedKingdom});
    int one = 1;  // Catch reads the arguments, not Qt.
    const QApplication application{one, argv};
    QApplication::setFont(screenFont());
    return Catch::Session().run(argc, argv);
}
