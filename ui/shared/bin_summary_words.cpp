// SPDX-License-Identifier: GPL-3.0-or-later
#include <QCoreApplication>
#include <cmath>

#include "ui/shared/bin_summary.h"
#include "ui/shared/fed_words.h"
#include "ui/shared/words.h"

namespace midden::ui::words {

namespace {

QString tr(const char* source) {
    return QCoreApplication::translate("glance", source);
}

QString phaseName(Phase phase) {
    switch (phase) {
        case Phase::unread:
            return tr("not read yet");
        case Phase::heating:
            return tr("heating up");
        case Phase::hot:
            return tr("hot");
        case Phase::cooling:
            return tr("cooling");
        case Phase::stalled:
            return tr("stalled");
        case Phase::curing:
            return tr("curing");
    }
    return {};
}

QString stalled(const Stall& stall) {
    return stall.kind == StallKind::neverHeated ? tr("stalled: it has not heated")
                                                : tr("stalled: %1").arg(shortBy(stall));
}

/// When the bin is to be read, as a sentence that fits the clock.
QString reading(const QString& byThen, const BinSummary& summary, const Due& due, const QString& when, Moment now) {
    if (due.at && *due.at >= now.at) {
        return byThen.arg(when);
    }
    return summary.lastRead ? tr("no reading for %1").arg(lasting(now.at - *summary.lastRead))
                            : tr("take the first reading");
}

QString sentence(const BinSummary& summary, const Due& due, const TimeZone& zone, Moment now) {
    const QString when = due.at ? timeNear(zone.momentAt(*due.at), now) : QString{};
    switch (due.kind) {
        case DueKind::openUp:
            return tr("too hot: open it up");
        case DueKind::findCause:
            return tr("look for the cause");
        case DueKind::holdBroke:
            return tr("it broke at %1; type in any missed round").arg(when);
        case DueKind::holdWillBreak:
            return tr("it cools: the hold may break");
        case DueKind::wentCold:
            return tr("cold before its target");
        case DueKind::willGoCold:
            return tr("it cools: it may go cold too soon");
        case DueKind::watchHeat:
            return tr("very warm: watch it");
        case DueKind::keepHold:
            return reading(tr("read by %1 or the hold breaks"), summary, due, when, now);
        case DueKind::completeHold:
            return due.at && *due.at > now.at ? tr("a reading from %1 completes the hold").arg(when)
                                              : tr("a reading now completes the hold");
        case DueKind::takeReading:
            return reading(tr("next round by %1"), summary, due, when, now);
    }
    return {};
}

}  // namespace

QString shortBy(Seconds missing) {
    return tr("%1 short").arg(wholeHours(missing + Seconds{3'599}));
}

QString shortBy(const Stall& stall) {
    return shortBy(Seconds{std::llround(stall.hoursShort * 3'600)});
}

QString phase(const BinSummary& summary, TemperatureUnit unit) {
    if (!summary.batch) {
        return tr("empty");
    }
    if (summary.isPending) {
        return tr("being worked out …");
    }
    if (summary.outlook.stall) {
        return stalled(*summary.outlook.stall);
    }
    const QString name = phaseName(summary.outlook.phase);
    if (summary.fed && summary.fed->hottest) {
        return tr("%1, %2 at %3")
            .arg(name, withUnit(summary.fed->hottest->temperature, unit), text(summary.fed->hottest->position));
    }
    return summary.outlook.last ? tr("%1, %2").arg(name, withUnit(summary.outlook.last->warmest, unit)) : name;
}

QString credit(const BinSummary& summary, TemperatureUnit unit) {
    if (!summary.batch || summary.isPending || summary.fed) {
        return {};
    }
    if (summary.outlook.targetShown) {
        return tr("%1 at %2 shown").arg(wholeHours(summary.target.hold), withUnit(summary.target.threshold, unit));
    }
    if (summary.outlook.broken) {
        return tr("hold broke with %1").arg(hoursOf(summary.outlook.broken->credited, summary.target.hold));
    }
    const QString hours = hoursOf(summary.outlook.holdSoFar(), summary.target.hold);
    const bool isOver = !summary.outlook.hold && summary.outlook.credited.count > 0;
    const QString words = (isOver ? tr("longest hold %1") : tr("%1 credited")).arg(hours);
    return summary.outlook.isLongerAsRead() ? tr("%1, %2 as read").arg(words, wholeHours(summary.outlook.asRead))
                                            : words;
}

QStringList due(const BinSummary& summary, const TimeZone& zone, Moment now) {
    QStringList sentences;
    for (const Due& due : summary.outlook.due) {
        sentences << sentence(summary, due, zone, now);
    }
    if (summary.fed) {
        const QStringList fed{lastFed(*summary.fed, now), hotDays(*summary.fed), level(*summary.fed, summary.bin, now)};
        return sentences.mid(0, 1) + fed;
    }
    if (summary.batch && !summary.isPending && !summary.lastRead) {
        sentences = QStringList{tr("take the first reading")};
    }
    sentences.removeDuplicates();
    if (sentences.isEmpty() && summary.lastRead) {
        sentences << tr("read %1").arg(ago(now.at - *summary.lastRead));
    }
    return sentences;
}

}  // namespace midden::ui::words
