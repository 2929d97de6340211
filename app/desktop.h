// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

namespace midden::app {

/// Opens the desktop program, with the logbook named by the first argument if there is one.
int runDesktop(int argc, char** argv);

}  // namespace midden::app
