// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/plan/store_entries.h"

#include <fmt/core.h>

#include <algorithm>
#include <map>
#include <set>
#include <tuple>

#include "core/records/dated_entries.h"

namespace midden {

namespace {

/// What two entries of one kind must share to be one.
template <class E>
auto likenessOf(const E& entry) {
    return std::apply([&](const auto&... said) { return std::tuple{entry.when.at, said...}; }, sayingOf(entry));
}

/// Calls `add` for those of `rows` that `held` does not already have, counting identical ones.
template <class Entry, class Add>
ImportCount visitMissing(const std::vector<Entry>& held, const std::vector<Lined<Entry>>& rows, Add add) {
    std::map<decltype(likenessOf(std::declval<Entry>())), std::int64_t> unmatched;
    for (const auto& entry : held) {
        ++unmatched[likenessOf(entry)];
    }
    ImportCount count;
    for (const auto& [row, line] : rows) {
        auto& left = unmatched[likenessOf(row)];
        if (left > 0) {
            --left;
            ++count.alreadyThere;
            continue;
        }
        add(row);
        ++count.added;
    }
    return count;
}

template <class Add>
void visitMissingEntries(const Logbook& logbook, std::optional<BatchId> batch, const StagedImport& staged,
                         ImportOutcome& outcome, Add add) {
    if (staged.additions.empty() && staged.aerations.empty() && staged.observations.empty() &&
        staged.harvests.empty()) {
        return;
    }
    const auto held = batch ? logbook.recordSince(*batch, Instant{253'402'300'799}) : BatchRecord{};
    outcome.additions = visitMissing(held.additions, staged.additions, add);
    outcome.aerations = visitMissing(held.aerations, staged.aerations, add);
    outcome.observations = visitMissing(held.observations, staged.observations, add);
    outcome.harvests = visitMissing(held.harvests, staged.harvests, add);
}

std::string plusMinus(const std::optional<Kelvins>& accuracy) {
    return accuracy ? fmt::format("±{} °C", rounded(*accuracy, 4)) : "no accuracy";
}

void storeProbe(Logbook& logbook, const ImportRequest& request, const Lined<Probe>& lined, ImportCount& count) {
    const auto found = logbook.probeNamed(lined.row.name);
    if (!found) {
        logbook.apply(Put<Probe>{lined.row});
        ++count.added;
        return;
    }
    if (lined.row.accuracy && found->accuracy && found->accuracy != lined.row.accuracy) {
        refuseImport(
            tl::unexpected{Refusal{request.files.probes->string(),
                                   lined.line,
                                   {fmt::format("thermometer \"{}\" has {} here, but {} in the logbook", lined.row.name,
                                                plusMinus(lined.row.accuracy), plusMinus(found->accuracy)),
                                    "one accuracy for each thermometer"}}});
    }
    auto probe = *found;
    probe.accuracy = found->accuracy ? found->accuracy : lined.row.accuracy;
    probe.note = found->note.empty() ? lined.row.note : found->note;
    if (probe.accuracy == found->accuracy && probe.note == found->note) {
        ++count.alreadyThere;
        return;
    }
    logbook.apply(Amend<Probe>{found->id, probe, "import"});
    ++count.added;
}

bool agree(const ThermometerCheck& a, const ThermometerCheck& b) {
    return std::tie(a.read, a.altitudeMetres, a.pressureHectopascals) ==
           std::tie(b.read, b.altitudeMetres, b.pressureHectopascals);
}

/// `fresh` are the checks of this import. A file may tell of two at one time, as a book may that copies were merged
/// into; it may not contradict what the book says.
void storeCheck(Logbook& logbook, const ImportRequest& request, const Lined<StagedCheck>& lined,
                std::set<std::string>& fresh, ImportOutcome& outcome) {
    auto check = lined.row.check;
    check.probe = probeNamed(logbook, lined.row.probe, outcome);
    auto held = logbook.checks(check.probe);
    std::erase_if(held, [&](const ThermometerCheck& other) {
        return other.when.at != check.when.at || other.kind != check.kind;
    });
    const bool isThere = std::any_of(held.begin(), held.end(), [&](const ThermometerCheck& other) {
        const bool saysMore = other.note != check.note || other.appliesFrom != check.appliesFrom;
        return agree(other, check) && !(saysMore && fresh.contains(other.id.digits));
    });
    const auto same =
        std::find_if(held.begin(), held.end(), [&](const auto& other) { return !fresh.contains(other.id.digits); });
    if (isThere) {
        ++outcome.checks.alreadyThere;
    } else if (same == held.end()) {
        fresh.insert(std::get<EntryId>(logbook.apply(Put<ThermometerCheck>{check}).id).digits);
        ++outcome.checks.added;
    } else {
        refuseImport(
            tl::unexpected{Refusal{request.files.checks->string(),
                                   lined.line,
                                   {fmt::format("thermometer \"{}\" already has a check at that time that read {}",
                                                lined.row.probe, writtenWithUnit(same->read)),
                                    "one check of a kind at a time"}}});
    }
}

}  // namespace

ProbeId probeNamed(Logbook& logbook, const std::string& name, ImportOutcome& outcome) {
    if (const auto found = logbook.probeNamed(name)) {
        return found->id;
    }
    outcome.newProbes.push_back(name);
    Probe probe;
    probe.name = name;
    return std::get<ProbeId>(logbook.apply(Put<Probe>{probe}).id);
}

void storeProbes(Logbook& logbook, const ImportRequest& request, const StagedImport& staged, ImportOutcome& outcome) {
    for (const auto& probe : staged.probes) {
        storeProbe(logbook, request, probe, outcome.probes);
    }
}

void storeChecks(Logbook& logbook, const ImportRequest& request, const StagedImport& staged, ImportOutcome& outcome) {
    std::set<std::string> fresh;
    for (const auto& check : staged.checks) {
        storeCheck(logbook, request, check, fresh, outcome);
    }
}

void storeBatchEntries(Logbook& logbook, BatchId batch, const StagedImport& staged, ImportOutcome& outcome) {
    visitMissingEntries(logbook, batch, staged, outcome, [&](auto entry) {
        entry.batch = batch;
        logbook.apply(Put<decltype(entry)>{std::move(entry)});
    });
}

void countBatchEntries(const Logbook& logbook, std::optional<BatchId> batch, const StagedImport& staged,
                       ImportOutcome& outcome) {
    visitMissingEntries(logbook, batch, staged, outcome, [](const auto& /*entry*/) {});
}

}  // namespace midden
