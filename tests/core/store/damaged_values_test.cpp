// SPDX-License-Identifier: GPL-3.0-or-later
// Values that no rule of the file lets in, written by other hands.
#include <catch2/catch.hpp>
#include <fstream>

#include "core/certificate/issue.h"
#include "core/quantities/sha256.h"
#include "core/review/review.h"
#include "core/store/read/book_rules.h"
#include "core/store/schema/amendment_json.h"
#include "core/store/soundness.h"
#include "tests/core/store/behind_the_rules.h"

using namespace midden;
using namespace midden::trial;
using Kind = LogbookError::Kind;
using Mode = Logbook::Mode;
namespace fs = std::filesystem;

namespace {

fs::path smallBook(const Folder& folder, const std::string& name = "plot.midden") {
    auto book = Logbook::open(folder / name, Mode::createIfAbsent);
    const auto bin = putBin(book, "North");
    const auto batch = putBatch(book, bin, "spring", 0);
    for (const int hour : {1, 2, 3}) {
        putReading(book, bin, "core", hour, 55 + hour);
    }
    auto straw = additionTo(batch, 1, "Straw", 3);
    straw.id = std::get<EntryId>(book.apply(Put<Addition>{straw}).id);
    auto amended = straw;
    amended.massKilograms = 5;
    book.apply(Amend<Addition>{straw.id, amended, ""});
    return folder / name;
}

std::string bytesOf(const fs::path& file) {
    std::ifstream in{file, std::ios::binary};
    return {std::istreambuf_iterator<char>{in}, {}};
}

void checkMergeRefused(const Folder& folder, const fs::path& damaged) {
    const auto good = smallBook(folder, "good.midden");
    const auto before = bytesOf(good);
    CHECK(refusalOf([&] { Logbook::open(good, Mode::readWrite).merge(Logbook::open(damaged, Mode::readOnly)); }) ==
          Kind::damaged);
    CHECK(bytesOf(good) == before);
    CHECK(refusalOf([&] { Logbook::open(damaged, Mode::readWrite).merge(Logbook::open(good, Mode::readOnly)); }) ==
          Kind::damaged);
}

std::string nested(std::size_t levels) {
    return std::string(levels, '[') + std::string(levels, ']');
}

}  // namespace

TEST_CASE("a damaged reading is never taken for a number that somebody read") {
    const Folder folder;
    const auto file = smallBook(folder);
    const std::string change = GENERATE("raw = raw + 4294967296", "raw = raw - 4294967296", "raw = 1500001",
                                        "raw = 600000.5", "raw = 'hot'", "raw = x'00'", "at = at + 0.5", "at = 'noon'",
                                        "at = 253402300800", "at = -62167219201", "at = 9223372036854775807");
    INFO(change);
    behindTheRules(
        file, "UPDATE reading SET " + change + " WHERE at = (SELECT at FROM reading ORDER BY at LIMIT 1 OFFSET 1)");
    const auto before = bytesOf(file);
    {
        const auto book = Logbook::open(file, Mode::readOnly);
        const auto batch = book.batchNamed("spring")->id;
        CHECK_FALSE(book.check(sha256).faults.empty());
        CHECK(refusalOf([&] { book.record(batch); }) == Kind::damaged);
        CHECK(refusalOf([&] { expectSoundReadings(book); }) == Kind::damaged);
        CHECK(refusalOf([&] { draftCertificate(book, batch, {targetOf(book)}); }) == Kind::damaged);
        CHECK(refusalOf([&] { book.visitReadings(book.placesRead().at(0), [](const Reading&) {}); }) == Kind::damaged);
    }
    checkMergeRefused(folder, file);
    CHECK(bytesOf(file) == before);
}

TEST_CASE("what readings share is damaged where it is out of range, before it is made narrower") {
    const Folder folder;
    const auto file = smallBook(folder);
    const std::string change = GENERATE("UPDATE series SET utc_offset = 65536", "UPDATE series SET unit = 256",
                                        "UPDATE series SET source = 257", "UPDATE batch SET started_offset = 65536",
                                        "UPDATE addition SET utc_offset = 65536");
    INFO(change);
    behindTheRules(file, change);
    CHECK(refusalOf([&] { Logbook::open(file, Mode::readOnly); }) == Kind::damaged);
}

TEST_CASE("a reading of a series that is not in the book bars a certificate") {
    const Folder folder;
    const auto file = smallBook(folder);
    behindTheRules(file, "UPDATE reading SET series = 40 WHERE at = (SELECT max(at) FROM reading)");
    const auto book = Logbook::open(file, Mode::readOnly);
    CHECK(refusalOf([&] { expectSoundReadings(book); }) == Kind::damaged);
    CHECK_FALSE(book.check(sha256).faults.empty());
    checkMergeRefused(folder, file);
}

TEST_CASE("a sound book passes the quick look at its readings, with none as well") {
    const Folder folder;
    CHECK_FALSE(refusalOf([&] { expectSoundReadings(Logbook::open(smallBook(folder), Mode::readOnly)); }));
    CHECK_FALSE(refusalOf([&] { expectSoundReadings(Logbook::inMemory()); }));
}

TEST_CASE("an amendment that cannot be read is named, and the rest of the book is shown") {
    const Folder folder;
    const auto file = smallBook(folder);
    const std::string text =
        GENERATE(nested(100'000), nested(3'000), nested(40), std::string(100'000, '['), std::string{"no JSON"},
                 std::string{"[1]"}, std::string{"{\"note\":7}"}, std::string{"{\"material\":[\"straw\"]}"},
                 std::string{"{\"utc_offset\":65536}"}, std::string{"{}"}, std::string{"{\"at\":1e300}"},
                 std::string{"{\"at\":99999999999999999999}"});
    const std::string column = GENERATE("was", "became");
    INFO(text.substr(0, 40));
    behindTheRules(file, "UPDATE amendment SET " + column + " = '" + text + "'");
    const auto key = plainly(file, "SELECT key FROM amendment");
    {
        const auto book = Logbook::open(file, Mode::readOnly);
        const auto batch = book.batchNamed("spring")->id;
        const auto faults = book.check(sha256).faults;
        REQUIRE(faults.size() == 1);
        CHECK_THAT(faults.at(0), Catch::Contains(key) && Catch::Contains("addition"));
        CHECK(unreadableAmendments(book) == faults);
        CHECK(book.record(batch).amendedEntries == 1);
        const auto amendments = book.amendments(batch);
        REQUIRE(amendments.size() == 1);
        const auto& unreadable = column == "was" ? amendments.at(0).was : amendments.at(0).became;
        CHECK(unreadable == (amendedEntry(text) ? unreadable : "(cannot be read)"));
        CHECK(draftCertificate(book, batch, {targetOf(book)}).digest.size() == 64);
    }
    checkMergeRefused(folder, file);
}

TEST_CASE("an amended reading that cannot be read still belongs to its batch") {
    const Folder folder;
    const auto file = smallBook(folder);
    {
        auto book = Logbook::open(file, Mode::readWrite);
        const auto bin = book.binNamed("North")->id;
        auto reading = *book.reading({{bin, "core"}, at(2).at});
        reading.written = degrees(70);
        book.apply(Amend<Reading>{reading.id(), reading, ""});
    }
    behindTheRules(file, "UPDATE amendment SET was = '" + nested(50) + "', became = '{' WHERE kind = 0");
    const auto book = Logbook::open(file, Mode::readOnly);
    CHECK(book.record(book.batchNamed("spring")->id).amendedEntries == 2);
    CHECK(book.amendments(book.batchNamed("spring")->id).size() == 2);
}

TEST_CASE("an amendment of a time or rank that no clock gives is damage") {
    const Folder folder;
    const auto file = smallBook(folder);
    const std::string change =
        GENERATE("rank = 9223372036854775807", "rank = -9223372036854775807", "amended = 9223372036854775807");
    behindTheRules(file, "UPDATE amendment SET " + change);
    CHECK(Logbook::open(file, Mode::readOnly).check(sha256).faults.size() == 1);
    checkMergeRefused(folder, file);
}

TEST_CASE("criteria of a group that are no JSON, or too deep, are damage and left out") {
    const Folder folder;
    const auto file = smallBook(folder);
    const std::string text = GENERATE(nested(100'000), std::string{"{\"a\":"}, std::string(100'000, '['));
    {
        auto book = Logbook::open(file, Mode::readWrite);
        book.setSetting(setting::criteria, "\x1e" + text);
        CHECK(groupCriteriaOf(book).empty());
        CHECK(questionsOf(book).criteria.size() > 1);
        CHECK(book.check(sha256).faults.size() == 1);
    }
    checkMergeRefused(folder, file);
}

TEST_CASE("a criterion of a later Middenbook is no damage") {
    auto book = Logbook::inMemory();
    book.setSetting(setting::criteria, "\x1e{\"id\":\"of-tomorrow\",\"unheard\":[1,2]}");
    CHECK(book.check(sha256).faults.empty());
}
