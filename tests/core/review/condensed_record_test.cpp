// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/review/condensed_record.h"

#include <rapidcheck.h>

#include <algorithm>
#include <catch2/catch.hpp>

#include "made_record.h"

using namespace midden;
using namespace midden::testing;

namespace {

constexpr auto sampleTime = [](const Sample& sample) { return sample.at; };

/// A position that wanders between 15 and 70 °C, read every few minutes to hours, now and then not for days.
Track anyTrack(const std::string& position) {
    const auto count = *rc::gen::inRange(1, 400);
    const double step = *rc::gen::element(0.1, 1.0, 8.0);
    Points points;
    double hour = *rc::gen::inRange(0, 60);
    double value = *rc::gen::inRange(15, 60);
    for (const int by :
         *rc::gen::container<std::vector<int>>(static_cast<std::size_t>(count), rc::gen::inRange(-30, 34))) {
        points.emplace_back(hour, value);
        hour += by == 0 ? 50 : step * (1 + std::abs(by) / 30.0);
        value = std::clamp(value + by / 10.0, 15.0, 70.0);
    }
    return {position, *rc::gen::inRange(0, 4) == 0, samplesOf(points)};
}

template <class Entries>
void sortByTime(Entries& entries) {
    std::ranges::stable_sort(entries, {}, [](const auto& entry) { return entry.when.at; });
}

BatchRecord anyRecord() {
    auto record = coreRecord({});
    record.tracks.clear();
    for (const std::string position : {"base", "core", "side"}) {
        if (position == "core" || *rc::gen::arbitrary<bool>()) {
            record.tracks.push_back(anyTrack(position));
        }
    }
    for (int i = *rc::gen::inRange(0, 4); i > 0; --i) {
        add(record, *rc::gen::inRange(0, 600), *rc::gen::arbitrary<bool>());
        aerate(record, *rc::gen::inRange(0, 600));
    }
    for (int i = 0; i < 60; ++i) {
        record.outside.emplace_back(atHour(i * 12), degrees(*rc::gen::inRange(-5, 20)));
    }
    sortByTime(record.additions);
    sortByTime(record.aerations);
    return record;
}

Instant lastReading(const BatchRecord& record) {
    Instant last = record.batch.started.at;
    for (const Track& track : record.tracks) {
        last = std::max(last, track.samples.back().at);
    }
    return last;
}

/// The readings from an instant on, with all else there is.
BatchRecord since(BatchRecord record, Instant from) {
    record.readings = 0;
    for (Track& track : record.tracks) {
        std::erase_if(track.samples, [&](const Sample& sample) { return sample.at < from; });
        record.readings += std::ssize(track.samples);
    }
    std::erase_if(record.tracks, [](const Track& track) { return track.samples.empty(); });
    std::erase_if(record.outside, [&](const Sample& sample) { return sample.at < from; });
    return record;
}

/// What was known before an instant.
BatchRecord before(BatchRecord record, Instant until) {
    for (Track& track : record.tracks) {
        std::erase_if(track.samples, [&](const Sample& sample) { return sample.at >= until; });
    }
    std::erase_if(record.tracks, [](const Track& track) { return track.samples.empty(); });
    std::erase_if(record.outside, [&](const Sample& sample) { return sample.at >= until; });
    std::erase_if(record.additions, [&](const Addition& addition) { return addition.when.at >= until; });
    return record;
}

std::string wordsOf(const Stall& stall) {
    std::string words = nameOf(stall.kind) + " " + std::to_string(stall.from.utcSeconds) + " " +
                        std::to_string(stall.hoursCredited) + " " + std::to_string(stall.hoursShort) + " " +
                        stall.heat.sentence + " " + std::to_string(stall.heat.excess.value_or(-1)) + " " +
                        std::to_string(stall.heat.rate ? stall.heat.rate->rate : -1);
    for (const LikelyCause& cause : stall.causes) {
        words += "\n" + cause.id;
        for (const std::string& reason : cause.reasons) {
            words += ", " + reason;
        }
    }
    return words;
}

/// Everything an outlook says, as text.
std::string wordsOf(const BinOutlook& outlook) {
    const auto number = [](auto value) { return " " + std::to_string(value); };
    const auto instant = [&](const std::optional<Instant>& at) { return number(at ? at->utcSeconds : 0); };
    std::string words = nameOf(outlook.phase) + (outlook.targetShown ? " shown" : "") + number(outlook.credited.count) +
                        number(outlook.missing.count) + number(outlook.asRead.count) + instant(outlook.curingSince);
    words += outlook.broken ? "\nbroke" + instant(outlook.broken->at) + number(outlook.broken->credited.count) : "";
    if (outlook.last) {
        words += instant(outlook.last->at) + number(outlook.last->warmest.parts());
    }
    if (const auto& hold = outlook.hold) {
        words += "\nhold" + instant(hold->since) + number(hold->credited.count) + number(hold->missing.count) +
                 instant(hold->completes) + instant(hold->readBy);
    }
    if (const auto& next = outlook.projection) {
        words += "\nnext" + instant(next->at) + number(next->low) + number(next->high) + number(next->backTests);
    }
    for (const Due& due : outlook.due) {
        words += "\ndue" + number(static_cast<int>(due.kind)) + instant(due.at);
    }
    return outlook.stall ? words + "\n" + wordsOf(*outlook.stall) : words;
}

std::string outlookWords(const BatchRecord& record) {
    const OutlookSettings settings;
    return wordsOf(outlookOf(record, stallsOf(record, settings.stalls), settings));
}

/// Of a track, the readings at or after `from`.
std::vector<Sample> endOf(const Track& track, Instant from) {
    std::vector<Sample> end;
    std::ranges::copy_if(track.samples, std::back_inserter(end), [&](const Sample& one) { return one.at >= from; });
    return end;
}

}  // namespace

TEST_CASE("a condensed record joined with what came later has the outlook of the whole record", "[random]") {
    CHECK(rc::check("condensed and joined says the same", [] {
        const auto whole = anyRecord();
        const auto length = static_cast<int>((lastReading(whole) - start).count / 60);
        const Instant cacheBoundary = start + minutes(*rc::gen::inRange(0, length + 120));
        const auto head = condensed(before(whole, cacheBoundary), cacheBoundary, {});
        RC_ASSERT(outlookWords(joined(head, since(whole, cacheBoundary))) == outlookWords(whole));
    }));
}

TEST_CASE("a condensed record counts every reading it stands for", "[random]") {
    CHECK(rc::check("readings are counted", [] {
        const auto whole = anyRecord();
        const Instant cacheBoundary = start + hours(*rc::gen::inRange(0, 300));
        std::int64_t all = 0;
        for (const Track& track : whole.tracks) {
            all += std::ssize(track.samples);
        }
        RC_ASSERT(joined(condensed(whole, cacheBoundary, {}), since(whole, cacheBoundary)).readings == all);
    }));
}

TEST_CASE("a month of minutes shrinks and its last fortnight keeps the extremes of every position and hour") {
    Points core;
    Points side;
    for (int minute = 0; minute < 30 * 1'440; ++minute) {
        const double wave = 8 * std::sin(minute / 17.0);
        core.emplace_back(minute / 60.0, 48 + wave);
        side.emplace_back(minute / 60.0, 40 - wave);
    }
    auto record = coreRecord(core);
    record.tracks.push_back({"side", false, samplesOf(side)});
    const Instant end = lastReading(record) + Seconds{1};
    const auto small = condensed(record, end, {});
    REQUIRE(small.tracks.size() == 2);
    for (std::size_t i = 0; i < 2; ++i) {
        CHECK(small.tracks[i].samples.size() * 8 < record.tracks[i].samples.size());
        const auto kept = endOf(small.tracks[i], end - days(14));
        const auto all = endOf(record.tracks[i], end - days(14));
        const auto warmer = [](const Sample& a, const Sample& b) { return a.temperature() < b.temperature(); };
        const auto [keptMin, keptMax] = std::ranges::minmax_element(kept, warmer);
        const auto [allMin, allMax] = std::ranges::minmax_element(all, warmer);
        CHECK(keptMin->temperature() == allMin->temperature());
        CHECK(keptMax->temperature() == allMax->temperature());
        CHECK(std::ranges::is_sorted(kept, {}, sampleTime));
    }
}

TEST_CASE("a condensed record keeps the reading that ended the time to heat up") {
    // When the five days were over only one round had been read in full: too little to say that the bin never heated.
    Points points{{0, 20}, {119.7, 30}, {120.1, 20}, {120.3, 44}};
    for (int hour = 122; hour < 720; hour += 2) {
        points.emplace_back(hour, 20);
    }
    const auto whole = coreRecord(points);
    const Instant cacheBoundary = lastReading(whole) + Seconds{1};
    CHECK(stallsOf(whole).empty());
    CHECK(stallsOf(joined(condensed(whole, cacheBoundary, {}), since(whole, cacheBoundary))).empty());
}
