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
    Merger(Logbook::State& ours, Logbook::State& theirs) : state_{ours}, ours_{ours.file}, theirs_{theirs.file} {}

    MergeOutcome run();

  private:
    // merge_setup.cpp
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

    // merge.cpp
    void importAmendments();
    void importAmendment(const Change& change);
    void resolve(const EntryName& entry);
    void takeOver(const EntryName& entry, const Value& theirs);
    void shareBatch(const EntryName& batch, Value& ours, Value& theirs);
    void settle(const EntryName& entry, const Value& ours, const Value& theirs);
    void bringBack(const EntryName& entry, const Value& live, const std::vector<Change>& history);
    Change conflict(const EntryName& entry, const Value& loser, const Value& winner, Instant when);
    void holdPen(const std::string& key);
    void store(const EntryName& entry, const Value& from, const Value& to);

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
    std::set<EntryName> settled_;
    MergeOutcome outcome_;
};

}  // namespace midden
