// SPDX-License-Identifier: GPL-3.0-or-later
// Invented batches for the tests of stalls and outlooks. Hours count from the batch's start.
#pragma once

#include <string>
#include <utility>
#include <vector>

#include "core/records/batch_record.h"

namespace midden::testing {

inline const Instant start{1'772'352'000};  // 2026-03-01T08:00:00Z

inline Instant atHour(double hour) {
    return {start.utcSeconds + static_cast<std::int64_t>(hour * 3'600)};
}

inline Celsius degrees(double value) {
    return Celsius::ofParts(static_cast<std::int64_t>(value * 90'000 + (value < 0 ? -0.5 : 0.5)));
}

using Points = std::vector<std::pair<double, double>>;  ///< hour and °C

inline std::vector<Sample> samplesOf(const Points& points) {
    std::vector<Sample> samples;
    for (const auto& [hour, value] : points) {
        samples.emplace_back(atHour(hour), degrees(value), Kelvins::ofTenThousandths(10'000));
    }
    return samples;
}

/// One batch read at the core, its thermometer good to ±1 °C.
inline BatchRecord coreRecord(const Points& points) {
    BatchRecord record;
    record.batch.name = "Invented";
    record.batch.started.at = start;
    record.binName = record.bin.name = "Invented bin";
    record.tracks.push_back({"core", false, samplesOf(points)});
    record.readings = static_cast<std::int64_t>(points.size());
    return record;
}

/// One reading a day from hour 0.
inline Points daily(std::initializer_list<double> values) {
    Points points;
    for (const double value : values) {
        points.emplace_back(24.0 * static_cast<double>(points.size()), value);
    }
    return points;
}

inline void add(BatchRecord& record, double hour, bool raw = true) {
    Addition addition;
    addition.when.at = atHour(hour);
    addition.material = raw ? "vegetable scraps" : "wood chips";
    addition.massKilograms = 8;
    addition.raw = raw;
    record.additions.push_back(addition);
}

inline void aerate(BatchRecord& record, double hour, AerationKind kind = AerationKind::turned) {
    Aeration aeration;
    aeration.when.at = atHour(hour);
    aeration.kind = kind;
    record.aerations.push_back(aeration);
}

inline void observe(BatchRecord& record, double hour, ObservationKind kind, std::string value,
                    std::string subject = {}) {
    Observation observation;
    observation.when.at = atHour(hour);
    observation.kind = kind;
    observation.subject = std::move(subject);
    observation.value = std::move(value);
    record.observations.push_back(observation);
}

}  // namespace midden::testing
