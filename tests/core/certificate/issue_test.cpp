// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/certificate/issue.h"

#include <catch2/catch.hpp>

#include "core/quantities/sha256.h"
#include "core/store/read/book_rules.h"
#include "tests/core/certificate/sample_batches.h"

using namespace midden;
using namespace midden::testing;

namespace {

/// A book in memory with one batch of six hot days at two positions.
class SmallBook {
  public:
    SmallBook() {
        book.setHand("Ann", [] { return at(20, 9).at; });
        const auto bin = std::get<BinId>(book.apply(Put<Bin>{{{}, "North", 600}}).id);
        Batch entry;
        entry.name = "North, March";
        entry.started = at(1, 8);
        entry.stays = {{entry.started.at, bin}};
        batch = std::get<BatchId>(book.apply(Put<Batch>{entry}).id);
        for (int day = 1; day <= 6; ++day) {
            put({bin, "core"}, at(day, 8), 634'000);
            put({bin, "side"}, at(day, 8, 10), 600'000);
        }
    }
    void put(const Place& place, Moment when, std::int32_t tenThousandths) {
        Reading reading;
        reading.place = place;
        reading.when = when;
        reading.written = {tenThousandths};
        book.apply(Put<Reading>{reading});
    }
    IssuedCertificate issue(Instant issued) {
        auto certificate = numberedCertificate(book, draftCertificate(book, batch, {targetOf(book)}), issued);
        storeOnce(book, certificate);
        return certificate;
    }
    void amendFourth(std::int32_t tenThousandths) {
        auto reading = book.readings(batch, {at(4, 8).at, at(4, 8).at}, false, 1).at(0);
        reading.written.tenThousandths = tenThousandths;
        book.apply(Amend<Reading>{reading.id(), reading, "misread"});
    }

    Logbook book = Logbook::inMemory();
    BatchId batch{};
};

}  // namespace

TEST_CASE("the same record issued at the same instant is the same certificate") {
    SmallBook small;
    const auto first = small.issue(at(20, 10).at);
    const auto again = small.issue(at(20, 10).at);
    CHECK(first.number == again.number);
    CHECK(first.supersedes.empty());
    CHECK(small.book.certificates(small.batch).size() == 1);
    CHECK(SmallBook{}.issue(at(20, 10).at).number == first.number);
    CHECK(first.number.substr(0, 9) == "20260301-");
}

TEST_CASE("a later certificate takes the place of the one before") {
    SmallBook small;
    const auto first = small.issue(at(20, 10).at);
    const auto second = small.issue(at(21, 10).at);
    CHECK(second.number != first.number);
    CHECK(second.supersedes == first.number);
    CHECK(verifyCertificate(small.book, first.number)->supersededBy == second.number);
    // The first one can still be had as it was.
    const auto again = small.issue(at(20, 10).at);
    CHECK(again.number == first.number);
    CHECK(again.supersedes.empty());
}

TEST_CASE("a record stands until a reading is amended by a tenth of a degree") {
    SmallBook small;
    const auto issued = small.issue(at(20, 10).at);
    CHECK(verifyCertificate(small.book, issued.number)->stands());
    small.amendFourth(635'000);
    const auto verification = verifyCertificate(small.book, issued.number);
    CHECK_FALSE(verification->stands());
    CHECK(verification->storedTextIntact);
    REQUIRE(verification->changes.size() == 2);
    CHECK(verification->changes.at(0) == "batch: amended entries 1 was 0");
    CHECK(verification->changes.at(1) == "core in North, 4 March 2026 08:00: 63.5 °C was 63.4 °C");
}

TEST_CASE("neither the group name nor another target changes a record") {
    SmallBook small;
    const auto issued = small.issue(at(20, 10).at);
    small.book.setSetting(setting::group, "Another group");
    small.book.setSetting(setting::targetTemperature, "60");
    CHECK(verifyCertificate(small.book, issued.number)->stands());
}

TEST_CASE("a kept text that was tampered with is found out") {
    SmallBook small;
    auto certificate =
        numberedCertificate(small.book, draftCertificate(small.book, small.batch, {defaultTarget()}), at(20, 10).at);
    certificate.canonical.replace(certificate.canonical.find("72"), 2, "24");
    small.book.storeCertificate(certificate);
    const auto verification = verifyCertificate(small.book, certificate.number);
    CHECK_FALSE(verification->storedTextIntact);
    CHECK_FALSE(verification->stands());
}

TEST_CASE("a certificate whose number or date of issue was changed does not stand") {
    SmallBook small;
    auto certificate =
        numberedCertificate(small.book, draftCertificate(small.book, small.batch, {defaultTarget()}), at(20, 10).at);
    const bool isChanged = GENERATE(true, false);
    SECTION("the date by a day") {
        certificate.issued = certificate.issued - Seconds{isChanged ? 86'400 : 0};
    }
    SECTION("the date by a second") {
        certificate.issued = certificate.issued + Seconds{isChanged ? 1 : 0};
    }
    SECTION("the day in the number") {
        certificate.number.at(3) = isChanged ? '5' : certificate.number.at(3);
    }
    SECTION("a digit of the number") {
        auto& digit = certificate.number.at(12);
        digit = isChanged ? (digit == '0' ? '1' : '0') : digit;
    }
    small.book.storeCertificate(certificate);
    const auto verification = verifyCertificate(small.book, certificate.number);
    CHECK(verification->storedTextIntact);
    CHECK(verification->changes.empty());
    CHECK(verification->numberFits != isChanged);
    CHECK(verification->stands() != isChanged);
    CHECK(small.book.check(sha256).faults.size() == (isChanged ? 1U : 0U));
}

TEST_CASE("a batch with any name and start has certificates whose numbers fit") {
    const std::string name =
        GENERATE("spring", "a\tstarted=1999-01-01T00:00:00Z\toffset=+05:00", "\nentries\nbatch\tx");
    auto book = Logbook::inMemory();
    Bin bin;
    bin.name = name;
    Batch batch;
    batch.name = name;
    batch.started = {Instant{1'772'321'400}, {static_cast<std::int16_t>(GENERATE(0, 60, -210, 1'080))}};
    batch.stays = {{batch.started.at, std::get<BinId>(book.apply(Put<Bin>{bin}).id)}};
    book.setSetting(setting::group, name);
    const auto id = std::get<BatchId>(book.apply(Put<Batch>{batch}).id);
    const auto certificate =
        numberedCertificate(book, draftCertificate(book, id, {defaultTarget()}), Instant{1'772'400'000});
    storeOnce(book, certificate);
    CHECK(verifyCertificate(book, certificate.number)->stands());
}

TEST_CASE("a number the book does not hold is not verified") {
    SmallBook small;
    CHECK_FALSE(verifyCertificate(small.book, "20260301-0000-0000"));
}

TEST_CASE("a record longer than a page of readings is whole") {
    SmallBook small;
    const auto bin = small.book.binNamed("North")->id;
    std::vector<RawReading> raw;
    raw.reserve(120'000);
    for (int i = 0; i < 120'000; ++i) {
        raw.push_back({at(7, 0).at + Seconds{i * 2}, 600'000 + i % 7 * 1'000});
    }
    for (const auto* position : {"core", "side"}) {
        small.book.addReadings({{bin, position}, {}, TemperatureUnit::celsius, {}, Source::imported, ""}, raw);
    }
    const auto draft = draftCertificate(small.book, small.batch, {defaultTarget()});
    const auto lines = std::count(draft.canonical.begin(), draft.canonical.end(), '\n');
    CHECK(lines > 240'012);
    CHECK(draft.record.readings == 240'012);
    const auto text = draft.readings.text();
    // Every reading once: those of the seconds at which pages meet too.
    CHECK(std::count(text.begin(), text.end(), '\n') == 240'012 + 4);
}
