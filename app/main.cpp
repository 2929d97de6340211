// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/command_line.h"
#include "app/desktop.h"

int main(int argc, char** argv) {
    return midden::app::asksForCommand(argc, argv) ? midden::app::runCommandLine(argc, argv)
                                                   : midden::app::runDesktop(argc, argv);
}
