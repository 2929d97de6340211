// SPDX-License-Identifier: GPL-3.0-or-later
#include "app/desktop.h"

#include <iostream>

namespace midden::app {

int runDesktop(int /*argc*/, char** /*argv*/) {
    std::cerr << "middenbook: this build has no window yet\n";
    return 2;
}

}  // namespace midden::app
