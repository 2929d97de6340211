// SPDX-License-Identifier: GPL-3.0-or-later
// What an import is said to come to beforehand, and what becomes of one that is stopped.
#include "core/exchange/plan/preview.h"

#include <rapidcheck.h>

#include <catch2/catch.hpp>
#include <iterator>
#include <numeric>

#include "core/exchange/plan/file_kind.h"
#include "tests/core/exchange/asked.h"
#include "tests/core/exchange/contents.h"

using namespace midden;
using namespace midden::testing;
using Stage = ImportProgress::Stage;

namespace {

ImportPreview previewed(const Logbook& book, const Asked& asked) {
    const auto staged = readFiles(asked.request);
    REQUIRE(staged);
    auto foresight = preview(book, asked.request, *staged);
    INFO((foresight ? "" : foresight.error().sentence()));
    REQUIRE(foresight);
    return *std::move(foresight);
}

std::string previewedRefusal(const Logbook& book, const Asked& asked) {
    const auto foresight = preview(book, asked.request, *readFiles(asked.request));
    return foresight ? "" : foresight.error().problem.wrong;
}

/// Hourly rows of two bins and two positions, some with the outside air, some in °F, some repeated.
std::string anyRows() {
    std::string text = "time,temperature,bin,position,unit,ambient,probe,note\n";
    const auto count = *rc::gen::inRange(1, 40);
    for (int row = 0; row < count; ++row) {
        const auto hour = *rc::gen::inRange<std::int64_t>(0, 60);
        const bool fahrenheit = hour % 7 == 0;
        text += isoUtc(Instant{1'767'225'600 + hour * 3'600}) + "," + std::to_string(hour + (fahrenheit ? 32 : 0)) +
                "," + *rc::gen::element<std::string>("", "North", "Shed") + "," +
                *rc::gen::element<std::string>("core", "side") + "," + (fahrenheit ? "f" : "") + "," +
                (hour % 5 == 0 ? std::to_string(hour % 9) : "") + "," + (hour % 4 == 0 ? "Dial" : "") + "," +
                (hour % 6 == 0 ? "seen" : "") + "\n";
    }
    return text;
}

std::string inBrief(const ImportOutcome& outcome) {
    auto brief = inWords(outcome, false) + isoUtc(outcome.started.at) + (outcome.startMoved ? " moved" : "");
    for (const auto& sentence : outcome.leaving) {
        brief += '\n' + sentence;
    }
    return brief;
}

std::string hourly(int rows) {
    std::string text = "time,temperature\n";
    for (int row = 0; row < rows; ++row) {
        text += isoUtc(Instant{1'767'225'600 + row * 60}) + "," + std::to_string(row % 70) + "\n";
    }
    return text;
}

std::ptrdiff_t openFiles() {
    return std::distance(std::filesystem::directory_iterator{"/proc/self/fd"}, {});
}

}  // namespace

TEST_CASE("what a preview tells of an import is what storing it comes to", "[random]") {
    CHECK(rc::check([] {
        auto book = Logbook::inMemory();
        Asked before{"Early", "North"};
        RC_PRE(import(book, before.readings(anyRows())).has_value());
        Asked asked{*rc::gen::element<std::string>("Early", "Late"), *rc::gen::element<std::string>("North", "Hedge")};
        asked.request.bin = asked.request.batch == "Early" ? std::nullopt : asked.request.bin;
        asked.readings(anyRows()).request.habits.room.rowsInMemory = *rc::gen::inRange<std::size_t>(1, 30);
        const auto staged = readFiles(asked.request);
        RC_ASSERT(staged.has_value());
        const auto contents = contentsOf(book);
        const auto foresight = preview(book, asked.request, *staged);
        RC_ASSERT(contentsOf(book) == contents);
        std::optional<FileResult<ImportOutcome>> stored;
        try {
            stored = storeImport(book, asked.request, *staged);
        } catch (const LogbookError&) {
            RC_DISCARD("the bin is taken, which only storing finds");
        }
        RC_ASSERT(foresight.has_value() == stored->has_value());
        if (foresight) {
            RC_ASSERT(inBrief(foresight->outcome) == inBrief(**stored));
        }
    }));
}

TEST_CASE("places and the time from first to last entry are previewed") {
    auto book = Logbook::inMemory();
    const auto foresight =
        previewed(book, Asked{"Spring"}
                            .readings("time,temperature,bin,position,ambient\n2026-03-02T08:00Z,55,,core,4\n"
                                      "2026-03-01T08:00Z,50,,side,\n2026-03-05T08:00Z,50,Shed,core,\n")
                            .additions("time,material,mass_kg\n2026-03-06T08:00Z,Straw,12.5\n"));
    std::string places;
    for (const auto& [bin, position] : foresight.places) {
        places.append(bin).append("/").append(position).append(" ");
    }
    CHECK(places == "Shed/core North/ North/core North/side ");
    CHECK(isoUtc(foresight.first->at) == "2026-03-01T08:00:00Z");
    CHECK(isoUtc(foresight.last->at) == "2026-03-06T08:00:00Z");
    CHECK(foresight.outcome.additions.added == 1);
    CHECK(book.bins().empty());
}

TEST_CASE("a contradiction with the book is previewed with its line") {
    auto book = Logbook::inMemory();
    imported(book, Asked{"Spring"}.readings("time,temperature\n2026-03-02T08:00Z,55\n"));
    const auto asked = Asked{"Spring"}.readings("time,temperature\n2026-03-01T08:00Z,50\n2026-03-02T08:00Z,55.1\n");
    const auto foresight = preview(book, asked.request, *readFiles(asked.request));
    REQUIRE_FALSE(foresight);
    CHECK(foresight.error().line == 3);
    CHECK(foresight.error().problem.wrong.starts_with("55.1 °C here, but the logbook holds 55 °C"));
}

TEST_CASE("a new batch none of whose entries is in the file is refused beforehand") {
    const auto book = Logbook::inMemory();
    CHECK(previewedRefusal(book, Asked{"Spring"}.readings("time,temperature,bin\n2026-03-02T08:00Z,55,Shed\n")) ==
          "none of it is of bin \"North\", so nothing says when batch \"Spring\" began");
}

TEST_CASE("whoever looks on hears of every stage up to its end") {
    auto book = Logbook::inMemory();
    auto asked = Asked{"Spring"}.readings(hourly(250'000));
    std::map<Stage, std::vector<double>> shares;
    asked.request.habits.progress = [&](const ImportProgress& progress) {
        shares[progress.stage].push_back(progress.share);
        return true;
    };
    const auto staged = readFiles(asked.request);
    REQUIRE(staged);
    REQUIRE(preview(book, asked.request, *staged));
    REQUIRE(storeImport(book, asked.request, *staged));
    for (const auto stage : {Stage::reading, Stage::comparing, Stage::storing}) {
        REQUIRE(shares[stage].size() >= 2);
        CHECK(std::is_sorted(shares[stage].begin(), shares[stage].end()));
    }
    CHECK(shares[Stage::reading].front() == Approx(0.4).margin(0.01));
    CHECK(shares[Stage::comparing].back() == 1.0);
    CHECK(shares[Stage::storing].back() == 1.0);
}

TEST_CASE("a reading that is stopped keeps nothing of its scratch file") {
    const Scratch space;
    auto asked = Asked{"Spring"}.readings(hourly(250'000));
    asked.request.habits.room = {space.folder(), 10'000};
    const auto before = openFiles();
    std::int64_t seen = 0;
    asked.request.habits.progress = [&](const ImportProgress& progress) {
        seen = progress.rows;
        return false;
    };
    {
        const auto staged = readFiles(asked.request);
        REQUIRE_FALSE(staged);
        CHECK(staged.error().stopped);
    }
    CHECK(seen < 250'000);
    CHECK(openFiles() == before);
    CHECK(std::filesystem::is_empty(space.folder()));
}

TEST_CASE("storing that is stopped takes back what was written") {
    const Scratch space;
    auto book = Logbook::open(space.path("b.midden"), Logbook::Mode::createIfAbsent);
    imported(book, Asked{"Early", "Shed"}.readings("time,temperature\n2026-03-02T08:00Z,55\n"));
    const auto contents = contentsOf(book);
    auto asked = Asked{"Spring"}.readings(hourly(250'000));
    const auto staged = readFiles(asked.request);
    REQUIRE(staged);
    int heard = 0;
    asked.request.habits.progress = [&](const ImportProgress& progress) {
        CHECK(progress.stage == Stage::storing);
        return ++heard < 3;
    };
    const auto stored = storeImport(book, asked.request, *staged);
    REQUIRE_FALSE(stored);
    CHECK(stored.error().stopped);
    CHECK(heard == 3);
    CHECK(contentsOf(book) == contents);
    asked.request.habits.progress = {};
    CHECK(storeImport(book, asked.request, *staged)->readings.added == 250'000);
}

TEST_CASE("a file is recognised by its header row") {
    const auto glance = [](std::string_view text) { return *sniffHeader(scratch.write("some.csv", text)); };
    CHECK(glance("time,temperature\n").kind == FileKind::readings);
    CHECK(glance("\xEF\xBB\xBFTime;Temperature (°F);Position\n").kind == FileKind::readings);
    CHECK(glance("mass_kg\ttime\tmaterial\n").kind == FileKind::additions);
    CHECK(glance("time,kind,note\n").kind == FileKind::aerations);
    CHECK(glance("time,kind,value\n").kind == FileKind::observations);
    CHECK(glance("time,temperature_f\n").saysUnit);
    CHECK_FALSE(glance("time,temperature,unit\n").saysUnit);
    CHECK(glance("time,temperature\n2026-03-02T08:00Z,5\n2026-03-02 08:00,5\n").hasLocalTimes);
    CHECK_FALSE(glance("time,temperature\n2026-03-02T08:00Z,5\n").hasLocalTimes);
}

TEST_CASE("a header that fits no kind is refused with what each of them needs") {
    const auto refusal = [](std::string_view text) {
        const auto glance = sniffHeader(scratch.write("some.csv", text));
        return glance ? "" : glance.error().problem.sentence();
    };
    CHECK(
        refusal("Date,Value\n2026-03-02,5\n") ==
        "the first row names the columns date, value, which together fit nothing that is kept here; expected time and "
        "temperature for readings; time, material and mass_kg for additions; time and kind for aerations and "
        "observations; time and volume_l for harvests");
    CHECK(refusal("").starts_with("the file is empty"));
    CHECK(refusal("\xFF\xFEt\0i\0").starts_with("the text is UTF-16"));
    CHECK(refusal("time,probe,kind,read\n").starts_with("the first row names"));
    const auto absent = sniffHeader(scratch.path("absent.csv"));
    REQUIRE_FALSE(absent);
    CHECK(absent.error().problem.wrong.starts_with("cannot be read"));
}
