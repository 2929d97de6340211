// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shared/words.h"

#include <QCoreApplication>
#include <QDate>
#include <QLocale>

namespace midden::ui::words {

namespace {

QString tr(const char* source, int n = -1) {
    return QCoreApplication::translate("words", source, nullptr, n);
}

/// In ninety-thousandths of a degree of that unit.
std::int64_t partsIn(Celsius temperature, TemperatureUnit unit) {
    return unit == TemperatureUnit::celsius ? temperature.parts() : temperature.parts() * 9 / 5 + 32 * 90'000;
}

QDate dateOf(Moment moment) {
    const WallTime wall = wallTimeOf(moment);
    return {wall.year, wall.month, wall.day};
}

QString day(Moment moment, bool withYear) {
    return QLocale{}.toString(dateOf(moment),
                              withYear ? QStringLiteral("ddd d MMMM yyyy") : QStringLiteral("ddd d MMMM"));
}

}  // namespace

QString text(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

std::string utf8(const QString& text) {
    return text.toStdString();
}

QString localised(const std::string& number) {
    QString shown = text(number);
    shown.replace(QLatin1Char{'.'}, QLocale{}.decimalPoint());
    shown.replace(QLatin1Char{'-'}, QChar{0x2212});
    return shown;
}

QString number(double value, int decimals) {
    QLocale locale;
    locale.setNumberOptions(QLocale::OmitGroupSeparator);
    return locale.toString(value, 'f', decimals);
}

QString unitName(TemperatureUnit unit) {
    return unit == TemperatureUnit::celsius ? QStringLiteral("°C") : QStringLiteral("°F");
}

QString degrees(Celsius temperature, TemperatureUnit unit) {
    return localised(rounded(Celsius::ofParts(partsIn(temperature, unit)), 1));
}

QString change(Kelvins difference, TemperatureUnit unit) {
    const std::int64_t parts = unit == TemperatureUnit::celsius ? difference.parts() : difference.parts() * 9 / 5;
    const std::string number = rounded(Kelvins::ofParts(parts), 1);
    const bool rises = parts > 0 && number != "0.0";
    return (rises ? QStringLiteral("+") : QString{}) + localised(number);
}

QString withUnit(Celsius temperature, TemperatureUnit unit) {
    return degrees(temperature, unit) + QChar{0x00A0} + unitName(unit);
}

QString written(WrittenTemperature temperature) {
    return localised(writtenNumber(temperature)) + QChar{0x00A0} + unitName(temperature.unit);
}

QString lasting(Seconds duration) {
    const std::int64_t count = duration.count;
    if (count < 90 * 60) {
        return tr("%1 min").arg(count / 60);
    }
    if (count < 48 * 3'600) {
        return tr("%1 h").arg((count + 1'800) / 3'600);
    }
    return tr("%1 days").arg((count + 43'200) / 86'400);
}

QString ago(Seconds age) {
    return age.count < 60 ? tr("just now") : tr("%1 ago").arg(lasting(age));
}

QString wholeHours(Seconds duration) {
    return tr("%1 h").arg(duration.count / 3'600);
}

QString hoursOf(Seconds credited, Seconds target) {
    return tr("%1 of %2 h").arg(credited.count / 3'600).arg(number(target.hours(), target.count % 3'600 == 0 ? 0 : 1));
}

QString clockTime(Moment moment) {
    const WallTime wall = wallTimeOf(moment);
    return QStringLiteral("%1:%2").arg(wall.hour, 2, 10, QLatin1Char{'0'}).arg(wall.minute, 2, 10, QLatin1Char{'0'});
}

QString dayNear(Moment moment, Moment today) {
    return day(moment, dateOf(moment).year() != dateOf(today).year());
}

QString dayAndTime(Moment moment, Moment today) {
    return dayNear(moment, today) + QLatin1Char{' '} + clockTime(moment);
}

QString timeNear(Moment moment, Moment today) {
    const auto daysAhead = dateOf(today).daysTo(dateOf(moment));
    if (daysAhead == 0) {
        return tr("%1 today").arg(clockTime(moment));
    }
    if (daysAhead == 1) {
        return tr("%1 tomorrow").arg(clockTime(moment));
    }
    return tr("%1 on %2").arg(clockTime(moment), dayNear(moment, today));
}

QString kindOf(AerationKind kind) {
    switch (kind) {
        case AerationKind::turned:
            return tr("turned");
        case AerationKind::forked:
            return tr("forked");
        case AerationKind::poked:
            return tr("poked");
        case AerationKind::opened:
            return tr("lid open");
        case AerationKind::watered:
            return tr("watered");
        case AerationKind::other:
            return tr("other");
    }
    return {};
}

QString onButton(QString name) {
    return name.replace(QLatin1Char{'&'}, QStringLiteral("&&"));
}

QString onSeveralLines(const QString& text) {
    constexpr qsizetype longest = 80;
    QString lines;
    qsizetype length = 0;
    for (const QString& word : text.split(QLatin1Char{' '})) {
        const bool fits = length + word.size() < longest;
        lines += lines.isEmpty() ? QString{} : QString{QLatin1Char{fits ? ' ' : '\n'}};
        length = fits ? length + word.size() + 1 : word.size();
        lines += word;
    }
    return lines;
}

}  // namespace midden::ui::words
