// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "core/thermal/interval.h"

namespace midden::ui {

/// The closest look: ten minutes across the plot.
constexpr Seconds closestLook = minutes(10);

/// The stretch seen after zooming: `factor` below 1 looks closer. `about` stays under the cursor; never beyond the
/// whole batch nor closer than the closest look.
Interval zoomed(Interval visible, Interval whole, Instant about, double factor);
/// Moved by a share of what is visible, later for a positive share, as far as the whole batch goes.
Interval moved(Interval visible, Interval whole, double share);
/// Moved just so far that `at` can be seen, a little away from the edge.
Interval showing(Interval visible, Interval whole, Instant at);

}  // namespace midden::ui
