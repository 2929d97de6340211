// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/history/hours_left.h"

#include <QCoreApplication>

#include "ui/common/words.h"

namespace midden::ui {

namespace {

QString say(const char* words) {
    return QCoreApplication::translate("HoursLeft", words);
}

/// Rounded up: never fewer hours than are missing.
QString shortBy(Seconds missing) {
    return say("%1 h short").arg((missing.count + 3'599) / 3'600);
}

QString readBy(const RunningHold& hold, const HoursContext& context) {
    const QString when = words::timeNear(context.zone.momentAt(hold.readBy), context.now);
    return hold.readBy < context.now.at
               ? say("The next reading was due by %1: this hold has lost its credit from then on.").arg(when)
               : say("Read again by %1, or this hold loses its credit.").arg(when);
}

}  // namespace

QString hoursLeft(const BinOutlook& outlook, bool isFinished, const HoursContext& context) {
    const QString threshold = words::withUnit(context.target.threshold, context.unit);
    if (outlook.targetShown) {
        return say("The target is shown: %1 at %2 or above, every position.")
            .arg(words::wholeHours(context.target.hold), threshold);
    }
    const bool isHolding = outlook.hold && !isFinished;
    const Seconds credited = isHolding ? outlook.hold->credited : outlook.credited;
    const Seconds missing = isHolding ? outlook.hold->missing : outlook.missing;
    const QString hours = words::hoursOf(credited, context.target.hold);
    if (isFinished) {
        return say("The longest hold was %1.").arg(hours);
    }
    if (!isHolding) {
        return say("No hold is running; the longest was %1, %2. One begins with a round that finds every position at "
                   "%3 or above.")
            .arg(hours, shortBy(missing), threshold);
    }
    const QString when = words::timeNear(context.zone.momentAt(outlook.hold->completes), context.now);
    return say("%1 credited, %2. If every reading until then qualifies and the next round is on time, a reading from "
               "%3 completes it. %4")
        .arg(hours, shortBy(missing), when, readBy(*outlook.hold, context));
}

QString forecastWords(const BinOutlook& outlook, const HoursContext& context) {
    if (!outlook.projection) {
        return {};
    }
    const Projection& band = *outlook.projection;
    const auto degrees = [&](double celsius) {
        return words::degrees(Celsius::ofTenThousandths(static_cast<std::int64_t>(celsius * 10'000)), context.unit);
    };
    const auto error = Kelvins::ofTenThousandths(static_cast<std::int64_t>(band.error * 10'000));
    return say("Shaded: the next round's warmest place, about %1, between %2 and %3 %4. Tried on its last %5 rounds, "
               "this "
               "missed by up to %6 %4 four times in five.")
        .arg(words::timeNear(context.zone.momentAt(band.at), context.now), degrees(band.low), degrees(band.high),
             words::unitName(context.unit))
        .arg(band.backTests)
        .arg(words::change(error, context.unit).remove(QLatin1Char{'+'}));
}

}  // namespace midden::ui
