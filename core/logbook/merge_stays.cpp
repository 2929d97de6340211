// SPDX-License-Identifier: GPL-3.0-or-later
// Merging where batches stood: first what shall be is worked out for all of them, then it is written, so that the order
// of the batches and of the copies makes no difference.
#include <algorithm>

#include "core/logbook/merger.h"

namespace midden {

namespace {

/// Since, and the bin's shared key.
std::map<std::int64_t, std::string> staysOf(const MergeSide& side, const EntryName& batch) {
    std::map<std::int64_t, std::string> stays;
    Query query{side.file, "SELECT since, bin FROM stay WHERE batch = ?"};
    query.with(side.keys.idOf("batch", batch.name));
    while (query.next()) {
        stays[query.number(0)] = side.keys.sharedKey("bin", query.number(1));
    }
    return stays;
}

/// The amendment by which a copy took this stay back.
const Change* takenBack(const MergeSide& side, const EntryName& batch, std::int64_t since, const std::string& bin) {
    for (const Change& change : side.historyOf(batch)) {
        if (change.was && change.was->contains("since") && (*change.was)["since"] == since &&
            (*change.was)["bin"] == bin) {
            return &change;
        }
    }
    return nullptr;
}

Interval startAndFinish(DatabaseFile& file, std::optional<std::int64_t> batch) {
    Query query{file, "SELECT started, ifnull(finished, 9223372036854775807) FROM batch WHERE id = ?"};
    query.with(batch);
    query.next();
    return {{query.number(0)}, {query.number(1)}};
}

bool nobodyGaveStart(const MergeSide& side, const EntryName& batch) {
    Query query{side.file, "SELECT start_given = 0 FROM batch WHERE id = ?"};
    query.with(side.keys.idOf("batch", batch.name));
    return query.next() && query.number(0) != 0;
}

Changes changesAt(const MergeSide& side, const EntryName& batch, std::int64_t since) {
    Changes changes;
    for (const Change& change : side.historyOf(batch)) {
        if (change.was && change.was->contains("since") && (*change.was)["since"] == since) {
            changes.push_back(change);
        }
    }
    return changes;
}

Json asJson(const EntryName& batch, std::int64_t since, const std::string& bin) {
    return {{"batch", batch.name}, {"since", since}, {"bin", bin}};
}

}  // namespace

void Merger::mergeStays() {
    std::vector<StayPlan> plans;
    for (const EntryName& batch : theirs_.entriesOf(EntryKind::batch)) {
        plans.push_back(planStays(batch));
        dropImpossibleStays(plans.back());
    }
    // Deletions first: a bin may be free again for another batch at that very instant.
    for (const StayPlan& plan : plans) {
        removeStays(plan);
    }
    for (const StayPlan& plan : plans) {
        insertStays(plan);
    }
    holdPen({});
}

/// After a start that nobody gave. Called before the plans are made.
void Merger::moveFirstStay(const EntryName& batch, Instant start) {
    Query{state_.file,
          "UPDATE stay SET since = ?2 WHERE batch = ?1 AND since > ?2 "
          "AND since = (SELECT min(since) FROM stay WHERE batch = ?1)"}
        .with(ours_.keys.idOf("batch", batch.name), start)
        .run();
}

/// The stays of both copies, but for those that either took back; the one at the start is always there.
Merger::StayPlan Merger::planStays(const EntryName& batch) {
    StayPlan plan{batch, {}, {}};
    const Instant start = startAndFinish(state_.file, ours_.keys.idOf("batch", batch.name)).from;
    const auto ours = staysOf(ours_, batch);
    auto theirs = staysOf(theirs_, batch);
    if (!theirs.empty() && nobodyGaveStart(ours_, batch) && nobodyGaveStart(theirs_, batch)) {
        auto first = theirs.extract(theirs.begin());
        first.key() = start.utcSeconds;
        theirs.insert(std::move(first));
    }
    for (const auto& [since, bin] : ours) {
        const Change* gone = takenBack(theirs_, batch, since, bin);
        if (gone == nullptr || theirs.contains(since) || Instant{since} == start) {
            plan.stays[since] = bin;
        } else {
            plan.keys[since] = gone->key;
        }
    }
    for (const auto& [since, bin] : theirs) {
        const bool isWanted =
            Instant{since} == start || broughtBack_.contains(batch) || takenBack(ours_, batch, since, bin) == nullptr;
        if (!ours.contains(since) && isWanted) {
            plan.stays[since] = bin;
        } else if (ours.contains(since) && ours.at(since) != bin) {
            chooseBin(plan, since, bin);
        }
    }
    return plan;
}

/// The copies differ on the bin at that instant: settled like any other entry.
void Merger::chooseBin(StayPlan& plan, std::int64_t since, const std::string& theirBin) {
    const std::string ourBin = plan.stays.at(since);
    const auto [theirsStands, key] =
        settle(plan.batch, {asJson(plan.batch, since, ourBin), asJson(plan.batch, since, theirBin),
                            changesAt(ours_, plan.batch, since), changesAt(theirs_, plan.batch, since)});
    if (theirsStands) {
        plan.stays[since] = theirBin;
        plan.keys[since] = key;
    }
}

/// When one copy's start or finish gave way to the other's, its stays outside them go.
void Merger::dropImpossibleStays(StayPlan& plan) {
    const Interval within = startAndFinish(state_.file, ours_.keys.idOf("batch", plan.batch.name));
    for (auto stay = plan.stays.begin(); stay != plan.stays.end();) {
        const auto& [since, bin] = *stay;
        if (within.from <= Instant{since} && Instant{since} <= within.to) {
            ++stay;
            continue;
        }
        plan.keys[since] = noteDropped(plan.batch, asJson(plan.batch, since, bin));
        stay = plan.stays.erase(stay);
    }
}

void Merger::removeStays(const StayPlan& plan) {
    for (const auto& [since, bin] : staysOf(ours_, plan.batch)) {
        const auto planned = plan.stays.find(since);
        if (planned == plan.stays.end() || planned->second != bin) {
            holdPen(plan.keys.at(since));
            Query{state_.file, "DELETE FROM stay WHERE batch = ? AND since = ?"}
                .with(ours_.keys.idOf("batch", plan.batch.name), since)
                .run();
        }
    }
}

void Merger::insertStays(const StayPlan& plan) {
    const auto present = staysOf(ours_, plan.batch);
    for (const auto& [since, bin] : plan.stays) {
        if (present.contains(since)) {
            continue;
        }
        const auto binId = ours_.keys.idOf("bin", bin);
        Query taken{state_.file,
                    "SELECT b.name FROM stay s JOIN batch b ON b.id = s.batch WHERE s.bin = ? AND s.since = ?"};
        taken.with(binId, since);
        if (taken.next()) {
            refuse("the copies have different batches come to one bin at " + isoUtc({since}) + "; one of them is “" +
                   taken.text(0) + "”: give both the same name, or correct one start");
        }
        Query{state_.file, "INSERT INTO stay(batch, since, bin) VALUES (?, ?, ?)"}
            .with(ours_.keys.idOf("batch", plan.batch.name), since, binId)
            .run();
    }
}

}  // namespace midden
