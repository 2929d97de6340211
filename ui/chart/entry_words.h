// SPDX-License-Identifier: GPL-3.0-or-later
// What the picture, its tips and the entries below it call things.
#pragma once

#include <QString>

#include "core/criteria/judgement.h"
#include "core/records/entries.h"

namespace midden::ui::words {

/// "41 h", "7.5 h", "20 min": cut off, never rounded up, so that nothing is claimed that was not read.
QString length(Seconds duration);
/// "Wed 4 Mar 2026 08:10"
QString fullTime(Moment moment);
/// "squeeze test: wet", "remedy (turned and watered)" …
QString observation(const Observation& observation);
/// "kitchen scraps, 4.2 kg"
QString addition(const Addition& addition);
/// "harvested 20 L"
QString harvest(const Harvest& harvest);
/// "shown", "shown, but only within the thermometer's own error", "not shown"
QString verdict(Verdict verdict);

}  // namespace midden::ui::words
