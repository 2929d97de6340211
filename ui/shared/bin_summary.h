// SPDX-License-Identifier: GPL-3.0-or-later
// What a steward needs to know of a bin before reading on.
#pragma once

#include <QString>
#include <QStringList>
#include <optional>
#include <vector>

#include "core/quantities/zone.h"
#include "core/review/outlook.h"
#include "core/store/logbook.h"
#include "core/store/read/book_rules.h"

namespace midden::ui {

class Book;

/// The facts as they stand at one moment, without words.
struct BinSummary {
    Bin bin;
    std::optional<Batch> batch;  ///< no value: nothing stands in it
    bool isPending = false;      ///< being worked out: bin and batch are all that is known
    HoldTarget target;
    BinOutlook outlook;
    std::optional<FedStatus> fed;            ///< of a fed batch
    std::optional<Instant> lastRead;         ///< of any position
    std::vector<std::vector<Sample>> spark;  ///< of the core, or of what is read instead, broken at gaps
    Interval sparkSpan;
};

constexpr Seconds sparkLength = days(14);

/// As of the book's clock, which also says which batch stands there and bounds the spark. The target is the book's own.
BinSummary binSummary(const Book& book, const Bin& bin);

namespace words {

/// "heating up, 41.0 °C", "hot, 63.5 °C", "stalled: 31 h short", "empty"
QString phase(const BinSummary& summary, TemperatureUnit unit);
/// "31 h short", rounded up: never fewer hours than are missing.
QString shortBy(Seconds missing);
QString shortBy(const Stall& stall);
/// "52 of 72 h credited", "longest hold 64 of 72 h, 72 h as read", "72 h at 55.0 °C shown". Not of a fed batch, which
/// has no hold (fed_words.h).
QString credit(const BinSummary& summary, TemperatureUnit unit);
/// What is due, most pressing first: "read by 20:10 today or the hold breaks", "no reading for 41 h".
QStringList due(const BinSummary& summary, const TimeZone& zone, Moment now);

}  // namespace words

}  // namespace midden::ui
