// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <set>

#include "core/logbook/merge_side.h"
#include "core/logbook/state.h"

namespace midden {

/// Brings one copy of a book into another. Every value that gives way stays as an amendment; the amendments made here
/// have keys computed from what they say, so that both directions write the same ones.
class Merger {
  public:
    Merger(Logbook::State& ours, Logbook::State& theirs, const MergeDecision& decide)
        : state_{ours}, ours_{ours.file}, theirs_{theirs.file}, decide_{decide} {}

    MergeOutcome run();

  private:
    // merge_setup.cpp
    bool isUsed(MergeSide& side, const EntryName& entry) const;
    void withdrawSetUp(const EntryName& entry);
    void pairAll();
    void pair(const std::string& table);
    void insertMissing(EntryKind kind);
    void mergeCertificates();
    void mergeSettings();

    // merge_stays.cpp
    struct StayPlan {
        EntryName batch;
        std::map<std::int64_t, std::string> stays;  ///< since, and the shared key of the bin
        std::map<std::int64_t, std::string> keys;   ///< of the amendments by which others go
    };
    void mergeStays();
    void moveFirstStay(const EntryName& batch, Instant start);
    StayPlan planStays(const EntryName& batch);
    void chooseBin(StayPlan& plan, std::int64_t since, const std::string& theirBin);
    void dropImpossibleStays(StayPlan& plan);
    void removeStays(const StayPlan& plan);
    void insertStays(const StayPlan& plan);

    struct Sides {
        Value ours;
        Value theirs;
        Changes ourHistory;
        Changes theirHistory;
    };

    // merge.cpp
    void importAmendments();
    void importAmendment(const Change& change);
    void resolve(const EntryName& entry);
    void takeOver(const EntryName& entry, const Value& theirs);
    void resolveBoth(const EntryName& entry, Sides sides);
    void shareBatch(const EntryName& batch, Sides& sides);
    void resolveSetUp(const EntryName& entry, const Value& ours, const Value& theirs);
    void holdPen(const std::string& key);
    void store(const EntryName& entry, const Value& from, const Value& to);
    void count(EntryKind kind, std::int64_t entries = 1);

    // merge_settle.cpp
    struct Verdict {
        bool theirsStands;
        std::string key;  ///< of the amendment by which it came to stand
    };
    Verdict settle(const EntryName& entry, const Sides& sides);
    Verdict decideConflict(const EntryName& entry, const Sides& sides, bool theirsStands);
    MergeConflict inWordsOf(const EntryName& entry, const Sides& sides) const;
    std::string noteGivenWay(const EntryName& entry, const Value& loser, const Value& winner, const Sides& sides);
    std::string noteChoice(const EntryName& entry, const Value& from, const Value& to, const Sides& sides);
    std::string noteDropped(const EntryName& entry, const Value& dropped);
    std::string bringBack(const EntryName& entry, const Value& live, const Changes& history);

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
    std::set<EntryName> broughtBack_;
    MergeOutcome outcome_;
};

}  // namespace midden
