// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/store/logbook.h"

namespace midden::app {

/// Names on the error output what of the book cannot be read while the rest is shown.
void nameUnreadable(const Logbook& book);

}  // namespace midden::app
