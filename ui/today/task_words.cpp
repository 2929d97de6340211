// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/today/task_words.h"

#include <QCoreApplication>
#include <QStringList>

#include "ui/shared/fed_words.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

QString tr(const char* source) {
    return QCoreApplication::translate("today", source);
}

/// The words of one task.
class Teller {
  public:
    Teller(const Task& task, const TaskContext& context) : task_{task}, context_{context} {}

    QString what() const;
    QString until() const;
    QString why() const;

  private:
    QString degrees(Celsius temperature) const { return words::withUnit(temperature, context_.unit); }
    QString near(Instant at) const { return words::timeNear(context_.zone.momentAt(at), context_.now); }
    QString when(Instant at) const { return words::dayAndTime(context_.zone.momentAt(at), context_.now); }
    QString ago(Instant at) const { return words::ago(context_.now.at - at); }
    QString readAgo() const { return tr("%1 at its warmest %2").arg(degrees(*task_.read), ago(*task_.since)); }
    QString credit() const {
        return tr("%1 credited").arg(words::hoursOf(task_.credited, context_.settings.stalls.target.hold));
    }
    QString ofReadings() const;
    QString ofFeeding() const;
    QString ofCuring() const;
    QString ofProbe() const;
    QString turnings() const;

    const Task& task_;
    const TaskContext& context_;
};

QString Teller::what() const {
    switch (task_.kind) {
        case TaskKind::openUp:
            return tr("Open it up, it is too hot");
        case TaskKind::saveHold:
            return tr("Look after it, or its hold breaks");
        case TaskKind::readForHold:
            return tr("Read every position, or its hold breaks");
        case TaskKind::endHold:
            return tr("Read every position to complete its hold");
        case TaskKind::bridgeGap:
            return tr("Type in any missed round, or its hold begins anew");
        case TaskKind::readOverdue:
        case TaskKind::read:
            return tr("Read it");
        case TaskKind::feed:
            return tr("Feed it");
        case TaskKind::measureLevel:
            return tr("Measure how far its surface is below the rim");
        case TaskKind::takeOut:
            return tr("Some of it can be taken out");
        case TaskKind::firstReading:
            return tr("Take its first reading");
        case TaskKind::tryRemedy:
            return tr("It has stalled, try a remedy");
        case TaskKind::tellCold:
            return tr("Look after it and read it again, it went cold");
        case TaskKind::keepHot:
            return tr("Look after it, it may go cold too soon");
        case TaskKind::judgeRemedy:
            return tr("Read it to see what came of it: %1").arg(words::text(task_.detail));
        case TaskKind::watchHeat:
            return tr("Read it once more today, it is very warm");
        case TaskKind::turn:
            return tr("Turn it");
        case TaskKind::certify:
            return tr("Its certificate can be issued");
        case TaskKind::beginCuring:
            return task_.recorded > 0 ? tr("Write down that it cures") : tr("Turn it once more");
        case TaskKind::testCuring:
            return tr("Test how far it has cured");
        case TaskKind::checkProbe:
            return tr("Check this thermometer in ice");
    }
    return {};
}

QString Teller::until() const {
    if (task_.kind == TaskKind::openUp) {
        return tr("now");
    }
    if (!task_.until) {
        return task_.urgency == Urgency::soon ? QString{} : tr("today");
    }
    if (task_.kind == TaskKind::bridgeGap) {
        return tr("broke at %1").arg(near(*task_.until));
    }
    if (task_.kind == TaskKind::readOverdue) {
        return tr("was due at %1").arg(near(*task_.until));
    }
    const bool isFrom =
        task_.kind == TaskKind::endHold || task_.kind == TaskKind::tellCold || task_.kind == TaskKind::turn;
    if (isFrom) {
        return *task_.until <= context_.now.at ? tr("now") : tr("from %1").arg(near(*task_.until));
    }
    return *task_.until <= context_.now.at ? tr("now") : tr("by %1").arg(near(*task_.until));
}

QString Teller::ofReadings() const {
    const QString hot = degrees(context_.settings.stalls.hot);
    const QString threshold = degrees(context_.settings.stalls.target.threshold);
    switch (task_.kind) {
        case TaskKind::saveHold:
            return tr("%1. As its readings fall now, the coolest place passes %2 at that time.")
                .arg(credit(), threshold);
        case TaskKind::keepHot:
            return tr("As its readings fall now, its warmest place passes %1 at that time.").arg(hot);
        case TaskKind::readForHold:
            return tr("%1. Read later than that, the hold breaks.").arg(credit());
        case TaskKind::endHold:
            return tr("%1. A round with every position at %2 or above completes it.").arg(credit(), threshold);
        case TaskKind::bridgeGap:
            return tr("No reading for %1, so the hold broke with %2. A round that was read in that time, typed in with "
                      "its own time, brings it back.")
                .arg(words::lasting(context_.now.at - *task_.since), credit());
        case TaskKind::readOverdue:
            return tr("No reading for %1.").arg(words::lasting(context_.now.at - *task_.since));
        default:
            return tr("Last read %1.").arg(ago(*task_.since));
    }
}

QString Teller::ofFeeding() const {
    const FedStatus& fed = *task_.fed;
    const auto& target = context_.settings.stalls.target;
    switch (task_.kind) {
        case TaskKind::feed:
            return tr("Last fed %1, %2. %3")
                .arg(ago(*task_.since), words::hotDays(fed), words::feedingAdvice(fed.advice, context_.unit));
        case TaskKind::measureLevel:
            return task_.since
                       ? tr("Last measured %1. After two weeks no more hours are counted.").arg(ago(*task_.since))
                       : tr("It was never measured. Without it nobody can tell which layer a thermometer is in, "
                            "and no hours are counted.");
        default: {
            const QString layers =
                words::lowestLayers(fed, {context_.zone, context_.now, context_.unit, target.threshold, target.hold});
            return tr("%1%2, by the readings and at the thermometer.").arg(layers.at(0).toUpper(), layers.mid(1));
        }
    }
}

QString Teller::turnings() const {
    const QString recorded =
        task_.recorded == 1 ? tr("1 turning is recorded") : tr("%1 turnings are recorded").arg(task_.recorded);
    return tr("%1, %2 are asked within its hold: %3.").arg(recorded).arg(task_.asked).arg(words::text(task_.detail));
}

QString Teller::ofCuring() const {
    if (task_.kind == TaskKind::testCuring) {
        return tr("It has cured since %1. One seed test alone does not show that it is mature.")
            .arg(when(*task_.since));
    }
    const QString cool = tr("Below %1 since %2").arg(degrees(context_.care.care.cured), when(*task_.since));
    return task_.recorded > 0 ? tr("%1, and turning did not heat it again.").arg(cool)
                              : tr("%1. If turning does not heat it again, curing has begun.").arg(cool);
}

QString Teller::ofProbe() const {
    return task_.since ? tr("Last checked %1.").arg(ago(*task_.since)) : tr("No check of it is recorded.");
}

QString Teller::why() const {
    switch (task_.kind) {
        case TaskKind::openUp:
            return tr("%1. Above %2 the heat-makers die off.").arg(readAgo(), degrees(context_.settings.tooHot));
        case TaskKind::watchHeat:
            return tr("%1. From %2 on it may soon be too hot.").arg(readAgo(), degrees(context_.settings.warm));
        case TaskKind::tellCold:
            return tr("%1, before its target was shown. A reading then tells a stall from a bad moment.")
                .arg(readAgo());
        case TaskKind::tryRemedy:
            return tr("Cold since %1. %2").arg(when(*task_.since), words::text(task_.detail));
        case TaskKind::judgeRemedy:
            return tr("Logged %1. Back at %2 within %3 would mean that it worked.")
                .arg(ago(*task_.since), degrees(context_.settings.stalls.hot), words::wholeHours(context_.care.remedy));
        case TaskKind::turn:
            return turnings();
        case TaskKind::firstReading:
            return tr("The batch began %1.").arg(ago(*task_.since));
        case TaskKind::certify:
            return tr("The readings reached the time–temperature figures of: %1.").arg(words::text(task_.detail));
        case TaskKind::beginCuring:
        case TaskKind::testCuring:
            return ofCuring();
        case TaskKind::checkProbe:
            return ofProbe();
        case TaskKind::feed:
        case TaskKind::measureLevel:
        case TaskKind::takeOut:
            return ofFeeding();
        default:
            return ofReadings();
    }
}

}  // namespace

TaskPlace placeOf(TaskKind kind) {
    switch (kind) {
        case TaskKind::tryRemedy:
            return TaskPlace::stall;
        case TaskKind::certify:
            return TaskPlace::certificate;
        case TaskKind::checkProbe:
            return TaskPlace::setup;
        default:
            return TaskPlace::round;
    }
}

QString TaskLine::spoken() const {
    QStringList parts{where, what, until, why};
    parts.removeAll(QString{});
    return parts.join(QStringLiteral(", "));
}

TaskLine lineOf(const Task& task, const TaskContext& context) {
    const Teller teller{task, context};
    return {words::text(task.where), teller.what(), teller.until(), teller.why()};
}

}  // namespace midden::ui
