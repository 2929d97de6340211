// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>

#include "core/quantities/zone.h"
#include "core/review/fed_status.h"
#include "core/review/outlook.h"

namespace midden::ui {

/// What the words need to know beside the batch.
struct HoursContext {
    HoldTarget target;
    TimeZone zone = TimeZone::utc();
    TemperatureUnit unit = TemperatureUnit::celsius;
    Moment now;
};

/// As of `context.now`: hours credited and short; of a running hold when it completes if readings go on qualifying and
/// the next round is on time, and how late that may be; of one that broke unread since when.
QString hoursLeft(const BinOutlook& ofRecord, bool isFinished, const HoursContext& context);

/// Of a fed batch, which has no hold: what lies at its base, and what has to be known before more hours count.
QString fedWords(const FedStatus& status, const HoursContext& context);

/// What the shaded band beyond the last reading is, with the error it was tried with; empty where there is none.
QString forecastWords(const BinOutlook& outlook, const HoursContext& context);

}  // namespace midden::ui
