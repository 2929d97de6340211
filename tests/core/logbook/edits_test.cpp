// SPDX-License-Identifier: GPL-3.0-or-later
// Every edit gives the edit that undoes it: a law, tried on random seasons.
#include <fmt/core.h>
#include <rapidcheck.h>

#include <catch2/catch.hpp>

#include "tests/core/logbook/books.h"

using namespace midden;
using namespace midden::trial;

namespace {

std::string textOf(const std::optional<double>& value) {
    return value ? fmt::format("{}", *value) : "-";
}

std::string textOf(const BatchRecord& record) {
    std::string text = fmt::format("{} {} {} {}\n", record.batch.name, record.batch.started.at.utcSeconds,
                                   record.finished.value_or(Instant{-1}).utcSeconds, record.binName);
    for (const Stay& stay : record.batch.stays) {
        text += fmt::format("stay {} {}\n", stay.since.utcSeconds, static_cast<int>(stay.bin));
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
    for (const std::string& position : record.unreadPositions) {
        text += "unread " + position + "\n";
    }
    return text;
}

/// Everything the book shows, but for what it remembers of corrections.
std::string textOf(const Logbook& book) {
    std::string text;
    for (const Bin& bin : book.bins()) {
        text += fmt::format("bin {} {} {}\n", static_cast<int>(bin.id), bin.name, textOf(bin.volumeLitres));
    }
    for (const Batch& batch : book.batches()) {
        text += textOf(book.record(batch.id));
        for (const Reading& reading : book.readings(batch.id, {at(-9'999).at, at(9'999).at}, true, 9'999)) {
            text += fmt::format("{} {} {} {} {}\n", reading.place.position, writtenWithUnit(reading.written),
                                reading.when.offset.minutes, reading.note,
                                reading.provenance.entered.value_or(Instant{}).utcSeconds);
        }
    }
    return text;
}

int upTo(int most) {
    return *rc::gen::inRange(0, most + 1);
}

std::optional<BinId> someBin(const Logbook& book) {
    const auto bins = book.bins();
    return bins.empty() ? std::nullopt : std::optional{bins[static_cast<std::size_t>(upTo(int(bins.size()) - 1))].id};
}

std::optional<Batch> someBatch(const Logbook& book) {
    const auto all = book.batches();
    return all.empty() ? std::nullopt : std::optional{all[static_cast<std::size_t>(upTo(int(all.size()) - 1))]};
}

Reading someReading(const Logbook& book) {
    Reading reading = readingOf({someBin(book), upTo(2) == 0 ? "side" : "core"}, upTo(60), 40 + upTo(30));
    reading.note = upTo(3) == 0 ? "windy" : "";
    reading.when.offset = {static_cast<std::int16_t>(60 * upTo(1))};
    return reading;
}

Edit somePut(const Logbook& book) {
    const auto bin = someBin(book);
    const auto batch = someBatch(book);
    const int kind = upTo(9);
    if (!bin || kind == 0) {
        Bin made;
        made.name = fmt::format("bin {}", upTo(3));
        return Put<Bin>{made};
    }
    if (!batch || kind == 1) {
        Batch made = batchIn(*bin, fmt::format("batch {}", upTo(5)), upTo(60));
        made.startGiven = upTo(1) == 0;
        return Put<Batch>{made};
    }
    if (kind == 2) {
        return Put<Addition>{additionTo(batch->id, upTo(60), "straw", 1 + upTo(5))};
    }
    if (kind == 3) {
        return Put<PlaceSetting>{{{bin, "base"}, upTo(1) == 0}};
    }
    return Put<Reading>{someReading(book)};
}

Edit someChange(const Logbook& book) {
    const auto batch = someBatch(book);
    if (!batch) {
        return somePut(book);
    }
    const int kind = upTo(5);
    if (kind == 0) {
        Batch changed = *batch;
        changed.finished = at(upTo(90));
        return Amend<Batch>{batch->id, changed, ""};
    }
    if (kind == 1) {
        Batch changed = *batch;
        changed.stays.push_back({at(upTo(90)).at, *someBin(book)});
        return Amend<Batch>{batch->id, changed, ""};
    }
    if (kind == 2) {
        return Withdraw<Batch>{batch->id, ""};
    }
    const auto readings = book.readings(batch->id, {at(-9'999).at, at(9'999).at}, true, 9'999);
    if (readings.empty()) {
        return somePut(book);
    }
    const auto id = readings[static_cast<std::size_t>(upTo(int(readings.size()) - 1))].id();
    return kind == 3 ? Edit{Withdraw<Reading>{id, ""}} : Edit{Amend<Reading>{id, someReading(book), ""}};
}

}  // namespace

TEST_CASE("edits undone in reverse leave the book as it was") {
    const bool holds = rc::check([] {
        auto book = Logbook::inMemory();
        book.setHand("Ada", [] { return at(70).at; });
        const int steps = upTo(40);
        std::vector<std::string> before;
        std::vector<Edit> inverses;
        for (int i = 0; i < steps; ++i) {
            const Edit edit = upTo(2) == 0 ? someChange(book) : somePut(book);
            const auto now = textOf(book);
            try {
                inverses.push_back(book.apply(edit).inverse);
                before.push_back(now);
            } catch (const LogbookError& error) {
                RC_ASSERT(error.kind == LogbookError::Kind::refused);
                RC_ASSERT(textOf(book) == now);
            }
        }
        RC_CLASSIFY(inverses.size() > 15, "more than 15 edits");
        const auto atTheEnd = textOf(book);
        std::vector<Edit> again;
        while (!inverses.empty()) {
            again.push_back(book.apply(inverses.back()).inverse);
            inverses.pop_back();
            RC_ASSERT(textOf(book) == before.back());
            before.pop_back();
        }
        while (!again.empty()) {
            book.apply(again.back());
            again.pop_back();
        }
        RC_ASSERT(textOf(book) == atTheEnd);
    });
    CHECK(holds);
}
