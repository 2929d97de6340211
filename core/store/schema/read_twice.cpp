// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/schema/read_twice.h"

#include <algorithm>
#include <memory>
#include <optional>
#include <vector>

namespace midden {

namespace {

/// A series and its first reading.
struct Start {
    Instant first;
    std::int64_t series = 0;

    auto operator<=>(const Start&) const = default;
};

std::vector<Start> startsOf(DatabaseFile& file, std::span<const std::int64_t> series) {
    std::vector<Start> starts;
    Query query{file, "SELECT at FROM reading WHERE series = ? ORDER BY at LIMIT 1"};
    for (const auto id : series) {
        query.again();
        query.with(id);
        if (query.next()) {
            starts.push_back({{query.number(0)}, id});
        }
    }
    std::sort(starts.begin(), starts.end());
    return starts;
}

/// One series on the way through its readings.
class Cursor {
  public:
    Cursor(DatabaseFile& file, Start start)
        : query_{file, "SELECT at FROM reading WHERE series = ? AND at >= ? ORDER BY at"}, series_{start.series} {
        seek(start.first);
    }

    Instant at() const { return at_; }

    /// To the next reading, past those before `until`; false when none is left.
    bool moveOn(Instant until) {
        constexpr int steps = 8;  // beyond so many a search is cheaper
        for (int i = 0; i < steps; ++i) {
            if (!step() || at_ >= until) {
                return !atEnd_;
            }
        }
        return seek(until);
    }

  private:
    bool step() {
        atEnd_ = !query_.next();
        at_ = atEnd_ ? at_ : Instant{query_.number(0)};
        return !atEnd_;
    }
    bool seek(Instant from) {
        query_.again();
        query_.with(series_, from);
        return step();
    }

    Query query_;
    std::int64_t series_;
    Instant at_;
    bool atEnd_ = false;
};

constexpr auto isLater = [](const std::unique_ptr<Cursor>& a, const std::unique_ptr<Cursor>& b) {
    return a->at() > b->at();
};

/// Walks all series side by side, in time order. A series is opened when the walk comes to its first reading.
class Walk {
  public:
    Walk(DatabaseFile& file, std::vector<Start> starts) : file_{file}, starts_{std::move(starts)} {}

    std::vector<Instant> twice(std::size_t most) {
        std::vector<Instant> found;
        std::optional<Instant> before;
        while (found.size() < most && openUpTo()) {
            auto cursor = take();
            const Instant at = cursor->at();
            if (before == at && (found.empty() || found.back() != at)) {
                found.push_back(at);
            }
            before = at;
            const auto next = nextOfOthers();
            if (next && cursor->moveOn(*next)) {
                put(std::move(cursor));
            }
        }
        return found;
    }

  private:
    /// False when no reading is left.
    bool openUpTo() {
        while (next_ < starts_.size() && (open_.empty() || starts_[next_].first <= open_.front()->at())) {
            put(std::make_unique<Cursor>(file_, starts_[next_++]));
        }
        return !open_.empty();
    }
    /// Where the others go on; none when one series alone is left, which has no reading twice.
    std::optional<Instant> nextOfOthers() const {
        std::optional<Instant> next;
        if (!open_.empty()) {
            next = open_.front()->at();
        }
        if (next_ < starts_.size()) {
            next = std::min(next.value_or(starts_[next_].first), starts_[next_].first);
        }
        return next;
    }
    std::unique_ptr<Cursor> take() {
        std::pop_heap(open_.begin(), open_.end(), isLater);
        auto cursor = std::move(open_.back());
        open_.pop_back();
        return cursor;
    }
    void put(std::unique_ptr<Cursor> cursor) {
        open_.push_back(std::move(cursor));
        std::push_heap(open_.begin(), open_.end(), isLater);
    }

    DatabaseFile& file_;
    std::vector<Start> starts_;
    std::size_t next_ = 0;                       ///< first one not yet opened
    std::vector<std::unique_ptr<Cursor>> open_;  ///< a heap, earliest on top
};

}  // namespace

std::vector<Instant> readTwice(DatabaseFile& file, std::span<const std::int64_t> series, std::size_t most) {
    return series.size() < 2 ? std::vector<Instant>{} : Walk{file, startsOf(file, series)}.twice(most);
}

}  // namespace midden
