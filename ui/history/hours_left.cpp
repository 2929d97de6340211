// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/history/hours_left.h"

#include <QCoreApplication>

#include "ui/shared/bin_summary.h"
#include "ui/shared/fed_words.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

QString say(const char* words) {
    return QCoreApplication::translate("HoursLeft", words);
}

QString readBy(const RunningHold& hold, const HoursContext& context) {
    return say("Read again by %1, or the hold breaks.")
        .arg(words::timeNear(context.zone.momentAt(hold.readBy), context.now));
}

/// Why the certificate may name more hours than are counted here.
QString asReadWords(const BinOutlook& outlook) {
    return outlook.isLongerAsRead()
               ? say(" That is with the thermometer's error held against every reading; as read it was %1.")
                     .arg(words::wholeHours(outlook.asRead))
               : QString{};
}

QString brokenWords(const BrokenHold& hold, const HoursContext& context) {
    return say("The hold broke at %1 with %2 credited, because no reading came in time. A round that was read in that "
               "time, typed in with its own time, brings it back.")
        .arg(words::timeNear(context.zone.momentAt(hold.at), context.now),
             words::hoursOf(hold.credited, context.target.hold));
}

}  // namespace

QString hoursLeft(const BinOutlook& ofRecord, bool isFinished, const HoursContext& context) {
    const BinOutlook outlook = outlookAt(ofRecord, context.now.at);
    const QString threshold = words::withUnit(context.target.threshold, context.unit);
    if (outlook.targetShown) {
        return say("The target is shown: %1 at %2 or above, every position.")
            .arg(words::wholeHours(context.target.hold), threshold);
    }
    if (isFinished) {
        return say("The longest hold was %1.").arg(words::hoursOf(outlook.credited, context.target.hold)) +
               asReadWords(outlook);
    }
    if (outlook.broken) {
        return brokenWords(*outlook.broken, context);
    }
    const QString hours = words::hoursOf(outlook.holdSoFar(), context.target.hold);
    const Seconds missing = outlook.holdStillMissing();
    if (!outlook.hold) {
        return say("No hold is running; the longest was %1, %2. One begins with a round that finds every position at "
                   "%3 or above.")
                   .arg(hours, words::shortBy(missing), threshold) +
               asReadWords(outlook);
    }
    const QString when = words::timeNear(context.zone.momentAt(outlook.hold->completes), context.now);
    return say("%1 credited, %2. If every reading until then qualifies and the next round is on time, a reading from "
               "%3 completes it. %4")
        .arg(hours, words::shortBy(missing), when, readBy(*outlook.hold, context));
}

QString fedWords(const FedStatus& status, const HoursContext& context) {
    const QString layers = words::lowestLayers(
        status, {context.zone, context.now, context.unit, context.target.threshold, context.target.hold});
    const QString sentence = layers.at(0).toUpper() + layers.mid(1) + QLatin1Char{'.'};
    const QString lacking = words::lacking(status.lacking);
    return lacking.isEmpty() ? sentence : sentence + QLatin1Char{' '} + lacking;
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
    const QString what = band.at >= context.now.at
                             ? say("Shaded: the next round's warmest place, about %1, between %2 and %3 %4.")
                             : say("Shaded: where a round about %1 was expected to find its warmest place, between %2 "
                                   "and %3 %4.");
    return (what + say(" Tried on its last %5 rounds, this missed by up to %6 %4 four times in five."))
        .arg(words::timeNear(context.zone.momentAt(band.at), context.now), degrees(band.low), degrees(band.high),
             words::unitName(context.unit))
        .arg(band.backTests)
        .arg(words::change(error, context.unit).remove(QLatin1Char{'+'}));
}

}  // namespace midden::ui
