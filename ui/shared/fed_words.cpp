// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shared/fed_words.h"

#include <QCoreApplication>
#include <cmath>

#include "ui/shared/words.h"

namespace midden::ui::words {

namespace {

QString tr(const char* source) {
    return QCoreApplication::translate("fed", source);
}

QString sinceWhen(const LowestLayers& layers, const FedContext& context) {
    const auto day = [&](Instant at) { return dayNear(context.zone.momentAt(at), context.now); };
    const QString from = day(layers.fedFrom);
    const QString to = day(layers.fedTo);
    return from == to ? tr("in there since %1").arg(from) : tr("fed from %1 to %2").arg(from, to);
}

QString kilograms(double value) {
    return number(value, value < 10 && std::abs(value - std::round(value)) >= 0.05 ? 1 : 0);
}

}  // namespace

QString litres(double value) {
    return number(value, value < 10 && std::abs(value - std::round(value)) >= 0.05 ? 1 : 0);
}

QString lowestLayers(const FedStatus& status, const FedContext& context) {
    const auto& shown = status.ready ? status.ready : status.oldest;
    if (!shown) {
        return tr("nothing raw in it yet");
    }
    const QString form = status.ready ? tr("ready to take: about %1 L, %2, at least %3 at %4")
                                      : tr("oldest layer: about %1 L, %2, at least %3 at %4");
    return form.arg(litres(shown->litres), sinceWhen(*shown, context), wholeHours(shown->atLeast),
                    withUnit(context.threshold, context.unit));
}

QString hotDays(const FedStatus& status) {
    return tr("hot on %1 of the last %2 days").arg(status.hotDays).arg(hotDaysLookedAt);
}

QString lastFed(const FedStatus& status, Moment now) {
    if (!status.lastFed) {
        return tr("not fed yet");
    }
    const QString since = ago(now.at - *status.lastFed);
    return status.feedDue && *status.feedDue <= now.at ? tr("feed it: last fed %1").arg(since)
                                                       : tr("fed %1").arg(since);
}

bool isLevelOld(const FedStatus& status, Instant now) {
    return !status.level || now - status.level->at > LayerRules{}.levelHolds;
}

QString level(const FedStatus& status, const Bin& bin, Moment now) {
    if (!status.level) {
        return tr("measure its level: without one no hours are counted");
    }
    if (isLevelOld(status, now.at)) {
        return tr("its level is %1 old: measure it again").arg(lasting(now.at - status.level->at));
    }
    return bin.heightCentimetres
               ? tr("surface %1 cm below the rim").arg(number(*bin.heightCentimetres - status.level->centimetres, 0))
               : tr("surface %1 cm above the floor").arg(number(status.level->centimetres, 0));
}

QString lackingSentence(Lacking lacking) {
    switch (lacking) {
        case Lacking::binVolume:
            return tr(
                "Enter the volume of the bin in Setup. Until then no heights are known and no hours are counted.");
        case Lacking::binHeight:
            return tr(
                "Enter the inner height of the bin in Setup. Until then only litres are known and no hours are "
                "counted.");
        case Lacking::positionHeight:
            return tr("Enter in Setup how high above the floor each place is read. Until then it shows nothing.");
        case Lacking::anyLevel:
            return tr("Measure how far the surface is below the rim, and enter it. Until then no hours are counted.");
        case Lacking::recentLevel:
            return tr("The last level is more than 14 days old. Measure again, so that new hours are counted.");
        case Lacking::agreement:
            return tr("The last level does not agree with what was fed. Look at the amounts, or measure again.");
    }
    return {};
}

QString lacking(const std::vector<Lacking>& all) {
    QStringList sentences;
    for (const Lacking one : all) {
        sentences << lackingSentence(one);
    }
    return sentences.join(QLatin1Char{' '});
}

QString feedingAdvice(const FeedingAdvice& advice, TemperatureUnit unit) {
    if (!advice.lacking.empty()) {
        QStringList missing;
        for (const AdviceLacking one : advice.lacking) {
            switch (one) {
                case AdviceLacking::volume:
                    missing << tr("how many litres the bin holds");
                    break;
                case AdviceLacking::insulation:
                    missing << tr("how thick its insulation is and of what");
                    break;
                case AdviceLacking::outside:
                    missing << tr("how warm it is outside, read within the last four weeks");
                    break;
                case AdviceLacking::tooMuchAir:
                    return tr("At %1 the air alone may carry away all the heat a feed gives, so no amount can be told.")
                        .arg(withUnit(advice.target, unit));
            }
        }
        return tr("How much to feed can be told once the book knows: %1.").arg(missing.join(tr("; ")));
    }
    const WeeklyBand& week = *advice.week;
    QStringList sentences;
    sentences << tr("About %1 kg of kitchen waste a week (%2 to %3) hold %4 while it is %5 outside.")
                     .arg(number(week.middle, 0), number(week.low, 0), number(week.high, 0),
                          withUnit(advice.target, unit),
                          withUnit(Celsius::ofTenThousandths(std::llround(*advice.outside * 10'000)), unit));
    sentences << tr("In the last four weeks it was fed about %1 kg a week.").arg(kilograms(advice.fedAWeek));
    switch (advice.own) {
        case OwnResponse::narrows:
            sentences << tr("What this bin did itself is counted in.");
            break;
        case OwnResponse::disagrees:
            sentences << tr("What this bin did itself does not fit its walls, so the range stays wide.");
            break;
        case OwnResponse::tooFewFeeds:
            sentences << tr("This comes from its walls and the weather; ten feeds with readings will tell more.");
            break;
    }
    if (advice.fedAWeek < week.low) {
        sentences << tr(
            "One household's waste, some 5 kg a week, seldom holds that: warm spells after each feed are "
            "what to expect.");
    }
    return sentences.join(QLatin1Char{' '});
}

QString harvest(const HarvestReckoning& harvest, const FedContext& context) {
    const QString threshold = withUnit(context.threshold, context.unit);
    QStringList sentences;
    if (harvest.moreThanThere) {
        sentences << tr("By the record only about %1 L are there.").arg(litres(harvest.litres));
    }
    const AsReckoned& reckoned = harvest.reckoned;
    if (!reckoned.atLeast) {
        sentences << tr("Nothing raw is in it.");
        return sentences.join(QLatin1Char{' '});
    }
    QStringList parts;
    if (reckoned.halfHad) {
        parts << tr("half of these %1 L had at least %2 at %3 at the thermometer")
                     .arg(litres(harvest.litres), wholeHours(*reckoned.halfHad), threshold);
    } else {
        parts << tr("half of these %1 L is finished or clean and needs no heat").arg(litres(harvest.litres));
    }
    if (reckoned.nineTenthsHad) {
        parts << tr("nine tenths at least %1").arg(wholeHours(*reckoned.nineTenthsHad));
    }
    parts << tr("about %1 L the whole hold of %2").arg(litres(reckoned.litresWithHold), wholeHours(context.hold));
    QString first = parts.join(tr(", "));
    first[0] = first[0].toUpper();
    sentences << first + QLatin1Char{'.'};
    if (harvest.cautious.atLeast) {
        sentences << tr("If younger material slipped down, at least %1.").arg(wholeHours(*harvest.cautious.atLeast));
    }
    return sentences.join(QLatin1Char{' '});
}

}  // namespace midden::ui::words
