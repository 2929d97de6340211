// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <set>

#include "core/store/merge/merge_side.h"
#include "core/store/state.h"

namespace midden {

constexpr const char* copiesDiffered = "two copies of the book differed";
/// Of a finish that stays in the book and does not count until a start lets it in again.
constexpr const char* finishedTooEarly = "finished in one copy before it began in the other";

/// Beside such a finish: the highest rank of its corrections, where it has any.
constexpr const char* rankOfFinish = "rank_of_finish";

/// Columns that are settled together.
using Fields = std::vector<std::string>;

/// Brings one copy of a book into another. Every value that gives way stays as an amendment; the amendments made here
/// have keys computed from what they say, so that both directions write the same ones.
class Merger {
  public:
    Merger(Logbook::State& ours, Logbook::State& theirs, const MergeDecision& decide)
        : state_{ours}, ours_{ours.file}, theirs_{theirs.file}, decide_{decide} {}

    MergeOutcome run();

  private:
    // merge_setup.cpp
    void pairAll();
    void pair(const std::string& table);
    void insertMissing(EntryKind kind);
    void mergeCertificates();
    void mergeMaterialsSince();
    void mergeSettings();

    // merge_moves.cpp
    void lookAtMoves();
    void mergeMoves();
    void mergeMovesOf(const EntryName& batch);
    void mergeMove(const EntryName& batch, std::int64_t since);
    void storeMove(const EntryName& batch, std::int64_t since, const Value& move);
    void mergeWithdrawnMove(const EntryName& batch, std::int64_t since, const Change& withdrawal);
    void noteIdle(const EntryName& batch);
    Value moveSaid(const MergeSide& side, const EntryName& batch, std::int64_t since) const;
    std::vector<const Change*> withdrawalsHeard(const EntryName& batch) const;
    void noteSharedArrivals();

    // merge_withdrawn.cpp
    const Change* withdrawalOf(const EntryName& entry) const;
    bool isUsed(const EntryName& entry) const;
    void carryOutWithdrawals(EntryKind kind);
    void withdrawSetUp(const EntryName& entry, const Change& by);
    void keepLastWords(const EntryName& batch);
    void bringBack(const EntryName& entry, const Change& withdrawal);

    struct Sides {
        Value ours;
        Value theirs;
        Changes ourHistory;
        Changes theirHistory;
        const Fields* only = nullptr;  ///< what is settled; nothing = the whole value
    };

    // merge.cpp
    void importAmendments();
    void importAmendment(const Change& change);
    void resolve(const EntryName& entry);
    void takeOver(const EntryName& entry, const Value& theirs);
    void resolveBoth(const EntryName& entry, const Sides& sides);
    void beginAudit(const std::string& key);
    void store(const EntryName& entry, const Value& from, const Value& to);
    void count(EntryKind kind, std::int64_t entries = 1);

    struct Verdict {
        bool theirsStands = false;
        std::string key;  ///< of the amendment by which it came to stand
    };

    // merge_batches.cpp
    struct Joined {
        Json value;
        std::string key;  ///< of the last amendment by which a part of it came to stand
    };
    bool isInBook(const MergeSide& side, const EntryName& batch) const;  ///< as it was before the merge
    void resolveBatch(const EntryName& batch, const Json& ours, const Json& theirs);
    struct TwoValues {
        const Json& ours;
        const Json& theirs;
    };
    void settleFields(const EntryName& batch, Joined& joined, const TwoValues& copies, const Fields& fields);
    void hearWithdrawn(const EntryName& batch, Joined& joined, const Fields& fields);
    void hearIdleFinish(const EntryName& batch, Joined& joined);
    bool isAnswered(const EntryName& batch, const Change& idleFinish) const;
    void dropEarlyFinish(const EntryName& batch, Joined& joined);

    // merge_settle.cpp
    Verdict settle(const EntryName& entry, const Sides& sides);
    Verdict decideConflict(const EntryName& entry, const Sides& sides, bool theirsStands);
    MergeConflict inWordsOf(const EntryName& entry, const Sides& sides) const;
    Value inNames(const Value& value) const;
    std::string noteGivenWay(const EntryName& entry, const Value& loser, const Value& winner, const Sides& sides,
                             const char* why = copiesDiffered);
    std::string noteChoice(const EntryName& entry, const Value& from, const Value& to, const Sides& sides);
    const Change* noteOf(const EntryName& entry, const Json& dropped, const char* why) const;
    std::string noteDropped(const EntryName& entry, const Json& dropped, const Value& instead = std::nullopt,
                            const char* why = copiesDiffered);

    // merge_rows.cpp
    void insertRow(const EntryName& entry, const Json& row);
    void updateRow(const EntryName& entry, const Json& row);
    void removeRow(const EntryName& entry);

    // merge_readings.cpp
    void mergeReadings();
    void mergeSeries(std::int64_t id, const ReadingColumn& column, const std::string& binKey);
    void storeReading(const EntryName& entry, const Value& from, const Value& to);

    Logbook::State& state_;
    MergeSide ours_;
    MergeSide theirs_;
    const MergeDecision& decide_;
    std::set<EntryName> settled_;
    std::set<EntryName> returned_;  ///< withdrawn here, but not there
    std::map<EntryName, Moves> countedBefore_;
    MergeOutcome outcome_;
};

}  // namespace midden
