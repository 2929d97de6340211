// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/setup/check_words.h"

#include <QCoreApplication>
#include <QDate>
#include <algorithm>
#include <cmath>
#include <optional>

#include "ui/shared/typed.h"
#include "ui/shared/words.h"

namespace midden::ui::checks {

namespace {

QString tr(const char* source) {
    return QCoreApplication::translate("checks", source);
}

QString degreesOf(Kelvins difference, TemperatureUnit unit) {
    const Kelvins size = difference < Kelvins{} ? -difference : difference;
    return words::change(size, unit).remove(QLatin1Char{'+'}) + QChar{0x00A0} + words::unitName(unit);
}

QString signedDegrees(Kelvins difference, TemperatureUnit unit) {
    return words::change(difference, unit) + QChar{0x00A0} + words::unitName(unit);
}

/// Does it show as nothing to a tenth of a degree?
bool isNothing(Kelvins difference, TemperatureUnit unit) {
    const QString shown = words::change(difference, unit);
    return shown == words::localised("0.0") || shown == words::localised("-0.0");
}

/// The newest of all, or of one kind.
const ThermometerCheck* newest(const std::vector<ThermometerCheck>& all, std::optional<CheckKind> kind = {}) {
    const ThermometerCheck* found = nullptr;
    for (const auto& check : all) {
        if ((!kind || check.kind == *kind) && (found == nullptr || check.when.at > found->when.at)) {
            found = &check;
        }
    }
    return found;
}

QString hundredths(Celsius temperature, TemperatureUnit unit) {
    const double shown = unit == TemperatureUnit::celsius ? temperature.value() : temperature.value() * 1.8 + 32;
    return words::number(shown, 2) + QChar{0x00A0} + words::unitName(unit);
}

const ThermometerCheck* before(const std::vector<ThermometerCheck>& all, const ThermometerCheck& check) {
    const ThermometerCheck* found = nullptr;
    for (const auto& other : all) {
        if (other.kind == check.kind && other.when.at < check.when.at &&
            (found == nullptr || other.when.at > found->when.at)) {
            found = &other;
        }
    }
    return found;
}

QDate dateOf(Moment moment) {
    const WallTime wall = wallTimeOf(moment);
    return {wall.year, wall.month, wall.day};
}

/// "0.5 °C high in ice", "right in ice"
QString errorIn(const ThermometerCheck& check, TemperatureUnit unit) {
    const Kelvins error = errorOf(check);
    const bool isIce = check.kind == CheckKind::ice;
    if (isNothing(error, unit)) {
        return isIce ? tr("right in ice") : tr("right in boiling water");
    }
    const QString size = degreesOf(error, unit);
    if (error > Kelvins{}) {
        return (isIce ? tr("%1 high in ice") : tr("%1 high in boiling water")).arg(size);
    }
    return (isIce ? tr("%1 low in ice") : tr("%1 low in boiling water")).arg(size);
}

}  // namespace

Celsius truthOf(const ThermometerCheck& check) {
    return check.kind == CheckKind::ice ? Celsius{}
                                        : Celsius::ofParts(std::llround(boilingPointCelsius(check) * 90'000));
}

Kelvins errorOf(const ThermometerCheck& check) {
    return toCelsius(check.read) - truthOf(check);
}

QString errorWords(const ThermometerCheck& check, const Telling& telling) {
    return tr("reads %1").arg(errorIn(check, telling.unit));
}

QString correctionWords(const Correction& correction, const Telling& telling) {
    if (correction.factor == 1) {
        return isNothing(correction.zero, telling.unit)
                   ? tr("not corrected")
                   : tr("corrected by %1").arg(signedDegrees(-correction.zero, telling.unit));
    }
    // Shown where it matters: at the level most rules ask for.
    constexpr Celsius usual = Celsius::ofTenThousandths(550'000);
    // To a hundredth: two points often differ by less than a tenth there.
    return tr("corrected from both points: %1 becomes %2")
        .arg(hundredths(usual, telling.unit), hundredths(correction.corrected(usual), telling.unit));
}

QString stateWords(const std::vector<ThermometerCheck>& all, const Telling& telling) {
    const ThermometerCheck* last = newest(all);
    if (last == nullptr) {
        return tr("No check yet: its readings are taken as they were typed.");
    }
    const Instant since = std::min(last->when.at, last->appliesFrom.value_or(last->when.at));
    const ThermometerCheck* other = newest(all, last->kind == CheckKind::ice ? CheckKind::boiling : CheckKind::ice);
    const QString errors = other == nullptr
                               ? errorIn(*last, telling.unit)
                               : tr("%1 and %2").arg(errorIn(*last, telling.unit), errorIn(*other, telling.unit));
    return tr("Reads %1; readings from %2 on are %3.")
        .arg(errors, typedDay(telling.zone.momentAt(since)),
             correctionWords(Calibration{all}.inForce(last->when.at), telling));
}

QString driftWords(const std::vector<ThermometerCheck>& all, const Telling& telling) {
    const ThermometerCheck* last = newest(all);
    const ThermometerCheck* earlier = last == nullptr ? nullptr : before(all, *last);
    if (earlier == nullptr) {
        return {};
    }
    const Kelvins drift = errorOf(*last) - errorOf(*earlier);
    const QString day = typedDay(earlier->when);
    if (isNothing(drift, telling.unit)) {
        return tr("No drift since the check before, %1.").arg(day);
    }
    return (drift > Kelvins{} ? tr("It reads %1 higher than at the check before, %2.")
                              : tr("It reads %1 lower than at the check before, %2."))
        .arg(degreesOf(drift, telling.unit), day);
}

QString overdueWords(const std::vector<ThermometerCheck>& all, const Telling& telling) {
    const ThermometerCheck* last = newest(all);
    if (last == nullptr) {
        return tr("Due: never checked. Once a year is the least (Bioabfallverordnung § 3(6), written for plants).");
    }
    if (dateOf(last->when).addYears(1) >= dateOf(telling.now)) {
        return {};
    }
    return tr("Overdue: last checked %1. Once a year is the least (Bioabfallverordnung § 3(6), written for plants).")
        .arg(typedDay(last->when));
}

QString overdueSource() {
    return tr(
        "Bioabfallverordnung (Germany), § 3(6): thermometers of composting plants are calibrated at least once a "
        "year, and the calibration is written down.");
}

}  // namespace midden::ui::checks
