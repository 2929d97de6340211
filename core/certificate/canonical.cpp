// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/certificate/canonical.h"

#include <fmt/core.h>

#include <algorithm>
#include <optional>
#include <tuple>

#include "core/certificate/entry_words.h"

namespace midden {

namespace {

template <class Id, class Entries>
std::map<Id, std::string> namesOf(const Entries& entries) {
    std::map<Id, std::string> names;
    for (const auto& entry : entries) {
        names.emplace(entry.id, entry.name);
    }
    return names;
}

template <class Id>
std::string nameIn(const std::map<Id, std::string>& names, Id id) {
    const auto found = names.find(id);
    return found == names.end() ? std::string{} : found->second;
}

std::string yesOrNo(std::optional<bool> answer) {
    return answer ? (*answer ? "yes" : "no") : "";
}

std::string batchLine(const BatchRecord& record) {
    CanonicalLine line{"batch"};
    line.with("name", record.batch.name).with("started", record.batch.started);
    if (record.finished) {
        line.with("finished", isoUtc(*record.finished));
    }
    line.with("feeding", record.batch.fed ? "fed" : "");
    line.with("amended entries", std::to_string(record.amendedEntries));
    return line.with("late entries", std::to_string(record.lateEntries)).text();
}

std::string stayLines(const BatchRecord& record, std::span<const Bin> bins) {
    const auto names = namesOf<BinId>(bins);
    std::string text;
    std::map<std::string, const Bin*> used;
    for (const auto& stay : record.batch.stays) {
        text += CanonicalLine{"stay"}.with("since", isoUtc(stay.since)).with("bin", nameIn(names, stay.bin)).text();
        for (const auto& bin : bins) {
            if (bin.id == stay.bin) {
                used.emplace(bin.name, &bin);
            }
        }
    }
    for (const auto& [name, bin] : used) {
        CanonicalLine line{"bin"};
        line.with("name", name).with("volume", bin->volumeLitres, " l");
        if (record.batch.fed) {
            line.with("height", bin->heightCentimetres, " cm").with("hatch top", bin->hatchTopCentimetres, " cm");
        }
        text += line.text();
    }
    return text;
}

std::string positionLines(const BatchRecord& record) {
    std::string text;
    for (const auto& track : record.tracks) {
        text += CanonicalLine{"position"}
                    .with("name", track.position)
                    .with("read", track.spotCheck ? "as a spot check" : "in every round")
                    .with("height", record.batch.fed ? track.heightCentimetres : std::nullopt, " cm")
                    .text();
    }
    for (const auto& position : record.unreadPositions) {
        text += CanonicalLine{"position"}.with("name", position).with("read", "never").text();
    }
    return text;
}

std::string probeLines(const BatchRecord& record) {
    std::map<std::string, std::string> byName;
    for (const auto& probe : record.probes) {
        const auto accuracy = probe.accuracy ? decimal(*probe.accuracy) + " °C" : std::string{};
        byName.emplace(probe.name, CanonicalLine{"probe"}.with("name", probe.name).with("accuracy", accuracy).text());
    }
    std::string text;
    for (const auto& [name, line] : byName) {
        text += line;
    }
    return text;
}

CanonicalLine lineOf(const ThermometerCheck& check, const std::string& probe) {
    CanonicalLine line{"check"};
    line.with("at", check.when).with("probe", probe).with("in", wordOf(check.kind));
    line.with("read", writtenWithUnit(check.read));
    line.with("altitude", check.altitudeMetres, " m").with("pressure", check.pressureHectopascals, " hPa");
    return check.appliesFrom ? line.with("holds from", isoUtc(*check.appliesFrom)) : line;
}

CanonicalLine lineOf(const Addition& addition) {
    CanonicalLine line{"addition"};
    line.with("at", addition.when).with("material", addition.material);
    line.with("mass", addition.massKilograms, " kg").with("volume", addition.volumeLitres, " l");
    line.with("moisture", addition.moisturePercent, " %").with("carbon", addition.carbonPercent, " %");
    line.with("nitrogen", addition.nitrogenPercent, " %").with("C:N", addition.carbonNitrogen);
    return line.with("raw", yesOrNo(addition.raw));
}

CanonicalLine lineOf(const Aeration& aeration) {
    CanonicalLine line{"aeration"};
    line.with("at", aeration.when).with("kind", wordOf(aeration.kind));
    return line.with("depth", aeration.depthCentimetres, " cm");
}

CanonicalLine lineOf(const Harvest& harvest) {
    CanonicalLine line{"harvest"};
    line.with("at", harvest.when).with("volume", harvest.volumeLitres, " l");
    return line.with("mass", harvest.massKilograms, " kg");
}

CanonicalLine lineOf(const Observation& observation) {
    CanonicalLine line{"observation"};
    line.with("at", observation.when).with("kind", wordOf(observation.kind)).with("subject", observation.subject);
    return line.with("value", observation.value).with("note", observation.note);
}

/// In time order; entries of one instant by their own text, so that no accident of storage shows.
template <class Entries>
std::string sortedLines(const Entries& entries) {
    std::vector<std::pair<Instant, std::string>> lines;
    lines.reserve(entries.size());
    for (const auto& entry : entries) {
        lines.emplace_back(entry.when.at, lineOf(entry).text());
    }
    std::sort(lines.begin(), lines.end());
    std::string text;
    for (const auto& [at, line] : lines) {
        text += line;
    }
    return text;
}

std::string checkLines(const BatchRecord& record) {
    const auto names = namesOf<ProbeId>(record.probes);
    std::vector<std::pair<Instant, std::string>> lines;
    lines.reserve(record.checks.size());
    for (const auto& check : record.checks) {
        lines.emplace_back(check.when.at, lineOf(check, nameIn(names, check.probe)).text());
    }
    std::sort(lines.begin(), lines.end());
    std::string text;
    for (const auto& [at, line] : lines) {
        text += line;
    }
    return text;
}

}  // namespace

WrittenReadings::WrittenReadings(std::span<const Bin> bins, std::span<const Probe> probes)
    : bins_{namesOf<BinId>(bins)}, probes_{namesOf<ProbeId>(probes)} {}

std::string WrittenReadings::seriesOf(const Reading& reading) const {
    CanonicalLine line{"series"};
    line.with("bin", reading.place.bin ? nameIn(bins_, *reading.place.bin) : "")
        .with("position", reading.place.position);
    line.with("unit", reading.written.unit == TemperatureUnit::celsius ? "°C" : "°F");
    line.with("offset", offsetText(reading.when.offset));
    line.with("probe", reading.probe ? nameIn(probes_, *reading.probe) : "").with("by", reading.provenance.who);
    return line.text();
}

void WrittenReadings::add(std::span<const Reading> page) {
    // Readings of few series follow one another in turn: a series is put into words once, not for each of its readings.
    using Key = std::tuple<std::optional<BinId>, std::string, TemperatureUnit, std::int64_t, std::optional<ProbeId>,
                           std::string>;
    std::map<Key, std::string*> known;
    for (const auto& reading : page) {
        auto& lines = known[{reading.place.bin, reading.place.position, reading.written.unit,
                             reading.when.offset.minutes, reading.probe, reading.provenance.who}];
        if (lines == nullptr) {
            lines = &linesBySeries_[seriesOf(reading)];
        }
        *lines += fmt::format("{} {}\n", isoUtc(reading.when.at), writtenNumber(reading.written));
        if (!reading.place.isOutside()) {
            readers_.insert(reading.provenance.who);
            someWithoutProbe_ = someWithoutProbe_ || !reading.probe;
        }
    }
}

std::string WrittenReadings::text() const {
    std::string text;
    for (const auto& [series, lines] : linesBySeries_) {
        text += series + lines;
    }
    return text;
}

std::string canonicalEntries(const BatchRecord& record, std::span<const Bin> bins, const WrittenReadings& readings) {
    return "entries\n" + batchLine(record) + stayLines(record, bins) + positionLines(record) + probeLines(record) +
           checkLines(record) + sortedLines(record.additions) + sortedLines(record.aerations) +
           sortedLines(record.observations) + sortedLines(record.harvests) + readings.text();
}

}  // namespace midden
