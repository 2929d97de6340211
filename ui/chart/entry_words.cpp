// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/chart/entry_words.h"

#include <QCoreApplication>
#include <QDateTime>
#include <QLocale>

#include "ui/shared/words.h"

namespace midden::ui::words {

namespace {

QString tr(const char* source) {
    return QCoreApplication::translate("words", source);
}

QString kindOf(ObservationKind kind) {
    switch (kind) {
        case ObservationKind::note:
            return tr("note");
        case ObservationKind::squeeze:
            return tr("squeeze test");
        case ObservationKind::smell:
            return tr("smell");
        case ObservationKind::volume:
            return tr("fill height");
        case ObservationKind::remedy:
            return tr("remedy");
        case ObservationKind::curing:
            return tr("curing");
        case ObservationKind::selfHeating:
            return tr("self-heating test");
        case ObservationKind::seedTest:
            return tr("seed test");
        case ObservationKind::screening:
            return tr("screened");
        case ObservationKind::condition:
            return tr("condition");
        case ObservationKind::level:
            return tr("level, cm above the floor");
    }
    return {};
}

}  // namespace

QString length(Seconds duration) {
    if (duration < hours(1)) {
        return tr("%1 min").arg(duration.count / 60);
    }
    if (duration < hours(10) && duration.count % 3'600 >= 360) {
        const std::int64_t tenths = duration.count / 360;
        return tr("%1 h").arg(number(static_cast<double>(tenths) / 10, 1));
    }
    return tr("%1 h").arg(duration.count / 3'600);
}

QString fullTime(Moment moment) {
    const WallTime wall = wallTimeOf(moment);
    const QDateTime shown{QDate{wall.year, wall.month, wall.day}, QTime{wall.hour, wall.minute}, Qt::UTC};
    return QLocale{}.toString(shown, QStringLiteral("ddd d MMM yyyy HH:mm"));
}

QString observation(const Observation& observation) {
    const QString kind = kindOf(observation.kind);
    const QString head = observation.subject.empty() ? kind : tr("%1 (%2)").arg(kind, text(observation.subject));
    return observation.value.empty() ? head : tr("%1: %2").arg(head, text(observation.value));
}

QString addition(const Addition& addition) {
    return tr("%1, %2 kg").arg(text(addition.material), QLocale{}.toString(addition.massKilograms, 'g', 6));
}

QString harvest(const Harvest& harvest) {
    return tr("harvested %1 L").arg(QLocale{}.toString(harvest.volumeLitres, 'g', 6));
}

QString verdict(Verdict verdict) {
    switch (verdict) {
        case Verdict::notShown:
            return tr("not shown");
        case Verdict::shownWithinError:
            return tr("shown, but only within the thermometer's own error");
        case Verdict::shown:
            return tr("shown");
    }
    return {};
}

}  // namespace midden::ui::words
