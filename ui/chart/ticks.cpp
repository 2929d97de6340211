// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/chart/ticks.h"

#include <QDate>
#include <QLocale>
#include <QTime>
#include <algorithm>
#include <array>
#include <cmath>

#include "ui/shared/words.h"

namespace midden::ui {

namespace {

enum class Beat { minutes, days, months };
struct Step {
    Beat beat;
    int count;
    double seconds;  ///< about
};
constexpr double day = 86'400;
constexpr double month = 30.4 * day;
constexpr std::array steps{
    Step{Beat::minutes, 1, 60},         Step{Beat::minutes, 5, 300},          Step{Beat::minutes, 15, 900},
    Step{Beat::minutes, 30, 1'800},     Step{Beat::minutes, 60, 3'600},       Step{Beat::minutes, 120, 7'200},
    Step{Beat::minutes, 180, 10'800},   Step{Beat::minutes, 360, 21'600},     Step{Beat::minutes, 720, 43'200},
    Step{Beat::days, 1, day},           Step{Beat::days, 2, 2 * day},         Step{Beat::days, 7, 7 * day},
    Step{Beat::days, 14, 14 * day},     Step{Beat::months, 1, month},         Step{Beat::months, 3, 3 * month},
    Step{Beat::months, 6, 6 * month},   Step{Beat::months, 12, 12 * month},   Step{Beat::months, 24, 24 * month},
    Step{Beat::months, 60, 60 * month}, Step{Beat::months, 120, 120 * month}, Step{Beat::months, 240, 240 * month}};

/// Days since 1970-01-01 of a calendar date.
std::int64_t dayNumber(const WallTime& wall) {
    const WallTime midnight{wall.year, wall.month, wall.day};
    return instantOf(midnight, {}).utcSeconds / 86'400;
}

WallTime dateOfDay(std::int64_t number) {
    return wallTimeOf({Instant{number * 86'400}, {}});
}

QDate qtDate(const WallTime& wall) {
    return {wall.year, wall.month, wall.day};
}

/// The first instant of a local day; a few zones skip midnight itself when their clocks go forward.
Instant startOfDay(const TimeZone& zone, WallTime wall) {
    for (wall.hour = 0; wall.hour < 3; ++wall.hour) {
        const WallMeaning meaning = zone.meaningOf(wall);
        if (const auto* moment = std::get_if<Moment>(&meaning)) {
            return moment->at;
        }
        if (const auto* two = std::get_if<TwoTimes>(&meaning)) {
            return two->earlier.at;
        }
    }
    return instantOf(wall, {});
}

QString utcWords(UtcOffset offset) {
    const int hoursAhead = offset.minutes / 60;
    const int minutesMore = std::abs(offset.minutes % 60);
    const QString sign = offset.minutes < 0 ? QStringLiteral("−") : QStringLiteral("+");
    const QString minuteWords =
        minutesMore == 0 ? QString{} : QStringLiteral(":%1").arg(minutesMore, 2, 10, QLatin1Char{'0'});
    return QStringLiteral("UTC%1%2%3").arg(sign).arg(std::abs(hoursAhead)).arg(minuteWords);
}

class TickMaker {
  public:
    TickMaker(const ChartView& view, Step step) : view_{view}, step_{step} {}

    std::vector<ChartTick> make() {
        const std::int64_t first = dayNumber(wallTimeOf(view_.zone.momentAt(view_.visible.from)));
        const std::int64_t last = dayNumber(wallTimeOf(view_.zone.momentAt(view_.visible.to)));
        switch (step_.beat) {
            case Beat::minutes:
                for (auto number = first; number <= last; ++number) {
                    addMinutesOf(number);
                }
                break;
            case Beat::days:
                for (auto number = first; number <= last; ++number) {
                    addDay(number);
                }
                break;
            case Beat::months:
                addMonths(dateOfDay(first), dateOfDay(last));
                break;
        }
        std::ranges::sort(ticks_, {}, &ChartTick::value);
        return std::move(ticks_);
    }

  private:
    bool isVisible(Instant at) const { return at >= view_.visible.from && at <= view_.visible.to; }

    void add(Instant at, const QString& label) {
        if (isVisible(at)) {
            ticks_.push_back({static_cast<double>(at.utcSeconds), label});
        }
    }

    void addMinutesOf(std::int64_t number) {
        WallTime wall = dateOfDay(number);
        for (int minute = 0; minute < 24 * 60; minute += step_.count) {
            wall.hour = minute / 60;
            wall.minute = minute % 60;
            const QString label = QLocale{}.toString(qtDate(wall), QStringLiteral("ddd d MMM")) + QLatin1Char{' '} +
                                  QLocale{}.toString(QTime{wall.hour, wall.minute}, QStringLiteral("HH:mm"));
            const WallMeaning meaning = view_.zone.meaningOf(wall);
            if (const auto* moment = std::get_if<Moment>(&meaning)) {
                add(moment->at, label);
            } else if (const auto* two = std::get_if<TwoTimes>(&meaning)) {
                addTwice(*two, label);
            }
        }
    }

    void addTwice(const TwoTimes& two, const QString& label) {
        const auto worded = [&](Moment moment) { return label + QLatin1Char{' '} + utcWords(moment.offset); };
        add(two.earlier.at, worded(two.earlier));
        if (step_.count <= 60) {
            add(two.later.at, worded(two.later));
        }
    }

    void addDay(std::int64_t number) {
        // 1970-01-05 was a Monday: weeks begin there.
        if ((number - 4) % step_.count != 0) {
            return;
        }
        const WallTime wall = dateOfDay(number);
        const Instant start = startOfDay(view_.zone, wall);
        if (!isVisible(start)) {
            return;
        }
        const bool longView = view_.visible.length() > days(300);
        const bool sayYear = longView || wall.year != yearSaid_;
        yearSaid_ = wall.year;
        const auto format = sayYear ? QStringLiteral("d MMM yyyy") : QStringLiteral("d MMM");
        add(start, QLocale{}.toString(qtDate(wall), format));
    }

    void addMonths(const WallTime& first, const WallTime& last) {
        const int end = last.year * 12 + last.month - 1;
        const auto format = step_.count >= 12 ? QStringLiteral("yyyy") : QStringLiteral("MMM yyyy");
        for (int number = first.year * 12 + first.month - 1; number <= end; ++number) {
            if (number % step_.count == 0) {
                const WallTime wall{number / 12, number % 12 + 1, 1};
                add(startOfDay(view_.zone, wall), QLocale{}.toString(qtDate(wall), format));
            }
        }
    }

    const ChartView& view_;
    Step step_;
    std::vector<ChartTick> ticks_;
    int yearSaid_ = -1;
};

bool standClear(const std::vector<ChartTick>& ticks, const ChartView& view) {
    const double pixelsPerSecond = view.width / static_cast<double>(view.visible.length().count);
    for (std::size_t i = 1; i < ticks.size(); ++i) {
        const double room = (ticks[i].value - ticks[i - 1].value) * pixelsPerSecond;
        const double words = (view.textWidth(ticks[i].label) + view.textWidth(ticks[i - 1].label)) / 2;
        if (room < words + view.textWidth(QStringLiteral("00"))) {
            return false;
        }
    }
    return true;
}

}  // namespace

std::vector<ChartTick> timeTicks(const ChartView& view) {
    const double narrowest = view.textWidth(QStringLiteral("0000"));
    std::vector<ChartTick> ticks;
    for (const Step& step : steps) {
        const double apart = step.seconds * view.width / static_cast<double>(view.visible.length().count);
        if (apart < narrowest) {
            continue;
        }
        ticks = TickMaker{view, step}.make();
        if (standClear(ticks, view)) {
            break;
        }
    }
    return ticks;
}

std::vector<ChartTick> temperatureTicks(double lowestCelsius, double highestCelsius, TemperatureUnit unit) {
    const bool fahrenheit = unit == TemperatureUnit::fahrenheit;
    const auto shown = [&](double celsius) { return fahrenheit ? celsius * 1.8 + 32 : celsius; };
    const auto celsiusOf = [&](double value) { return fahrenheit ? (value - 32) / 1.8 : value; };
    const double low = shown(lowestCelsius);
    const double high = shown(highestCelsius);
    double step = 5;
    for (const double wider : {10.0, 20.0, 50.0, 100.0}) {
        if ((high - low) / step > 9) {
            step = wider;
        }
    }
    std::vector<ChartTick> ticks;
    const double slack = step / 1'000;
    const auto first = std::lround(std::ceil((low - slack) / step));
    const auto last = std::lround(std::floor((high + slack) / step));
    for (auto count = first; count <= last; ++count) {
        const double value = static_cast<double>(count) * step;
        ticks.push_back({celsiusOf(value), words::number(value, 0)});
    }
    return ticks;
}

}  // namespace midden::ui
