// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shared/typed.h"

#include <QCoreApplication>
#include <QDate>
#include <QLocale>
#include <QRegularExpression>

namespace midden::ui {

namespace {

std::string tr(const char* words) {
    return QCoreApplication::translate("typed", words).toStdString();
}

QRegularExpressionMatch match(const char* pattern, const QString& text) {
    static QHash<QLatin1String, QRegularExpression> known;
    auto& expression = known[QLatin1String{pattern}];
    if (expression.pattern().isEmpty()) {
        expression = QRegularExpression{
            QRegularExpression::anchoredPattern(QLatin1String{pattern}),
            QRegularExpression::CaseInsensitiveOption | QRegularExpression::UseUnicodePropertiesOption};
    }
    return expression.match(text);
}

tl::unexpected<Problem> notATime(const QString& typed) {
    return refused("“" + typed.toStdString() + "” " + tr("is not a date"), tr("something such as 4 March 2026"));
}

WallTime withDate(const QDate& date, const WallTime& time) {
    return {date.year(), date.month(), date.day(), time.hour, time.minute, time.second};
}

/// 1 to 12, or 0 for a word that is no month here or in English.
int monthNamed(const QString& word) {
    const QString wanted = word.toLower();
    for (const QLocale& locale : {QLocale{}, QLocale::c()}) {
        for (int month = 1; month <= 12; ++month) {
            for (const auto format : {QLocale::LongFormat, QLocale::ShortFormat}) {
                const QString name = locale.monthName(month, format).toLower();
                if (name == wanted || name == wanted + QLatin1Char{'.'}) {
                    return month;
                }
            }
        }
    }
    return 0;
}

bool dayComesFirst() {
    const QString order = QLocale{}.dateFormat(QLocale::ShortFormat);
    return order.indexOf(QLatin1Char{'d'}) < order.indexOf(QLatin1Char{'M'});
}

/// Day and month alone: the latest such day up to today.
QDate latest(int month, int day, const QDate& today) {
    const QDate thisYear{today.year(), month, day};
    return thisYear.isValid() && thisYear > today ? QDate{today.year() - 1, month, day} : thisYear;
}

Result<QDate> dateFrom(int day, int month, const QString& year, const QDate& today) {
    if (year.size() == 2) {
        return refused(tr("the year has two digits"), tr("all four, such as 2026"));
    }
    const QDate date = year.isEmpty() ? latest(month, day, today) : QDate{year.toInt(), month, day};
    if (!date.isValid()) {
        return refused(tr("there is no such day"), tr("a day of the calendar"));
    }
    return date;
}

Result<QDate> readDate(const QString& typed, const QDate& today) {
    const QString text = typed.simplified();
    if (text.isEmpty() || text.toLower() == QString::fromStdString(tr("today"))) {
        return today;
    }
    if (text.toLower() == QString::fromStdString(tr("yesterday"))) {
        return today.addDays(-1);
    }
    if (const auto iso = match(R"((\d{4})-(\d{1,2})-(\d{1,2}))", text); iso.hasMatch()) {
        return dateFrom(iso.captured(3).toInt(), iso.captured(2).toInt(), iso.captured(1), today);
    }
    if (const auto named = match(R"((?:\p{L}{2,}\.?,? )?(\d{1,2})\.? (\p{L}+)\.?(?:,? (\d{2}|\d{4}))?)", text);
        named.hasMatch() && monthNamed(named.captured(2)) > 0) {
        return dateFrom(named.captured(1).toInt(), monthNamed(named.captured(2)), named.captured(3), today);
    }
    if (const auto digits = match(R"((\d{1,2})[./-](\d{1,2})(?:[./-](\d{2}|\d{4})?)?)", text); digits.hasMatch()) {
        const int first = digits.captured(1).toInt();
        const int second = digits.captured(2).toInt();
        const bool dayFirst = first > 12 || (second <= 12 && dayComesFirst());
        return dateFrom(dayFirst ? first : second, dayFirst ? second : first, digits.captured(3), today);
    }
    return notATime(typed);
}

Result<Moment> inZone(const WallTime& wall, const TimeZone& zone) {
    const WallMeaning meaning = zone.meaningOf(wall);
    if (const auto* moment = std::get_if<Moment>(&meaning)) {
        return *moment;
    }
    if (std::holds_alternative<NoSuchTime>(meaning)) {
        return refused(tr("the clocks went forward over that time"), tr("a time before or after the change"));
    }
    return refused(tr("the clocks went back, and that time happened twice"),
                   tr("its offset too, such as 2026-10-25 01:30+01:00"));
}

Result<Moment> notAhead(const Result<Moment>& moment, Moment now) {
    if (moment && moment->at > now.at + minutes(1)) {
        return refused(tr("that is still to come"), tr("a time up to now"));
    }
    return moment;
}

}  // namespace

Result<double> readAmount(const QString& typed) {
    const auto number = match(R"(\d{1,7}(?:[.,]\d{1,4})?)", typed.trimmed());
    if (!number.hasMatch()) {
        return refused(typed.trimmed().isEmpty() ? tr("no number yet")
                                                 : "“" + typed.trimmed().toStdString() + "” is not an amount",
                       tr("a number such as 4.5"));
    }
    return number.captured().replace(QLatin1Char{','}, QLatin1Char{'.'}).toDouble();
}

Result<WallTime> readWallTime(const QString& typed, const WallTime& now) {
    const auto parts = match(R"((.*?)[ T,]*(\d{1,2}):(\d{2})(?::(\d{2}))?)", typed.simplified());
    if (!parts.hasMatch()) {
        return refused(tr("the time of day is missing"), tr("something such as 4 March 08:10"));
    }
    const auto date = readDate(parts.captured(1), {now.year, now.month, now.day});
    if (!date) {
        return tl::unexpected{date.error()};
    }
    const WallTime wall = withDate(
        *date,
        {.hour = parts.captured(2).toInt(), .minute = parts.captured(3).toInt(), .second = parts.captured(4).toInt()});
    if (!isReal(wall)) {
        return notATime(typed);
    }
    return wall;
}

Result<Moment> readMoment(const QString& typed, const TimeZone& zone, Moment now) {
    if (const auto iso = parseIsoTime(typed.trimmed().toStdString()); iso && iso->hasOffset) {
        return notAhead(Moment{instantOf(iso->wall, iso->offset), iso->offset}, now);
    }
    const auto wall = readWallTime(typed, wallTimeOf(now));
    if (!wall) {
        return tl::unexpected{wall.error()};
    }
    return notAhead(inZone(*wall, zone), now);
}

Result<Moment> readDay(const QString& typed, const TimeZone& zone, Moment now) {
    if (typed.contains(QLatin1Char{':'})) {
        return readMoment(typed, zone, now);
    }
    const WallTime today = wallTimeOf(now);
    const auto date = readDate(typed, {today.year, today.month, today.day});
    if (!date) {
        return tl::unexpected{date.error()};
    }
    return notAhead(inZone(withDate(*date, {.hour = 0, .minute = 0, .second = 0}), zone), now);
}

QString typedDay(Moment moment) {
    const WallTime wall = wallTimeOf(moment);
    return QLocale{}.toString(QDate{wall.year, wall.month, wall.day}, QStringLiteral("d MMMM yyyy"));
}

QString typedForm(Moment moment) {
    const WallTime wall = wallTimeOf(moment);
    return typedDay(moment) +
           QStringLiteral(" %1:%2").arg(wall.hour, 2, 10, QLatin1Char{'0'}).arg(wall.minute, 2, 10, QLatin1Char{'0'});
}

}  // namespace midden::ui
