// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/certificate/canonical.h"

#include <rapidcheck.h>
#include <catch2/catch.hpp>

#include "core/certificate/changes.h"
#include "core/criteria/criteria_json.h"
#include "tests/core/certificate/sample_batches.h"

using namespace midden;
using namespace midden::testing;

namespace {

std::vector<std::string> changesOf(const SampleBatch& before, const SampleBatch& after) {
    return changesBetween(before.canonical(), after.canonical());
}

}  // namespace

TEST_CASE("the canonical record is text that anyone can read") {
    auto batch = sampleBatch({{"core", {"58.5", "61"}}});
    judgeBy(batch, sampleTarget());
    CHECK(
        batch.canonical() ==
        "middenbook.record/1\n"
        "issued for\n"
        "group\tname=Long Lane allotments\n"
        "criterion\tof=the published rules\n" +
            criterionText(sampleTarget()) +
            "\n"
            "entries\n"
            "batch\tname=North, March\tstarted=2026-03-01T08:00:00Z\toffset=+00:00\tamended entries=0\tlate entries=0\n"
            "stay\tsince=2026-03-01T08:00:00Z\tbin=North\n"
            "bin\tname=North\tvolume=600 l\n"
            "position\tname=core\tread=in every round\n"
            "probe\tname=Long stem 1\taccuracy=0.5 °C\n"
            "check\tat=2026-03-01T07:00:00Z\toffset=+00:00\tprobe=Long stem 1\tin=ice\tread=0.4 °C\n"
            "series\tbin=North\tposition=core\tunit=°C\toffset=+00:00\tprobe=Long stem 1\tby=Ann\n"
            "2026-03-01T08:00:00Z 58.5\n"
            "series\tbin=North\tposition=core\tunit=°C\toffset=+00:00\tprobe=Long stem 1\tby=Joseph\n"
            "2026-03-02T08:00:00Z 61\n");
}

TEST_CASE("what makes a batch fed stands in its record, and in no other") {
    auto batch = sampleBatch({{"core", {"58.5"}}});
    const auto before = batch.canonical();
    for (auto& bin : batch.bins) {
        bin.heightCentimetres = 90;
        bin.hatchTopCentimetres = 25;
        bin.ventSquareCentimetres = 40;
    }
    batch.record.tracks.at(0).heightCentimetres = 45.5;
    CHECK(batch.canonical() == before);

    batch.record.batch.fed = true;
    Observation level;
    level.when = at(5, 8);
    level.kind = ObservationKind::level;
    level.value = "63.5";
    batch.record.observations.push_back(level);
    Aeration forked;
    forked.when = at(6, 8);
    forked.kind = AerationKind::forked;
    forked.depthCentimetres = 30;
    batch.record.aerations.push_back(forked);
    Harvest harvest;
    harvest.when = at(7, 8);
    harvest.volumeLitres = 20;
    harvest.massKilograms = 12.5;
    harvest.note = "two buckets";
    batch.record.harvests.push_back(harvest);
    const auto fed = batch.canonical();
    for (const char* line :
         {"\tfeeding=fed\tamended entries=0", "bin\tname=North\tvolume=600 l\theight=90 cm\thatch top=25 cm\n",
          "position\tname=core\tread=in every round\theight=45.5 cm\n",
          "aeration\tat=2026-03-06T08:00:00Z\toffset=+00:00\tkind=forked\tdepth=30 cm\n",
          "observation\tat=2026-03-05T08:00:00Z\toffset=+00:00\tkind=level\tvalue=63.5\n",
          "harvest\tat=2026-03-07T08:00:00Z\toffset=+00:00\tvolume=20 l\tmass=12.5 kg\n"}) {
        INFO(line);
        CHECK(fed.find(line) != std::string::npos);
    }
    auto after = batch;
    after.record.harvests.at(0).volumeLitres = 25;
    const auto changes = changesOf(batch, after);
    REQUIRE(changes.size() == 1);
    CHECK(changes.front() == "harvest, 7 March 2026 08:00: volume 25 l was 20 l");
}

TEST_CASE("a reading amended by a tenth of a degree is named with both values") {
    const auto before = shownBatch();
    auto after = before;
    auto& reading = after.readings.at(10);
    reading.written.tenThousandths += 1'000;
    const auto changes = changesOf(before, after);
    REQUIRE(changes.size() == 1);
    CHECK(changes.front() == "core in North, 4 March 2026 08:00: 66.6 °C was 66.5 °C");
}

TEST_CASE("entries made since and entries taken back are named") {
    const auto before = shownBatch();
    auto after = before;
    after.readings.pop_back();
    after.record.aerations.push_back(after.record.aerations.front());
    after.record.aerations.back().when = at(10, 18);
    after.record.additions.at(1).massKilograms = 12.5;
    const auto changes = changesOf(before, after);
    REQUIRE(changes.size() == 3);
    CHECK(changes.at(0) == "addition of wood chip, 1 March 2026 08:10: mass 12.5 kg was 11 kg");
    CHECK(changes.at(1) == "aeration, 10 March 2026 18:00: kind turned, entered since");
    CHECK(changes.at(2) == "side in North, 13 March 2026 08:00: 38 °C, probe Long stem 1, by Ann, no longer there");
}

TEST_CASE("of several entries of one second the change is told of the one that changed") {
    auto before = shownBatch();
    auto& aerations = before.record.aerations;
    aerations.resize(1);
    aerations.push_back(aerations.front());
    aerations.back().kind = AerationKind::watered;
    auto after = before;
    after.record.aerations.erase(after.record.aerations.begin());
    CHECK(changesOf(before, after).size() == 1);
    CHECK(changesOf(before, after).front().find("kind turned, no longer there") != std::string::npos);
    after = before;
    after.record.aerations.front().kind = AerationKind::forked;
    REQUIRE(changesOf(before, after).size() == 1);
    CHECK(changesOf(before, after).front().find("kind forked was turned") != std::string::npos);
}

TEST_CASE("of one material added twice in one second the changed mass stands beside its own old one") {
    auto before = shownBatch();
    auto& additions = before.record.additions;
    additions.resize(1);
    for (const double kilograms : {2.0, 3.0}) {
        additions.push_back(additions.front());
        additions.back().massKilograms = kilograms;
    }
    auto after = before;
    after.record.additions.at(2).massKilograms = 1;
    REQUIRE(changesOf(before, after).size() == 1);
    CHECK(changesOf(before, after).front().find("mass 1 kg was 3 kg") != std::string::npos);
    after.record.additions.pop_back();
    REQUIRE(changesOf(before, after).size() == 1);
    CHECK(changesOf(before, after).front().find("mass 3 kg") != std::string::npos);
    CHECK(changesOf(before, after).front().find("no longer there") != std::string::npos);
}

TEST_CASE("times are named on the clock they were written by") {
    auto before = sampleBatch({{"core", {"58.5"}}});
    before.readings.front().when.offset = {60};
    auto after = before;
    after.readings.front().written.tenThousandths = 590'000;
    CHECK(changesOf(before, after) == std::vector<std::string>{"core in North, 1 March 2026 09:00: 59 °C was 58.5 °C"});
}

TEST_CASE("two entries alike are told apart") {
    auto before = shownBatch();
    before.record.additions.push_back(before.record.additions.back());
    auto after = before;
    after.record.additions.pop_back();
    const auto changes = changesOf(before, after);
    REQUIRE(changes.size() == 1);
    CHECK(changes.front().find("no longer there") != std::string::npos);
}

TEST_CASE("a record says the same however its entries were stored") {
    const auto batch = shownBatch();
    auto shuffled = batch;
    for (auto& addition : shuffled.record.additions) {
        addition.id.digits = "another";
        addition.provenance.source = Source::merged;
    }
    shuffled.record.batch.id = BatchId{77};
    std::swap(shuffled.record.additions.at(0), shuffled.record.additions.at(1));
    CHECK(shuffled.canonical() == batch.canonical());
}

TEST_CASE("readings come out the same whatever pages they are taken in by", "[random]") {
    const auto batch = shownBatch();
    rc::check("any two pages", [&] {
        const auto cut = *rc::gen::inRange<std::size_t>(0, batch.readings.size() + 1);
        WrittenReadings paged{batch.bins, batch.record.probes};
        paged.add(std::span{batch.readings}.first(cut));
        paged.add(std::span{batch.readings}.subspan(cut));
        RC_ASSERT(paged.text() == batch.written().text());
    });
}

TEST_CASE("any text survives being written and read", "[random]") {
    rc::check("fields", [](const std::string& value) {
        const auto line = CanonicalLine{"word"}.with("name", value);
        const auto text = line.text();
        RC_ASSERT(text.find('\n') == text.size() - 1);
        RC_ASSERT(CanonicalLine::parse(text.substr(0, text.size() - 1)).field("name") == value);
    });
}

TEST_CASE("numbers are written without losing anything", "[random]") {
    CHECK(decimal(0.1) == "0.1");
    CHECK(decimal(1e-7) == "1e-07");
    CHECK(decimal(Kelvins::ofTenThousandths(10'000)) == "1");
    CHECK(decimal(Kelvins::ofTenThousandths(12'500)) == "1.25");
    rc::check("doubles", [](double number) { RC_ASSERT(std::stod(decimal(number)) == number); });
}

TEST_CASE("a text without entries has none") {
    CHECK(partsOf("nonsense").entries.empty());
    const auto canonical = shownBatch().canonical();
    const auto parts = partsOf(canonical);
    CHECK(std::string{parts.head} + std::string{parts.entries} == canonical);
    CHECK(parts.entries.starts_with("entries\n"));
}
