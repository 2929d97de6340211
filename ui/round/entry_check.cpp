// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/round/entry_check.h"

#include <QCoreApplication>
#include <cmath>

#include "core/store/read/book_rules.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

QString tr(const char* source) {
    return QCoreApplication::translate("entry", source);
}

std::int64_t tenThousandths(const Logbook& logbook, const Setting& setting) {
    return std::llround(settingNumber(logbook, setting) * 10'000);
}

QString jumpQuestion(Celsius now, Celsius last, const EntryContext& context) {
    const bool rises = now > last;
    const QString by = words::change(rises ? now - last : last - now, context.unit).remove(QLatin1Char{'+'}) +
                       QChar{0x00A0} + words::unitName(context.unit);
    return rises ? tr("%1 warmer than last time: is that right?").arg(by)
                 : tr("%1 colder than last time: is that right?").arg(by);
}

QString question(Celsius now, const EntryContext& context) {
    if (context.isOutside) {
        return {};
    }
    if (now > context.thresholds.above) {
        return tr("Above %1: is that right?").arg(words::withUnit(context.thresholds.above, context.unit));
    }
    const Kelvins jump = context.thresholds.jump;
    if (context.last && (now - *context.last > jump || *context.last - now > jump)) {
        return jumpQuestion(now, *context.last, context);
    }
    if (context.outside && *context.outside - now > context.thresholds.belowOutside) {
        return tr("Colder than the air outside: is that right?");
    }
    return {};
}

}  // namespace

UnlikelyThresholds unlikelyThresholdsOf(const Logbook& logbook) {
    UnlikelyThresholds thresholds;
    thresholds.jump = Kelvins::ofTenThousandths(tenThousandths(logbook, setting::unlikelyJump));
    thresholds.belowOutside = Kelvins::ofTenThousandths(tenThousandths(logbook, setting::unlikelyBelowOutside));
    thresholds.above = Celsius::ofTenThousandths(tenThousandths(logbook, setting::unlikelyAbove));
    return thresholds;
}

Entry readEntry(const QString& typed, const EntryContext& context) {
    QString plain = typed.trimmed();
    plain.replace(QChar{0x2212}, QLatin1Char{'-'});
    if (plain.isEmpty()) {
        return {};
    }
    const auto written = parseTemperature(plain.toStdString(), context.unit);
    if (!written) {
        return {.question = tr("Not saved: %1.").arg(words::text(written.error().sentence()))};
    }
    return {.written = *written, .question = question(toCelsius(*written), context)};
}

}  // namespace midden::ui
