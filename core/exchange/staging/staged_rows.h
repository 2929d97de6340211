// SPDX-License-Identifier: GPL-3.0-or-later
// Rows of readings between file and book: parsed, put in order, not yet stored.
#pragma once

#include <memory>
#include <set>
#include <span>
#include <vector>

#include "core/exchange/csv/scratch_file.h"
#include "core/quantities/time.h"

namespace midden {

/// One row. Ordered by instant, then column, then line.
class StagedReading {
  public:
    /// At most this many columns can be told apart.
    static constexpr std::uint32_t mostColumns = 1U << 24U;

    StagedReading() = default;
    /// `at` from 1970 to 9999, which needs 38 bits.
    StagedReading(Instant at, std::uint32_t column, std::int32_t typed, std::uint32_t row)
        : tenThousandths{typed}, line{row}, key_{(static_cast<std::uint64_t>(at.utcSeconds) << 24U) | column} {}

    std::int32_t tenThousandths = 0;
    std::uint32_t line = 0;

    Instant at() const { return {static_cast<std::int64_t>(key_ >> 24U)}; }
    std::uint32_t column() const { return static_cast<std::uint32_t>(key_ & (mostColumns - 1)); }
    bool operator<(const StagedReading& other) const {
        return key_ != other.key_ ? key_ < other.key_ : line < other.line;
    }

  private:
    std::uint64_t key_ = 0;
};
static_assert(sizeof(StagedReading) == 16);

/// Rows in order that lie together: in memory, or in the scratch file.
struct SortedRun {
    std::vector<StagedReading> rows;  ///< empty = in the file, from `offset` on
    std::uint64_t offset = 0;
    std::size_t count = 0;
    StagedReading first;
    StagedReading last;
};

/// The rows of one place as they come, and those already in order.
struct RowList {
    std::vector<StagedReading> fresh;
    std::vector<SortedRun> runs;
    std::set<std::uint32_t> columns;  ///< that any of them has
};

/// Where rows may be kept until they are stored.
struct StagingRoom {
    std::filesystem::path scratchFolder = usualScratchFolder;
    std::size_t rowsInMemory = 524'288;  ///< 8 MiB; the rest goes into a scratch file
};

/// Any number of rows in any number of lists, with no more in memory than there is room for.
/// Throws LogbookError when the scratch folder has no room.
class StagedRows {
  public:
    explicit StagedRows(StagingRoom room = {}) : room_{std::move(room)} {}

    /// Makes one more list and says its number.
    std::size_t addList();
    void add(std::size_t list, StagedReading row) {
        auto& into = lists_[list];
        if (into.fresh.empty() || into.fresh.back().column() != row.column()) {
            into.columns.insert(row.column());
        }
        into.fresh.push_back(row);
        if (++inMemory_ >= room_.rowsInMemory) {
            putAway();
        }
    }
    /// Puts what is still in memory in order; to be called once, when all rows are there.
    void settle();

    const RowList& list(std::size_t number) const { return lists_[number]; }
    std::int64_t count() const;
    const StagingRoom& room() const { return room_; }
    /// Fills `into` with the rows of `run` from that one on.
    void read(const SortedRun& run, std::size_t from, std::span<StagedReading> into) const;

  private:
    void putAway();

    StagingRoom room_;
    std::vector<RowList> lists_;
    std::size_t inMemory_ = 0;
    std::shared_ptr<ScratchFile> scratch_;  ///< made when it is first needed
};

}  // namespace midden
