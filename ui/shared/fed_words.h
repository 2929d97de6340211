// SPDX-License-Identifier: GPL-3.0-or-later
// What is said of a bin that is fed on top and emptied at the base. "At least", "about": never a verdict.
#pragma once

#include <QString>
#include <QStringList>

#include "core/quantities/zone.h"
#include "core/review/fed_status.h"

namespace midden::ui::words {

/// What words of a fed bin need to know besides.
struct FedContext {
    const TimeZone& zone;
    Moment now;
    TemperatureUnit unit = TemperatureUnit::celsius;
    Celsius threshold;  ///< of the book's target
    Seconds hold;       ///< that it asks for
};

/// "ready to take: about 40 L, in there since Tue 3 March, at least 96 h at 55.0 °C"; without any that is ready "oldest
/// layer: about 12 L, in there since Tue 3 March, at least 20 h at 55.0 °C"; "nothing in it yet".
QString lowestLayers(const FedStatus& status, const FedContext& context);
/// "hot on 21 of the last 30 days"
QString hotDays(const FedStatus& status);
/// "fed 2 days ago", "feed it: last fed 5 days ago", "not fed yet"
QString lastFed(const FedStatus& status, Moment now);
/// "surface 12 cm below the rim", "its level is 16 days old: measure it again", "measure its level: without one nothing
/// is credited"
QString level(const FedStatus& status, const Bin& bin, Moment now);
/// Is there no level of the last fourteen days?
bool isLevelOld(const FedStatus& status, Instant now);
/// What is to be entered or measured, and what comes of it until then.
QString lackingSentence(Lacking lacking);
/// All of them; empty when enough is known.
QString lacking(const std::vector<Lacking>& lacking);

/// "About 14 kg of kitchen waste a week (11 to 21) hold 55.0 °C while it is 10 °C outside. Lately it was fed 9.5 kg a
/// week. …" or what has to be known for that.
QString feedingAdvice(const FeedingAdvice& advice, TemperatureUnit unit);

/// "Half of these 20 L had at least 180 h at 55.0 °C at the thermometer, nine tenths at least 84 h, 16 L the whole hold
/// of 72 h. If younger material slipped down, at least 24 h."
QString harvest(const HarvestReckoning& harvest, const FedContext& context);

/// "12", "12.5": litres, without the unit.
QString litres(double value);

}  // namespace midden::ui::words
