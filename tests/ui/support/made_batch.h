// SPDX-License-Identifier: GPL-3.0-or-later
// Invented batches for tests of pictures.
#pragma once

#include <cmath>
#include <string>

#include "core/records/batch_record.h"
#include "core/review/review.h"

namespace midden::testing {

inline const Instant firstOfMarch{1'772'352'000};  // 2026-03-01T08:00:00Z

inline Instant afterHours(double count) {
    return firstOfMarch + Seconds{std::llround(count * 3'600)};
}

inline Sample sampleAt(double hour, double celsius) {
    return {afterHours(hour), Celsius::ofTenThousandths(std::llround(celsius * 10) * 1'000)};
}

/// Heats within three days, stays hot for about two weeks, cools slowly.
inline double heapTemperature(double hour) {
    const double warming = 1 - std::exp(-hour / 30);
    const double cooling = hour < 380 ? 1.0 : std::exp(-(hour - 380) / 420);
    return 12 + 52 * warming * cooling + 2 * std::sin(hour / 37);
}

inline Track madeTrack(const std::string& position, double lower, double everyHours, int count) {
    Track track{position, false, {}};
    for (int i = 0; i < count; ++i) {
        const double hour = i * everyHours;
        // A weekend away.
        if (hour > 195 && hour < 255 && everyHours > 1) {
            continue;
        }
        track.samples.push_back(sampleAt(hour, heapTemperature(hour) - lower));
    }
    return track;
}

inline BatchRecord madeRecord() {
    BatchRecord record;
    record.batch.name = "North 3";
    record.batch.started = {firstOfMarch, {}};
    record.binName = record.bin.name = "North";
    return record;
}

/// Three positions read every twelve hours for sixty days, with all that may stand in the lane.
inline BatchRecord sixtyDays() {
    BatchRecord record = madeRecord();
    record.tracks = {madeTrack("base", 7, 12, 120), madeTrack("core", 0, 12, 120), madeTrack("side", 3.5, 12, 120)};
    std::erase_if(record.tracks[0].samples,
                  [](const Sample& sample) { return sample.at > afterHours(700) && sample.at < afterHours(790); });
    for (int i = 0; i < 60; ++i) {
        record.outside.push_back(sampleAt(i * 24.0 + 1, 7 + 4 * std::sin(i / 3.0)));
    }
    const auto add = [&](double hour, const char* material, double mass, bool raw) {
        Addition addition;
        addition.when = {afterHours(hour), {}};
        addition.material = material;
        addition.massKilograms = mass;
        addition.raw = raw;
        record.additions.push_back(addition);
    };
    add(0.5, "kitchen scraps", 18.2, true);
    add(0.6, "wood chips", 9, false);
    add(40, "grass clippings", 6.5, true);
    add(640, "straw", 2, false);
    for (const double hour : {96.0, 110.0, 300.0, 460.0, 900.0}) {
        Aeration aeration;
        aeration.when = {afterHours(hour), {}};
        aeration.kind = hour == 110.0 ? AerationKind::watered : AerationKind::turned;
        record.aerations.push_back(aeration);
    }
    Observation squeeze;
    squeeze.when = {afterHours(480), {}};
    squeeze.kind = ObservationKind::squeeze;
    squeeze.value = "dry";
    record.observations.push_back(squeeze);
    record.readings = 330;
    return record;
}

}  // namespace midden::testing
