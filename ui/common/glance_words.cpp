// SPDX-License-Identifier: GPL-3.0-or-later
#include <QCoreApplication>
#include <cmath>

#include "ui/common/glance.h"
#include "ui/common/words.h"

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
QString reading(const QString& byThen, const Glance& glance, const Due& due, const QString& when, Moment now) {
    if (due.at && *due.at >= now.at) {
        return byThen.arg(when);
    }
    return glance.lastRead ? tr("no reading for %1").arg(lasting(now.at - *glance.lastRead))
                           : tr("take the first reading");
}

QString sentence(const Glance& glance, const Due& due, const TimeZone& zone, Moment now) {
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
            return reading(tr("read by %1 or the hold breaks"), glance, due, when, now);
        case DueKind::completeHold:
            return due.at && *due.at > now.at ? tr("a reading from %1 completes the hold").arg(when)
                                              : tr("a reading now completes the hold");
        case DueKind::takeReading:
            return reading(tr("next round by %1"), glance, due, when, now);
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

QString phase(const Glance& glance, TemperatureUnit unit) {
    if (!glance.batch) {
        return tr("empty");
    }
    if (glance.isPending) {
        return tr("being worked out …");
    }
    if (glance.outlook.stall) {
        return stalled(*glance.outlook.stall);
    }
    const QString name = phaseName(glance.outlook.phase);
    return glance.outlook.last ? tr("%1, %2").arg(name, withUnit(glance.outlook.last->warmest, unit)) : name;
}

QString credit(const Glance& glance, TemperatureUnit unit) {
    if (!glance.batch || glance.isPending) {
        return {};
    }
    if (glance.outlook.targetShown) {
        return tr("%1 at %2 shown").arg(wholeHours(glance.target.hold), withUnit(glance.target.threshold, unit));
    }
    if (glance.outlook.broken) {
        return tr("hold broke with %1").arg(hoursOf(glance.outlook.broken->credited, glance.target.hold));
    }
    const QString hours = hoursOf(glance.outlook.holdSoFar(), glance.target.hold);
    const bool isOver = !glance.outlook.hold && glance.outlook.credited.count > 0;
    const QString words = (isOver ? tr("longest hold %1") : tr("%1 credited")).arg(hours);
    return glance.outlook.isLongerAsRead() ? tr("%1, %2 as read").arg(words, wholeHours(glance.outlook.asRead)) : words;
}

QStringList due(const Glance& glance, const TimeZone& zone, Moment now) {
    QStringList sentences;
    for (const Due& due : glance.outlook.due) {
        sentences << sentence(glance, due, zone, now);
    }
    if (glance.batch && !glance.isPending && !glance.lastRead) {
        sentences = QStringList{tr("take the first reading")};
    }
    sentences.removeDuplicates();
    if (sentences.isEmpty() && glance.lastRead) {
        sentences << tr("read %1").arg(ago(now.at - *glance.lastRead));
    }
    return sentences;
}

}  // namespace midden::ui::words
