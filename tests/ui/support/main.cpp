// SPDX-License-Identifier: GPL-3.0-or-later
// The main of every test program that needs an application: no screen, no settings of this computer, British English.
#define CATCH_CONFIG_RUNNER
#include <QApplication>
#include <QLocale>
#include <QStandardPaths>
#include <catch2/catch.hpp>

int main(int argc, char* argv[]) {
    if (qEnvironmentVariableIsEmpty("QT_QPA_PLATFORM")) {
        qputenv("QT_QPA_PLATFORM", "offscreen");
    }
    QCoreApplication::setAttribute(Qt::AA_DontUseNativeDialogs);
    QStandardPaths::setTestModeEnabled(true);
    QLocale::setDefault(QLocale{QLocale::English, QLocale::UnitedKingdom});
    int one = 1;  // Catch reads the arguments, not Qt.
    const QApplication application{one, argv};
    return Catch::Session().run(argc, argv);
}
