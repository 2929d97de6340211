// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/quantities/zone.h"
#include "core/store/logbook.h"

namespace midden::app {

/// The zone the times of a book are shown in: the book's own. UTC when it has none, and when this computer does not
/// know it, which is said on standard error.
TimeZone shownZone(const Logbook& book);

}  // namespace midden::app
