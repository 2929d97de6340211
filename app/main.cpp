// SPDX-License-Identifier: GPL-3.0-or-later
#include <QCoreApplication>
#include <new>

#include "app/command_line.h"
#include "app/desktop.h"
#include "app/process.h"
#include "core/files/workplace.h"

namespace midden::app {

namespace {

int runProgram(int argc, char** argv) {
    std::error_code none;
    tidyUpAfterKilled(std::filesystem::temp_directory_path(none));
    // What Qt makes the paths of settings and kept copies of.
    QCoreApplication::setApplicationName(QStringLiteral("middenbook"));
    QCoreApplication::setOrganizationName(QStringLiteral("middenbook"));
    return asksForCommand(argc, argv) ? runCommandLine(argc, argv) : runDesktop(argc, argv);
}

}  // namespace

}  // namespace midden::app

int main(int argc, char** argv) {
    midden::app::prepareProcess();
    try {
        return midden::app::runProgram(argc, argv);
    } catch (const std::bad_alloc&) {
        midden::app::endWithoutMemory();
    }
}
