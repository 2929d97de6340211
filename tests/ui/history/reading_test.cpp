// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/ui/support/made_batch.h"
#include "tests/ui/support/qt_support.h"
#include "ui/history/loaded_batch.h"
#include "ui/history/why.h"

using namespace midden;
using namespace midden::ui;
using namespace midden::testing;

namespace {

LoadedPtr loaded(const BatchRecord& record) {
    ReviewQuestions questions;
    questions.criteria = {defaultTarget()};
    return std::make_shared<const LoadedBatch>(record, reviewOf(record, questions));
}

LoadedPtr twoTracks() {
    BatchRecord record = madeRecord();
    record.tracks = {{"core", false, {sampleAt(0, 50), sampleAt(10, 60.5), sampleAt(60, 61)}},
                     {"side", false, {sampleAt(0, 40), sampleAt(11, 45)}}};
    return loaded(record);
}

const TimeZone london = *TimeZone::named("Europe/London");

QString told(const LoadedPtr& batch, ReadingSpot spot, const std::optional<Reading>& typed = {}) {
    return plain(readingSentence(*batch, spot, typed, london, TemperatureUnit::celsius));
}

}  // namespace

TEST_CASE("a reading is told with its time and its change since the last one there") {
    const auto batch = twoTracks();
    CHECK(told(batch, {0, 1}) == "core, Sun 1 Mar 2026 18:00: 60.5 °C, +10.5 in 10 h.");
    CHECK(told(batch, {0, 0}) == "core, Sun 1 Mar 2026 08:00: 50.0 °C, the first reading here.");
}

TEST_CASE("a reading typed in another unit or corrected says what was typed") {
    const auto batch = twoTracks();
    Reading typed;
    typed.written = {600'000, TemperatureUnit::celsius};
    CHECK(told(batch, {0, 1}, typed) ==
          "core, Sun 1 Mar 2026 18:00: 60.5 °C, +10.5 in 10 h. Typed 60 °C, corrected by +0.5 for the thermometer.");
    typed.written = {1'409'000, TemperatureUnit::fahrenheit};
    CHECK(told(batch, {0, 1}, typed).endsWith(" Typed 140.9 °F."));
    typed.written = {605'000, TemperatureUnit::celsius};
    CHECK(told(batch, {0, 1}, typed).endsWith("in 10 h."));
}

TEST_CASE("readings are walked along a position and across positions") {
    const auto batch = twoTracks();
    CHECK(alongTrack(*batch, {0, 0}, true) == ReadingSpot{0, 1});
    CHECK_FALSE(alongTrack(*batch, {0, 0}, false));
    CHECK_FALSE(alongTrack(*batch, {0, 2}, true));
    CHECK(acrossTracks(*batch, {0, 1}, true) == ReadingSpot{1, 1});
    CHECK(acrossTracks(*batch, {0, 2}, false) == ReadingSpot{1, 1});
    CHECK(spotOf(*batch, "side", afterHours(11)) == ReadingSpot{1, 1});
    CHECK_FALSE(spotOf(*batch, "side", afterHours(12)));
    CHECK_FALSE(spotOf(*batch, "base", afterHours(11)));
}

TEST_CASE("an hour that does not count says so and why") {
    BatchRecord record = madeRecord();
    record.tracks = {{"core", false, {sampleAt(0, 60), sampleAt(12, 60), sampleAt(24, 50), sampleAt(65, 60)}}};
    const auto batch = loaded(record);
    const Judgement& judgement = batch->review.criteria.front();
    const QString counted = whySentence(judgement, afterHours(6), london);
    CHECK(counted.contains(": credited towards"));
    CHECK(counted.startsWith("Sun 1 Mar 2026 08:00 to Sun 1 Mar 2026 20:00"));
    const QString silent = whySentence(judgement, afterHours(40), london);
    CHECK(silent.contains("not credited towards"));
    CHECK(silent.contains("41 h"));
    CHECK(whySentence(judgement, afterHours(400), london).contains("outside the readings"));
}

TEST_CASE("a criterion is shown with what it asks and where that is from") {
    const QString words = criterionWords(defaultTarget());
    CHECK(plain(words).contains("at or above 55 °C for 72 h"));
    CHECK(words.contains("Source") != words.isEmpty());
}
