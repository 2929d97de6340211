// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/round/round_plan.h"

#include <algorithm>
#include <map>
#include <set>

#include "ui/shared/bin_summary.h"

namespace midden::ui {

namespace {

/// How far back a past round looks for the reading before it, and how many it is ready to sift.
constexpr Seconds lookBack = days(7);
constexpr std::size_t mostSifted = 50'000;

struct Found {
    std::optional<Reading> now;
    std::optional<Reading> last;

    void offer(const Reading& reading, Interval round) {
        if (reading.when.at > round.to) {
            return;
        }
        auto& slot = reading.when.at >= round.from ? now : last;
        if (!slot || reading.when.at >= slot->when.at) {
            slot = reading;
        }
    }
};

/// The ordinary case: nothing newer than this round, so that the newest two readings of a place say it all.
std::optional<std::map<std::string, Found>> foundAtTheEnd(const std::vector<LastReadings>& newest, Interval round) {
    std::map<std::string, Found> found;
    for (const LastReadings& place : newest) {
        const bool secondStillInRound = place.before && place.before->when.at >= round.from;
        if (place.last.when.at > round.to || secondStillInRound) {
            return std::nullopt;
        }
        Found& slot = found[place.place.position];
        slot.offer(place.last, round);
        if (place.before) {
            slot.offer(*place.before, round);
        }
    }
    return found;
}

std::map<std::string, Found> foundInThePast(const Logbook& logbook, BatchId batch, Interval round) {
    std::map<std::string, Found> found;
    const auto sift = [&](Interval within) {
        for (const Reading& reading : logbook.readings(batch, within, false, mostSifted)) {
            found[reading.place.position].offer(reading, round);
        }
    };
    sift({round.from - lookBack, round.from});
    sift(round);
    return found;
}

bool coreFirst(const std::string& a, const std::string& b) {
    return std::pair{a != "core", a} < std::pair{b != "core", b};
}

/// What is set up, and whatever has been read without being set up.
std::vector<PlaceSetting> placesOf(const Logbook& logbook, BinId bin, const std::vector<LastReadings>& newest) {
    std::vector<PlaceSetting> places = logbook.places(bin);
    for (const LastReadings& read : newest) {
        const bool known = std::any_of(places.begin(), places.end(),
                                       [&](const PlaceSetting& place) { return place.place == read.place; });
        if (!known && !read.place.isOutside()) {
            places.push_back({.place = read.place});
        }
    }
    if (places.empty()) {
        places.push_back({.place = {bin, "core"}});
    }
    std::sort(places.begin(), places.end(), [](const PlaceSetting& a, const PlaceSetting& b) {
        return coreFirst(a.place.position, b.place.position);
    });
    return places;
}

/// A batch and what has been read of it.
struct Occupant {
    BatchId batch{};
    Instant from;  ///< of what is typed for it
    std::map<std::string, Found> found;
};

/// One that came to the bin after the round had begun.
std::optional<Occupant> newcomer(const Logbook& logbook, BinId bin, Interval round, Instant now) {
    const auto there = logbook.occupant(bin, now);
    if (!there || there == logbook.occupant(bin, round.from)) {
        return std::nullopt;
    }
    Occupant one{*there, round.from, {}};
    const auto batch = logbook.batch(*there);
    for (const Stay& stay : batch->stays) {
        one.from = stay.bin == bin && stay.since <= now ? std::max(one.from, stay.since) : one.from;
    }
    for (const Reading& reading : logbook.readings(*there, {one.from, round.to}, false, mostSifted)) {
        if (reading.place.bin == bin) {
            one.found[reading.place.position].offer(reading, {one.from, round.to});
        }
    }
    return one;
}

std::optional<Occupant> occupantOf(const Logbook& logbook, BinId bin, const std::vector<LastReadings>& newest,
                                   Interval round) {
    const auto batch = logbook.occupant(bin, round.from);
    if (!batch) {
        return std::nullopt;
    }
    auto atTheEnd = foundAtTheEnd(newest, round);
    return Occupant{*batch, round.from, atTheEnd ? std::move(*atTheEnd) : foundInThePast(logbook, *batch, round)};
}

void addRows(RoundPlan& plan, const Logbook& logbook, const std::vector<LastReadings>& newest, const Bin& bin,
             Interval round, std::optional<Instant> now) {
    auto occupant = now ? newcomer(logbook, bin.id, round, *now) : std::nullopt;
    const bool isEmptied = now && !logbook.occupant(bin.id, *now);  // as its card says
    if (!occupant && !isEmptied) {
        occupant = occupantOf(logbook, bin.id, newest, round);
    }
    if (!occupant) {
        plan.rows.push_back({.bin = bin, .firstOfBin = true, .when = plan.when});
        return;
    }
    bool first = true;
    for (const PlaceSetting& place : placesOf(logbook, bin.id, newest)) {
        const Found& slot = occupant->found[place.place.position];
        plan.rows.push_back({.bin = bin,
                             .position = place.place.position,
                             .spotCheck = place.spotCheck,
                             .firstOfBin = first,
                             .batch = occupant->batch,
                             .now = slot.now,
                             .last = slot.last,
                             .when = {occupant->from, plan.when.offset}});
        first = false;
    }
}

void addOutside(RoundPlan& plan, const Logbook& logbook, const std::optional<Reading>& newest, Interval round) {
    Found found;
    if (newest && newest->place == outsidePlace()) {
        found.offer(*newest, round);
    }
    if (const auto exact = logbook.reading({outsidePlace(), plan.when.at})) {
        found.now = exact;
    }
    plan.outsideNow = found.now;
    plan.outsideLast = found.last;
}

}  // namespace

NewestReadings newestIn(const Logbook& logbook) {
    NewestReadings newest{.outside = logbook.lastOutside()};
    for (const Bin& bin : logbook.bins()) {
        newest.ofBins.emplace(bin.id, logbook.lastReadings(bin.id));
    }
    return newest;
}

Instant roundGoingOn(const NewestReadings& newest, Instant now, Seconds roundLength) {
    const Instant minute{now.utcSeconds - now.utcSeconds % 60};
    Instant began = minute;
    const auto consider = [&](const Reading& reading) {
        if (reading.when.at <= now && now - reading.when.at < roundLength) {
            began = std::min(began, reading.when.at);
        }
    };
    for (const auto& [bin, places] : newest.ofBins) {
        for (const LastReadings& place : places) {
            consider(place.last);
        }
    }
    if (newest.outside) {
        consider(*newest.outside);
    }
    return began;
}

RoundPlan planRound(const Logbook& logbook, const NewestReadings& newest, Moment at, std::optional<Instant> now) {
    RoundPlan plan{.when = at, .readOnly = logbook.isReadOnly(), .unit = unitOf(logbook), .probes = logbook.probes()};
    const Interval round{at.at, at.at + roundLengthOf(logbook)};
    for (const Bin& bin : logbook.bins()) {
        if (!bin.retired) {
            addRows(plan, logbook, newest.ofBins.at(bin.id), bin, round, now);
        }
    }
    addOutside(plan, logbook, newest.outside, round);
    return plan;
}

}  // namespace midden::ui
