// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <functional>
#include <optional>
#include <span>
#include <utility>
#include <vector>

#include "core/exchange/csv/refusal.h"
#include "core/exchange/staging/staged_readings.h"

namespace midden {

/// The rows that belong to one place of the book.
struct PlacedRows {
    struct Part {
        std::size_t list = 0;
        std::function<bool(Instant)> belongs = {};  ///< which of them; empty = all
    };
    /// What came out of its stream when it was stored.
    struct Seen {
        std::int64_t count = 0;
        Instant first;
        Instant last;
    };
    std::vector<Part> parts;
    std::vector<StagedNote> notes;
    Seen seen = {};
};

/// Runs of rows of which each begins where the one before has ended, read a block at a time.
class RunChain {
  public:
    /// One run, and which rows of it are wanted.
    struct Link {
        const SortedRun* run;
        const std::function<bool(Instant)>* belongs;
    };

    RunChain(const StagedRows& rows, std::vector<Link> links, std::size_t blockLength)
        : rows_{&rows}, links_{std::move(links)}, blockLength_{blockLength} {}

    /// What is at hand; empty at the end, once `fill` was called.
    std::span<StagedReading> block() const { return block_; }
    /// Brings the next rows when none are at hand.
    void fill();
    void drop(std::size_t count) { block_ = block_.subspan(count); }

  private:
    void readMore();

    const StagedRows* rows_;
    std::vector<Link> links_;
    std::size_t blockLength_;
    std::size_t link_ = 0;
    std::size_t done_ = 0;  ///< rows of the present link read so far
    std::vector<StagedReading> buffer_;
    std::span<StagedReading> block_;
};

/// The rows of one place of the book, in time order and one an instant, a block at a time. Equal values at one instant
/// are one reading; a second value is refused, with both lines named.
class RowStream {
  public:
    RowStream(const StagedRows& staged, const PlacedRows& placed, const std::vector<StagedColumn>& columns);
    RowStream(const RowStream&) = delete;
    RowStream& operator=(const RowStream&) = delete;
    ~RowStream() = default;

    /// At most this many rows come at once.
    static constexpr std::size_t blockLength = 65'536;
    /// The next rows; none at the end. They stay until the next call.
    FileResult<std::span<const StagedReading>> next();

  private:
    std::span<StagedReading> nextInOrder();
    std::span<StagedReading> merged();
    void takeFrom(RunChain& chain, const StagedReading& ofAnother);

    const std::vector<StagedColumn>& columns_;
    std::vector<RunChain> chains_;
    std::vector<RunChain*> open_;  ///< those with rows left: a heap, the one with the earliest row first
    std::vector<StagedReading> merged_;
    std::optional<StagedReading> before_;
};

}  // namespace midden
