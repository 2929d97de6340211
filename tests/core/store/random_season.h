// SPDX-License-Identifier: GPL-3.0-or-later
// Random seasons, and everything a book shows as text to compare.
#pragma once

#include <fmt/core.h>
#include <rapidcheck.h>

#include "tests/core/store/books.h"

namespace midden::trial {

inline std::string textOf(const std::optional<double>& value) {
    return value ? fmt::format("{}", *value) : "-";
}

inline std::string nameOf(const Logbook& book, BinId id) {
    for (const Bin& bin : book.bins()) {
        if (bin.id == id) {
            return bin.name;
        }
    }
    return "?";
}

inline std::string textOf(const Logbook& book, const BatchRecord& record) {
    std::string text = fmt::format("{} {} {} {} {}{}\n", record.batch.name, record.batch.started.at.utcSeconds,
                                   record.finished.value_or(Instant{-1}).utcSeconds, record.binName, record.batch.note,
                                   record.batch.fed ? " fed" : "");
    for (const Stay& stay : record.batch.stays) {
        text += fmt::format("stay {} {}\n", stay.since.utcSeconds, nameOf(book, stay.bin));
    }
    for (const Track& track : record.tracks) {
        for (const Sample& sample : track.samples) {
            text += fmt::format("{} {} {} {}\n", track.position, track.spotCheck, sample.at.utcSeconds,
                                sample.temperature().parts());
        }
    }
    for (const Addition& addition : record.additions) {
        text += fmt::format("added {} {} {} {} {}\n", addition.id.digits, addition.when.at.utcSeconds,
                            addition.material, addition.massKilograms, textOf(addition.moisturePercent));
    }
    for (const Aeration& aeration : record.aerations) {
        text += fmt::format("aerated {} {} {} {}\n", aeration.id.digits, aeration.when.at.utcSeconds,
                            static_cast<int>(aeration.kind), textOf(aeration.depthCentimetres));
    }
    for (const Observation& seen : record.observations) {
        text += fmt::format("seen {} {} {} {}\n", seen.id.digits, seen.when.at.utcSeconds, static_cast<int>(seen.kind),
                            seen.value);
    }
    for (const Harvest& harvest : record.harvests) {
        text += fmt::format("harvested {} {} {} {} {}\n", harvest.id.digits, harvest.when.at.utcSeconds,
                            harvest.volumeLitres, textOf(harvest.massKilograms), harvest.note);
    }
    for (const std::string& position : record.unreadPositions) {
        text += "unread " + position + "\n";
    }
    return text;
}

inline std::string probeName(const Logbook& book, std::optional<ProbeId> id) {
    for (const Probe& probe : book.probes()) {
        if (id == probe.id) {
            return probe.name;
        }
    }
    return "-";
}

inline std::string setUpText(const Logbook& book) {
    std::string text;
    for (const Bin& bin : book.bins()) {
        text += fmt::format("bin {} {} {}\n", bin.name, textOf(bin.volumeLitres), bin.note);
        text += fmt::format("inside {} {} {} {} {}\n", textOf(bin.heightCentimetres), textOf(bin.hatchTopCentimetres),
                            textOf(bin.ventSquareCentimetres), textOf(bin.ventRiseCentimetres),
                            textOf(bin.airChangesPerHour));
        for (const PlaceSetting& one : book.places(bin.id)) {
            text +=
                fmt::format("position {} {} {}\n", one.place.position, one.spotCheck, textOf(one.heightCentimetres));
        }
    }
    for (const Probe& probe : book.probes()) {
        text += fmt::format("probe {} {} {}\n", probe.name, probe.accuracy.value_or(Kelvins{}).parts(), probe.note);
        for (const ThermometerCheck& check : book.checks(probe.id)) {
            text += fmt::format("check {} {}\n", check.id.digits, writtenWithUnit(check.read));
        }
    }
    return text;
}

/// Everything the book shows, but for what it remembers of corrections.
inline std::string textOf(const Logbook& book) {
    std::string text = setUpText(book);
    for (const Batch& batch : book.batches()) {
        text += textOf(book, book.record(batch.id));
        for (const Reading& reading : book.readings(batch.id, {at(-9'999).at, at(9'999).at}, true, 9'999)) {
            text += fmt::format("{} {} {} {} {} {}\n", reading.place.position, writtenWithUnit(reading.written),
                                reading.when.offset.minutes, probeName(book, reading.probe), reading.note,
                                reading.provenance.entered.value_or(Instant{}).utcSeconds);
        }
    }
    return text;
}

inline int upTo(int most) {
    return *rc::gen::inRange(0, most + 1);
}

inline std::optional<BinId> someBin(const Logbook& book) {
    const auto bins = book.bins();
    return bins.empty() ? std::nullopt : std::optional{bins[static_cast<std::size_t>(upTo(int(bins.size()) - 1))].id};
}

inline std::optional<ProbeId> someProbe(const Logbook& book) {
    const auto probes = book.probes();
    const auto chosen = static_cast<std::size_t>(upTo(static_cast<int>(probes.size())));
    return chosen == probes.size() ? std::nullopt : std::optional{probes[chosen].id};
}

inline std::optional<Batch> someBatch(const Logbook& book) {
    const auto all = book.batches();
    return all.empty() ? std::nullopt : std::optional{all[static_cast<std::size_t>(upTo(int(all.size()) - 1))]};
}

inline Reading someReading(const Logbook& book) {
    Reading reading = readingOf({someBin(book), upTo(2) == 0 ? "side" : "core"}, upTo(60), 40 + upTo(30));
    reading.note = upTo(3) == 0 ? "windy" : "";
    reading.when.offset = {static_cast<std::int16_t>(60 * upTo(1))};
    reading.probe = someProbe(book);
    return reading;
}

/// Of a bin or a probe that another copy may set up under the same name and otherwise.
inline Edit someSetUp(const Logbook& book) {
    const auto probe = someProbe(book);
    if (probe && upTo(1) == 0) {
        ThermometerCheck check;
        check.probe = *probe;
        check.when = at(upTo(60));
        check.read = degrees(upTo(1));
        return Put<ThermometerCheck>{check};
    }
    if (upTo(1) == 0) {
        Probe made;
        made.name = fmt::format("probe {}", upTo(1));
        made.accuracy = Kelvins::ofParts(9'000 * upTo(3));
        return Put<Probe>{made};
    }
    Bin made;
    made.name = fmt::format("bin {}", upTo(3));
    made.volumeLitres = upTo(1) == 0 ? std::nullopt : std::optional{800.0 + upTo(2)};
    made.note = upTo(1) == 0 ? "" : "by the gate";
    made.heightCentimetres = upTo(1) == 0 ? std::nullopt : std::optional{80.0 + upTo(2)};
    made.hatchTopCentimetres = upTo(1) == 0 ? std::nullopt : std::optional{20.0 + upTo(2)};
    made.airChangesPerHour = upTo(2) == 0 ? std::optional{0.5 * upTo(4)} : std::nullopt;
    return Put<Bin>{made};
}

/// What is written down of a bin that is fed on top.
inline Edit someFedEntry(BatchId batch) {
    switch (upTo(2)) {
        case 0: {
            Harvest harvest;
            harvest.batch = batch;
            harvest.when = at(upTo(60));
            harvest.volumeLitres = 1 + upTo(5);
            harvest.massKilograms = upTo(1) == 0 ? std::nullopt : std::optional{2.5};
            return Put<Harvest>{harvest};
        }
        case 1: {
            Observation level;
            level.batch = batch;
            level.when = at(upTo(60));
            level.kind = ObservationKind::level;
            level.value = std::to_string(upTo(80));
            return Put<Observation>{level};
        }
        default: {
            Aeration forked;
            forked.batch = batch;
            forked.when = at(upTo(60));
            forked.kind = AerationKind::forked;
            forked.depthCentimetres = upTo(1) == 0 ? std::nullopt : std::optional{10.0 + upTo(30)};
            return Put<Aeration>{forked};
        }
    }
}

inline Edit somePut(const Logbook& book) {
    const auto bin = someBin(book);
    const auto batch = someBatch(book);
    const int kind = upTo(12);
    if (!bin || kind == 0 || kind == 4) {
        return someSetUp(book);
    }
    if (!batch || kind == 1) {
        Batch made = batchIn(*bin, fmt::format("batch {}", upTo(5)), upTo(60));
        made.startGiven = upTo(1) == 0;
        made.fed = upTo(2) == 0;
        return Put<Batch>{made};
    }
    if (kind > 9) {
        return someFedEntry(batch->id);
    }
    if (kind == 2) {
        return Put<Addition>{additionTo(batch->id, upTo(60), "straw", 1 + upTo(5))};
    }
    if (kind == 3) {
        return Put<PlaceSetting>{{{bin, "base"}, upTo(1) == 0, upTo(1) == 0 ? std::nullopt : std::optional{10.0}}};
    }
    return Put<Reading>{someReading(book)};
}

/// Finished, moved, moved back, come earlier or later or to another bin, or said more about.
inline Batch changed(const Logbook& book, Batch batch) {
    switch (upTo(7)) {
        case 7:
            batch.fed = !batch.fed;
            break;
        case 0:
        case 1:
            batch.finished = at(upTo(90));
            break;
        case 2:
        case 3:
            batch.stays.push_back({at(upTo(90)).at, *someBin(book)});
            break;
        case 4:
            if (batch.stays.size() > 1) {
                batch.stays.pop_back();
            }
            batch.finished.reset();
            break;
        case 5:
            batch.started = at(upTo(60));
            batch.startGiven = upTo(3) != 0;
            break;
        default:
            batch.stays.front().bin = *someBin(book);
            batch.note = fmt::format("note {}", upTo(3));
    }
    return batch;
}

inline Edit someChange(const Logbook& book) {
    const auto batch = someBatch(book);
    if (!batch) {
        return somePut(book);
    }
    const int kind = upTo(7);
    if (kind <= 2) {
        return Amend<Batch>{batch->id, changed(book, *batch), ""};
    }
    if (kind == 5) {
        return Withdraw<Batch>{batch->id, ""};
    }
    const auto additions = book.record(batch->id).additions;
    if (kind == 6 && !additions.empty()) {
        return Withdraw<Addition>{additions.front().id, ""};
    }
    const auto harvests = book.record(batch->id).harvests;
    if (kind == 7 && !harvests.empty()) {
        Harvest harvest = harvests.front();
        harvest.volumeLitres += 1;
        return upTo(1) == 0 ? Edit{Withdraw<Harvest>{harvest.id, ""}} : Edit{Amend<Harvest>{harvest.id, harvest, ""}};
    }
    const auto readings = book.readings(batch->id, {at(-9'999).at, at(9'999).at}, true, 9'999);
    if (readings.empty()) {
        return somePut(book);
    }
    const auto id = readings[static_cast<std::size_t>(upTo(int(readings.size()) - 1))].id();
    return kind == 3 ? Edit{Withdraw<Reading>{id, ""}} : Edit{Amend<Reading>{id, someReading(book), ""}};
}

/// Changes something, or is refused and changes nothing.
inline void edit(Logbook& book) {
    refusalOf([&] { book.apply(upTo(1) == 0 ? someChange(book) : somePut(book)); });
}

}  // namespace midden::trial
