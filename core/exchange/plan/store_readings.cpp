// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/plan/store_readings.h"

#include <fmt/core.h>

#include <algorithm>
#include <set>
#include <unordered_map>

#include "core/exchange/plan/batch_stays.h"
#include "core/exchange/plan/store_entries.h"

namespace midden {

namespace {

using Rows = std::span<const StagedReading>;

/// Every row of a stream, a block at a time.
template <class Visit>
void visitBlocks(RowStream& stream, Visit visit) {
    for (auto rows = orRefuse(stream.next()); !rows.empty(); rows = orRefuse(stream.next())) {
        visit(rows);
    }
}

/// Stores the rows of one place.
class PlaceWriter {
  public:
    PlaceWriter(Logbook& logbook, const Place& place, PlacedRows& placed, const StagedReadings& staged,
                ImportOutcome& outcome)
        : logbook_{logbook}, place_{place}, placed_{placed}, staged_{staged}, outcome_{outcome} {
        for (const auto& note : placed.notes) {
            notes_.emplace(note.at.utcSeconds, note.text);
        }
    }

    void store(RowProgress& watch) {
        std::set<std::uint32_t> columns;
        for (const auto& part : placed_.parts) {
            columns.insert(staged_.rows.list(part.list).columns.begin(), staged_.rows.list(part.list).columns.end());
        }
        RowStream rows{staged_.rows, placed_, staged_.columns};
        if (columns.size() == 1) {
            storeColumn(*columns.begin(), rows, [&](Rows block) {
                see(block);
                watch.passed(std::ssize(block));
            });
        } else {
            storeByColumn(rows, watch);
        }
    }

  private:
    ImportCount& count() { return place_.isOutside() ? outcome_.outside : outcome_.readings; }

    void see(Rows rows) {
        auto& seen = placed_.seen;
        seen.first = seen.count == 0 ? rows.front().at() : seen.first;
        seen.last = rows.back().at();
        seen.count += std::ssize(rows);
    }

    ReadingColumn columnFor(std::uint32_t column) {
        const auto& staged = staged_.columns[column];
        ReadingColumn made;
        made.place = place_;
        made.unit = staged.unit;
        made.offset = staged.offset;
        if (!staged.probe.empty()) {
            made.probe = probeNamed(logbook_, staged.probe, outcome_);
        }
        return made;
    }

    /// Rows of several columns are sorted out first: the book wants those of each one together.
    void storeByColumn(RowStream& rows, RowProgress& watch) {
        StagedRows sorted{staged_.rows.room()};
        std::map<std::uint32_t, std::size_t> lists;
        visitBlocks(rows, [&](Rows block) {
            see(block);
            for (const auto& row : block) {
                const auto [list, isNew] = lists.try_emplace(row.column(), lists.size());
                sorted.add(isNew ? sorted.addList() : list->second, row);
            }
        });
        sorted.settle();
        for (const auto& [column, list] : lists) {
            RowStream ofOne{sorted, PlacedRows{{{list}}, {}}, staged_.columns};
            storeColumn(column, ofOne, [&](Rows block) { watch.passed(std::ssize(block)); });
        }
    }

    template <class See>
    void storeColumn(std::uint32_t column, RowStream& rows, See seen) {
        const auto shared = columnFor(column);
        visitBlocks(rows, [&](Rows block) {
            seen(block);
            storeBlock(shared, block);
        });
    }

    void storeBlock(const ReadingColumn& column, Rows rows) {
        slice_.clear();
        for (const auto& row : rows) {
            const auto note = notes_.empty() ? notes_.end() : notes_.find(row.at().utcSeconds);
            if (note == notes_.end()) {
                slice_.push_back({row.at(), row.tenThousandths});
            } else {
                storeNoted(column, row, note->second);
            }
        }
        const auto stored = logbook_.addReadings(column, slice_);
        if (stored.conflict) {
            refuseConflict(*stored.conflict, rows, staged_.columns);
        }
        count().added += stored.added;
        count().alreadyThere += stored.alreadyThere;
    }

    void storeNoted(const ReadingColumn& column, const StagedReading& row, const std::string& note) {
        const WrittenTemperature written{row.tenThousandths, column.unit};
        const auto stands = logbook_.reading({place_, row.at()});
        if (stands && toCelsius(stands->written) != toCelsius(written)) {
            refuseConflict({row.at(), stands->written}, {&row, 1}, staged_.columns);
        }
        if (stands) {
            ++count().alreadyThere;
            return;
        }
        Provenance provenance;
        provenance.source = column.source;
        logbook_.apply(Put<Reading>{{place_, {row.at(), column.offset}, written, column.probe, note, provenance}});
        ++count().added;
    }

    Logbook& logbook_;
    const Place& place_;
    PlacedRows& placed_;
    const StagedReadings& staged_;
    ImportOutcome& outcome_;
    std::unordered_map<std::int64_t, std::string> notes_;
    std::vector<RawReading> slice_;
};

/// Does the whole of what was seen lie inside one standing, or outside each of them?
bool isUndivided(const PlacedRows::Seen& seen, const std::vector<PlannedOccupancy>& occupancies) {
    return std::all_of(occupancies.begin(), occupancies.end(), [&](const PlannedOccupancy& occupancy) {
        const bool within = occupancy.from <= seen.first && seen.last < occupancy.until;
        return within || occupancy.until <= seen.first || seen.last < occupancy.from;
    });
}

/// How many of the rows, in time order, lie within it.
std::int64_t countWithin(const PlannedOccupancy& occupancy, Rows rows) {
    const auto isBefore = [](const StagedReading& row, Instant at) { return row.at() < at; };
    const auto from = std::lower_bound(rows.begin(), rows.end(), occupancy.from, isBefore);
    return std::lower_bound(from, rows.end(), occupancy.until, isBefore) - from;
}

}  // namespace

void storeReadings(Logbook& logbook, std::map<Place, PlacedRows>& places, const StagedReadings& staged,
                   ImportOutcome& outcome, RowProgress& watch) {
    for (auto& [place, placed] : places) {
        PlaceWriter{logbook, place, placed, staged, outcome}.store(watch);
    }
}

void refuseConflict(const ReadingConflict& conflict, Rows rows, const std::vector<StagedColumn>& columns) {
    const auto row = std::lower_bound(rows.begin(), rows.end(), conflict.at,
                                      [](const StagedReading& r, Instant at) { return r.at() < at; });
    const auto& column = columns[row->column()];
    refuseImport(
        tl::unexpected{Refusal{column.file,
                               row->line,
                               {fmt::format("{} here, but the logbook holds {} for the same place and time {}",
                                            writtenWithUnit({row->tenThousandths, column.unit}),
                                            writtenWithUnit(conflict.stands), isoLocal({conflict.at, column.offset})),
                                "the same value, or the wrong one corrected in the logbook first"}}});
}

void countByBatch(const Logbook& logbook, BatchId batch, const std::map<Place, PlacedRows>& places,
                  const StagedReadings& staged, ImportOutcome& outcome) {
    const auto batches = logbook.batches();
    for (const auto& [place, placed] : places) {
        if (place.isOutside() || placed.seen.count == 0) {
            continue;
        }
        const auto occupancies = batchStaysIn(batches, *place.bin);
        const auto count = [&](Rows rows, std::int64_t worth) {
            outcome.ofNoBatch += std::ssize(rows) * worth;
            for (const auto& occupancy : occupancies) {
                const auto within = countWithin(occupancy, rows) * worth;
                outcome.ofNoBatch -= within;
                outcome.ofOtherBatches += occupancy.batch == batch ? 0 : within;
            }
        };
        if (isUndivided(placed.seen, occupancies)) {
            const StagedReading any{placed.seen.first, 0, 0, 0};
            count({&any, 1}, placed.seen.count);
        } else {
            RowStream rows{staged.rows, placed, staged.columns};
            visitBlocks(rows, [&](Rows block) { count(block, 1); });
        }
    }
}

}  // namespace midden
