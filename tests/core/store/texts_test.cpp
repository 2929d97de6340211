// SPDX-License-Identifier: GPL-3.0-or-later
// Texts the book does not take, and bounds on what one bin may be made to hold.
#include <catch2/catch.hpp>
#include <functional>

#include "tests/core/store/books.h"

using namespace midden;
using namespace midden::trial;

namespace {

std::string sentenceOf(const std::function<void()>& work) {
    try {
        work();
    } catch (const LogbookError& error) {
        CHECK(error.kind == LogbookError::Kind::refused);
        return error.what();
    }
    return {};
}

}  // namespace

TEST_CASE("a text that no export could hold is refused wherever it comes in") {
    auto book = Logbook::inMemory();
    const auto bin = putBin(book, "North");
    const auto batch = putBatch(book, bin, "spring", 0);
    for (const std::string text : {"a\x1b[31m", "nul\x01", "del\x7f", "not \xff utf-8"}) {
        INFO(text);
        Bin other;
        other.name = text;
        CHECK_FALSE(sentenceOf([&] { book.apply(Put<Bin>{other}); }).empty());
        CHECK_FALSE(sentenceOf([&] { putBatch(book, bin, text, 100); }).empty());
        auto reading = readingOf({bin, text}, 1, 55);
        CHECK_FALSE(sentenceOf([&] { book.apply(Put<Reading>{reading}); }).empty());
        reading.place.position = "core";
        reading.note = text;
        CHECK_FALSE(sentenceOf([&] { book.apply(Put<Reading>{reading}); }).empty());
        auto addition = additionTo(batch, 1, text, 2);
        CHECK_FALSE(sentenceOf([&] { book.apply(Put<Addition>{addition}); }).empty());
        CHECK_FALSE(sentenceOf([&] { book.setSetting(setting::group, text); }).empty());
        CHECK_FALSE(sentenceOf([&] { book.setSetting(setting::who, text); }).empty());
    }
    CHECK(book.bins().size() == 1);
    CHECK(book.placesRead().empty());
}

TEST_CASE("a name is refused when it is too long to come back from an export") {
    auto book = Logbook::inMemory();
    Bin bin;
    bin.name = std::string(1'000, 'n');
    CHECK(sentenceOf([&] { book.apply(Put<Bin>{bin}); }).empty());
    bin.name += 'n';
    CHECK(sentenceOf([&] { book.apply(Put<Bin>{bin}); }) == "a name is longer than 1,000 letters");
}

TEST_CASE("no more positions go into a bin than a review can look at together") {
    auto book = Logbook::inMemory();
    const auto bin = putBin(book, "North");
    for (int i = 0; i < 100; ++i) {
        book.apply(Put<PlaceSetting>{{{bin, "declared " + std::to_string(i)}, false}});
    }
    for (int i = 0; i < 100; ++i) {
        book.apply(Put<Reading>{readingOf({bin, "read " + std::to_string(i)}, 1, 55)});
    }
    const std::string words = "the bin has 200 positions already; expected no more in one bin";
    CHECK(sentenceOf([&] { book.apply(Put<Reading>{readingOf({bin, "one more"}, 1, 55)}); }).ends_with(words));
    CHECK(sentenceOf([&] { book.apply(Put<PlaceSetting>{{{bin, "one more"}, true}}); }).ends_with(words));
    book.apply(Put<Reading>{readingOf({bin, "declared 0"}, 1, 55)});  // is one of the two hundred
    book.apply(Put<Reading>{readingOf({putBin(book, "South"), "one more"}, 1, 55)});
}

TEST_CASE("no more thermometers read one position than an import can compare") {
    auto book = Logbook::inMemory();
    const auto bin = putBin(book, "North");
    const auto readBy = [&](int number) {
        Probe probe;
        probe.name = "probe " + std::to_string(number);
        auto reading = readingOf({bin, "core"}, number, 55);
        reading.probe = std::get<ProbeId>(book.apply(Put<Probe>{probe}).id);
        book.apply(Put<Reading>{reading});
    };
    for (int i = 0; i < 500; ++i) {
        readBy(i);
    }
    CHECK(sentenceOf([&] { readBy(500); }).find("was read with 500 thermometers") != std::string::npos);
}
