// SPDX-License-Identifier: GPL-3.0-or-later
#include <QCoreApplication>

#include "app/command_line.h"
#include "app/desktop.h"

int main(int argc, char** argv) {
    // What Qt makes the paths of settings and kept copies of.
    QCoreApplication::setApplicationName(QStringLiteral("middenbook"));
    QCoreApplication::setOrganizationName(QStringLiteral("middenbook"));
    return midden::app::asksForCommand(argc, argv) ? midden::app::runCommandLine(argc, argv)
                                                   : midden::app::runDesktop(argc, argv);
}
