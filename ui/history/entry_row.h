// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>
#include <optional>
#include <variant>
#include <vector>

#include "core/store/logbook.h"
#include "ui/history/loaded_batch.h"

namespace midden::ui {

/// What can be asked for in the list of entries.
enum class RowKind { reading, outside, addition, aeration, observation, amendment, harvest };
constexpr int rowKinds = 7;

/// What tells one entry of a batch from all others, whatever else stands at the same second: a reading's place and
/// instant, any other entry's lasting name.
using EntryKey = std::variant<EntryId, ReadingId>;

/// A line of the list.
struct EntryRow {
    RowKind kind{};
    Moment when;
    std::variant<Reading, Addition, Aeration, Observation, Harvest, Amendment> entry;
    std::optional<Celsius> corrected;  ///< readings inside the batch only
    QString was;                       ///< what stood here before; empty = never amended
    bool late = false;                 ///< typed more than a day after the fact
};

/// Of an amendment, what the amended entry was known by before.
EntryKey keyOf(const EntryRow& row);
EntryKey keyOf(const Amendment& amendment);
/// The entry is gone since.
bool isWithdrawal(const Amendment& amendment);

/// Readings between two instants, the first included, newest first, each with what `amendments` say of it.
std::vector<EntryRow> readingRows(const Logbook& logbook, const LoadedBatch& batch, Interval within,
                                  const std::vector<Amendment>& amendments);
/// Everything else of the batch, newest first: additions, aerations, observations, harvests, and those amendments whose
/// entry was withdrawn or moved to another time.
std::vector<EntryRow> otherRows(const Logbook& logbook, const LoadedBatch& batch,
                                const std::vector<Amendment>& amendments);

/// "reading", "addition", "turned", "squeeze test: wet" … what the line is about.
QString whatOf(const EntryRow& row);
/// The position, "outside", or the bin.
QString whereOf(const EntryRow& row);
/// The number or value alone, units left to the column: "58.5", "4.2 kg".
QString valueOf(const EntryRow& row, TemperatureUnit unit);
QString whoOf(const EntryRow& row);
QString noteOf(const EntryRow& row);

}  // namespace midden::ui
