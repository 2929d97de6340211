// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/review/outlook.h"

#include <algorithm>
#include <catch2/catch.hpp>

#include "made_record.h"

using namespace midden;
using namespace midden::testing;

namespace {

BinOutlook look(const BatchRecord& record) {
    return outlookOf(record, stallsOf(record));
}

const Due* dueOf(const BinOutlook& outlook, DueKind kind) {
    const auto due = std::find_if(outlook.due.begin(), outlook.due.end(), [&](const Due& d) { return d.kind == kind; });
    return due == outlook.due.end() ? nullptr : &*due;
}

}  // namespace

TEST_CASE("the phase follows the readings and curing is the steward's word until it is hot again") {
    CHECK(look(coreRecord({})).phase == Phase::unread);
    CHECK(look(coreRecord(daily({20, 40}))).phase == Phase::heating);
    CHECK(look(coreRecord(daily({20, 45}))).phase == Phase::hot);
    CHECK(look(coreRecord(daily({20, 58, 44}))).phase == Phase::cooling);
    CHECK(look(coreRecord(daily({20, 58, 44, 43}))).phase == Phase::stalled);
    auto record = coreRecord(daily({60, 60, 60, 60, 40, 30, 25}));
    CHECK(look(record).phase == Phase::cooling);
    observe(record, 150, ObservationKind::curing, "started");
    CHECK(look(record).phase == Phase::curing);
    CHECK(nameOf(look(record).phase) == "curing");
    CHECK(look(record).due.empty());
    record.tracks[0].samples.push_back(samplesOf({{168, 50}})[0]);
    CHECK(look(record).phase == Phase::hot);
}

TEST_CASE("a running hold says what is credited what is missing when it completes and by when to read") {
    const auto outlook = look(coreRecord({{0, 30}, {20, 58}, {44, 60}, {68, 59}}));
    REQUIRE(outlook.hold);
    CHECK(outlook.hold->since == atHour(20));
    CHECK(outlook.hold->credited == hours(48));
    CHECK(outlook.hold->missing == hours(24));
    CHECK(outlook.hold->completes == atHour(92));
    CHECK(outlook.hold->readBy == atHour(104));
    CHECK(dueOf(outlook, DueKind::keepHold)->at == atHour(104));
    CHECK(dueOf(outlook, DueKind::completeHold)->at == atHour(92));
    CHECK(dueOf(outlook, DueKind::takeReading)->at == atHour(92));
}

TEST_CASE("a first hot reading starts a hold without credit and a reading that does not qualify ends it") {
    const auto first = look(coreRecord(daily({30, 58})));
    REQUIRE(first.hold);
    CHECK(first.hold->credited == Seconds{});
    CHECK(first.hold->completes == atHour(96));
    const auto broken = look(coreRecord(daily({58, 58, 55.5})));
    CHECK_FALSE(broken.hold);
    CHECK(broken.credited == hours(24));
    CHECK(broken.missing == hours(48));
}

TEST_CASE("a hold needs every monitored position and the first to be read again decides by when") {
    auto record = coreRecord({{0, 60}, {24, 60}, {48, 60}});
    record.tracks.push_back({"side", false, samplesOf({{0, 57}, {24, 57}, {47, 57}})});
    const auto outlook = look(record);
    REQUIRE(outlook.hold);
    CHECK(outlook.hold->credited == hours(47));
    CHECK(outlook.hold->readBy == atHour(83));
    record.tracks[1].samples.back() = samplesOf({{47, 50}})[0];
    CHECK_FALSE(look(record).hold);
}

TEST_CASE("a later entry shows that the next reading did not come in time") {
    auto record = coreRecord(daily({58, 58}));
    REQUIRE(look(record).hold);
    aerate(record, 61);
    const auto outlook = look(record);
    CHECK_FALSE(outlook.hold);
    REQUIRE(outlook.broken);
    CHECK(outlook.broken->at == atHour(60));
    CHECK(outlook.broken->credited == hours(24));
    CHECK(dueOf(outlook, DueKind::holdBroke)->at == atHour(60));
    CHECK_FALSE(dueOf(outlook, DueKind::completeHold));
}

TEST_CASE("what is promised at a moment is what reading then comes to") {
    const Points points = daily({58, 58, 60});
    const auto record = coreRecord(points);
    for (double hour = 49; hour < 140; hour += 1) {
        const auto seen = outlookAt(look(record), atHour(hour));
        auto readOn = points;
        readOn.emplace_back(hour, 60);
        const auto after = look(coreRecord(readOn));
        CAPTURE(hour);
        CHECK(seen.hold.has_value() == (after.credited > hours(48)));
        CHECK(seen.broken.has_value() != seen.hold.has_value());
        const auto* completes = dueOf(seen, DueKind::completeHold);
        CHECK((completes != nullptr && *completes->at <= atHour(hour)) == after.targetShown);
        CHECK((dueOf(seen, DueKind::keepHold) != nullptr) == seen.hold.has_value());
        CHECK((dueOf(seen, DueKind::holdBroke) != nullptr) == seen.broken.has_value());
    }
}

TEST_CASE("the hold as read stands beside the one that is certain") {
    const auto outlook = look(coreRecord(daily({55.5, 60, 60, 55.5, 40})));
    CHECK(outlook.credited == hours(24));
    CHECK(outlook.asRead == hours(72));
    CHECK(outlook.isLongerAsRead());
    CHECK_FALSE(look(coreRecord(daily({58, 60, 60}))).isLongerAsRead());
}

TEST_CASE("a finished batch has no open stall") {
    auto record = coreRecord(daily({20, 58, 60, 44, 38, 33}));
    REQUIRE(look(record).stall);
    record.finished = atHour(130);
    record.batch.finished = Moment{atHour(130), {}};
    CHECK_FALSE(look(record).stall);
    CHECK_FALSE(dueOf(look(record), DueKind::findCause));
}

TEST_CASE("a missed round typed in later makes the broken hold run again") {
    const auto broken = outlookAt(look(coreRecord(daily({58, 58, 60}))), atHour(86));
    REQUIRE(broken.broken);
    CHECK(broken.broken->at == atHour(84));
    CHECK(broken.holdSoFar() == hours(48));
    CHECK_FALSE(dueOf(broken, DueKind::holdWillBreak));
    const auto mended = outlookAt(look(coreRecord(daily({58, 58, 60, 60}))), atHour(86));
    REQUIRE(mended.hold);
    CHECK(mended.hold->credited == hours(72));
}

TEST_CASE("a place left unread breaks the hold of all of them") {
    auto record = coreRecord({{0, 60}, {24, 60}, {48, 60}, {72, 60}, {96, 60}});
    record.tracks.push_back({"side", false, samplesOf({{0, 57}, {24, 57}, {47, 57}})});
    const auto outlook = look(record);
    CHECK_FALSE(outlook.hold);
    REQUIRE(outlook.broken);
    CHECK(outlook.broken->at == atHour(83));
    CHECK(outlook.broken->credited == hours(47));
}

TEST_CASE("from 65 degrees the heat is watched and from 70 the bin is opened up") {
    CHECK_FALSE(dueOf(look(coreRecord(daily({60, 64.9}))), DueKind::watchHeat));
    CHECK(dueOf(look(coreRecord(daily({60, 65}))), DueKind::watchHeat));
    CHECK(look(coreRecord(daily({60, 70}))).due[0].kind == DueKind::openUp);
    CHECK_FALSE(dueOf(look(coreRecord(daily({60, 70}))), DueKind::watchHeat));
}

TEST_CASE("a falling hold is said to break before it breaks") {
    const auto outlook = look(coreRecord({{0, 66}, {12, 63}, {24, 60}}));
    const auto* breaks = dueOf(outlook, DueKind::holdWillBreak);
    REQUIRE(breaks != nullptr);
    CHECK(breaks->at == atHour(40));                   // 60 − 1 °C falls by a degree every four hours to 55 °C
    CHECK_FALSE(dueOf(outlook, DueKind::willGoCold));  // 45 °C would be reached only after the hold is complete
}

TEST_CASE("one mistyped reading foretells nothing") {
    CHECK_FALSE(dueOf(look(coreRecord(daily({60, 60, 60, 46}))), DueKind::willGoCold));
    CHECK(dueOf(look(coreRecord(daily({62, 57, 52, 47}))), DueKind::willGoCold));
    CHECK_FALSE(dueOf(look(coreRecord(daily({52, 47}))), DueKind::willGoCold));
}

TEST_CASE("after the target is shown a fall is ordinary and nothing warns of it") {
    const auto outlook = look(coreRecord(daily({60, 60, 60, 60, 56, 52, 48})));
    CHECK(outlook.targetShown);
    CHECK_FALSE(dueOf(outlook, DueKind::willGoCold));
    CHECK_FALSE(dueOf(outlook, DueKind::keepHold));
}

TEST_CASE("a band is projected only after enough tries on the bin itself") {
    CHECK_FALSE(look(coreRecord(daily({20, 40, 55, 58, 60, 60, 59, 60, 60}))).projection);
    const auto outlook = look(coreRecord(daily({20, 40, 55, 58, 60, 60, 59, 60, 60, 61, 60})));
    REQUIRE(outlook.projection);
    CHECK(outlook.projection->backTests == 9);
    CHECK(outlook.projection->at == atHour(264));
    CHECK(outlook.projection->low < 60);
    CHECK(outlook.projection->high > 60);
    CHECK(outlook.projection->high - outlook.projection->low == Approx(2 * outlook.projection->error));
}

TEST_CASE("a bin that went cold before its target is warned of at its first cold round") {
    const auto cold = look(coreRecord(daily({20, 58, 44})));
    REQUIRE(dueOf(cold, DueKind::wentCold) != nullptr);
    CHECK(dueOf(cold, DueKind::wentCold)->at == atHour(72));
    CHECK(dueOf(look(coreRecord(daily({20, 58, 44, 43}))), DueKind::wentCold) == nullptr);
    CHECK(dueOf(look(coreRecord(daily({20, 58, 46}))), DueKind::wentCold) == nullptr);
    CHECK(dueOf(look(coreRecord(daily({60, 60, 60, 60, 40}))), DueKind::wentCold) == nullptr);
    CHECK(dueOf(look(coreRecord(daily({20, 30, 40}))), DueKind::wentCold) == nullptr);
}
