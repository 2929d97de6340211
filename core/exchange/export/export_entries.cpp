// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>
#include <tuple>

#include "core/exchange/csv/cells.h"
#include "core/exchange/csv/csv_writer.h"
#include "core/exchange/export/export_parts.h"
#include "core/records/dated_entries.h"

namespace midden {

namespace {

/// One file with a row for each entry, in an order that depends on the entries alone; no file for no entries.
template <class Entry, class Write>
void writeAll(const std::filesystem::path& file, std::string_view header, const std::vector<Entry>& entries,
              Write write) {
    if (entries.empty()) {
        return;
    }
    CsvWriter out{file, header};
    for (const auto& entry : entries) {
        write(out, entry);
    }
    out.close();
}

std::string yesNo(std::optional<bool> value) {
    return value ? (*value ? "yes" : "no") : "";
}

std::string cellOf(const std::string& text) {
    return guardedText(text);
}
std::string cellOf(double number) {
    return plainNumber(number);
}
std::string cellOf(std::optional<double> number) {
    return plainNumber(number);
}
std::string cellOf(std::optional<bool> answer) {
    return yesNo(answer);
}
template <class Enum>
requires std::is_enum_v<Enum> std::string cellOf(Enum value) {
    return std::string{wordFor(value)};
}

/// Does its column stand in the file of these entries?
template <class Entry, class T>
bool isShown(const EntryField<Entry, T>& field, const std::vector<Entry>& entries) {
    if constexpr (requires(T value) { value.has_value(); }) {
        return !field.isRare || std::any_of(entries.begin(), entries.end(),
                                            [&](const Entry& entry) { return (entry.*field.member).has_value(); });
    } else {
        return true;
    }
}

/// Entries of one instant have no order of their own; what they say gives them one.
template <class Entry, class Key>
std::vector<Entry> sorted(std::vector<Entry> entries, Key key) {
    std::sort(entries.begin(), entries.end(), [&](const Entry& a, const Entry& b) { return key(a) < key(b); });
    return entries;
}

template <class Entry>
void considerAll(ExportPlan& plan, BatchId batch, const std::vector<Entry>& entries) {
    for (const Entry& entry : entries) {
        considerStart(plan, batch, entry.when);
    }
}

void writeMoves(const ExportPlan& plan, const Batch& batch) {
    const std::vector<Stay> moves{batch.stays.begin() + 1, batch.stays.end()};
    const auto offset = startToSay(plan, batch) ? batch.started.offset : plan.earliest.at(batch.id).offset;
    writeAll(plan.batchFolder(batch.id) / "moves.csv", "time,bin", moves, [&](CsvWriter& out, const Stay& stay) {
        out.row({isoLocal({stay.since, offset}), guardedText(plan.binNames.at(stay.bin))});
    });
}

void writeCheck(CsvWriter& out, const ThermometerCheck& check, const std::string& probe) {
    const auto from = check.appliesFrom ? isoLocal({*check.appliesFrom, check.when.offset}) : std::string{};
    out.row({isoLocal(check.when), guardedText(probe), wordFor(check.kind), writtenNumber(check.read),
             check.read.unit == TemperatureUnit::celsius ? "c" : "f", plainNumber(check.altitudeMetres),
             plainNumber(check.pressureHectopascals), from, guardedText(check.note)});
}

/// In an order that depends on what they say alone, each once: import takes what says the same for one check.
std::vector<ThermometerCheck> checksToWrite(const ExportPlan& plan, const std::vector<Probe>& probes) {
    std::vector<ThermometerCheck> checks;
    for (const auto& probe : probes) {
        const auto own = plan.logbook.checks(probe.id);
        checks.insert(checks.end(), own.begin(), own.end());
    }
    const auto saying = [&](const ThermometerCheck& c) {
        return std::tuple{c.when,           plan.probeNames.at(c.probe), c.kind,        c.read,
                          c.altitudeMetres, c.pressureHectopascals,      c.appliesFrom, c.note};
    };
    auto written = sorted(checks, saying);
    const auto same = [&](const auto& a, const auto& b) { return saying(a) == saying(b); };
    written.erase(std::unique(written.begin(), written.end(), same), written.end());
    return written;
}

}  // namespace

void considerStart(ExportPlan& plan, BatchId batch, Moment when) {
    const auto [earliest, isFirst] = plan.earliest.try_emplace(batch, when);
    if (!isFirst && when.at < earliest->second.at) {
        earliest->second = when;
    }
}

bool startToSay(const ExportPlan& plan, const Batch& batch) {
    const auto earliest = plan.earliest.find(batch.id);
    return batch.startGiven || earliest == plan.earliest.end() || earliest->second.at != batch.started.at;
}

void exportEntries(ExportPlan& plan, const Batch& batch) {
    const auto record = plan.logbook.recordSince(batch.id, Instant{253'402'300'799});
    BatchEntries::each([&]<class E>() {
        const auto& entries = record.*EntryDescription<E>::list;
        std::string header = "time,";
        eachField<E>([&](const auto& field) {
            header += isShown(field, entries) ? std::string{field.csv} + "," : std::string{};
        });
        const auto saying = [](const E& entry) { return std::tuple_cat(std::tie(entry.when), sayingOf(entry)); };
        writeAll(plan.batchFolder(batch.id) / EntryDescription<E>::file, header + "note", sorted(entries, saying),
                 [&](CsvWriter& out, const E& entry) {
                     std::vector<std::string> cells{isoLocal(entry.when)};
                     eachField<E>([&](const auto& field) {
                         if (isShown(field, entries)) {
                             cells.push_back(cellOf(entry.*field.member));
                         }
                     });
                     cells.push_back(guardedText(entry.note));
                     out.row(std::vector<std::string_view>{cells.begin(), cells.end()});
                 });
        considerAll(plan, batch.id, entries);
    });
    writeMoves(plan, batch);
}

void exportThermometers(const ExportPlan& plan) {
    const auto probes = plan.logbook.probes();
    writeAll(plan.root / "probes.csv", "probe,accuracy,note", probes, [](CsvWriter& out, const Probe& probe) {
        const auto accuracy = probe.accuracy ? plainNumber(probe.accuracy->value()) : std::string{};
        out.row({guardedText(probe.name), accuracy, guardedText(probe.note)});
    });
    writeAll(plan.root / "checks.csv", "time,probe,kind,read,unit,altitude_m,pressure_hpa,applies_from,note",
             checksToWrite(plan, probes), [&](CsvWriter& out, const ThermometerCheck& check) {
                 writeCheck(out, check, plan.probeNames.at(check.probe));
             });
}

}  // namespace midden
