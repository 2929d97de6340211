// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/review/tasks.h"

#include <rapidcheck.h>

#include <algorithm>
#include <catch2/catch.hpp>

#include "core/review/stall.h"
#include "made_record.h"

using namespace midden;
using namespace midden::testing;

namespace {

BinStatus statusAfter(const BatchRecord& record, std::vector<Criterion> criteria = {defaultTarget()}) {
    return statusOf(record, outlookOf(record, stallsOf(record)), judgeAll(criteria, record));
}

/// The day of the hour: from 08:00 UTC, when every invented batch starts, to the next.
Today at(double hour) {
    const double dayEnd = (std::floor(hour / 24) + 1) * 24 - 8;
    return {atHour(hour), atHour(dayEnd > hour ? dayEnd : dayEnd + 24)};
}

std::vector<Task> tasksOf(const BatchRecord& record, double hour) {
    const BinStatus bins[] = {statusAfter(record)};
    return tasksFor(bins, at(hour));
}

const Task* taskOf(const std::vector<Task>& tasks, TaskKind kind) {
    const auto task = std::find_if(tasks.begin(), tasks.end(), [&](const Task& one) { return one.kind == kind; });
    return task == tasks.end() ? nullptr : &*task;
}

BatchRecord named(BatchRecord record, const std::string& bin, int id) {
    record.bin.name = record.binName = bin;
    record.bin.id = BinId{id};
    record.batch.id = BatchId{id};
    return record;
}

}  // namespace

TEST_CASE("a bin that was read today and stands well has nothing to do") {
    CHECK(tasksOf(coreRecord(daily({30, 58, 60})), 49).empty());
    CHECK(tasksFor({}, at(0)).empty());
    const BinStatus empty[] = {BinStatus{}};
    CHECK(tasksFor(empty, at(0)).empty());
}

TEST_CASE("a reading is due when the usual round falls into the day and overdue after it") {
    const auto record = coreRecord(daily({20, 30, 40}));
    CHECK(taskOf(tasksOf(record, 50), TaskKind::read) == nullptr);
    const auto due = tasksOf(record, 65);
    REQUIRE(taskOf(due, TaskKind::read) != nullptr);
    CHECK(taskOf(due, TaskKind::read)->until == atHour(72));
    const auto overdue = tasksOf(record, 73);
    REQUIRE(taskOf(overdue, TaskKind::readOverdue) != nullptr);
    CHECK(taskOf(overdue, TaskKind::readOverdue)->since == atHour(48));
}

TEST_CASE("a running hold asks for its reading before its credit is lost and for the one that ends it") {
    const auto record = coreRecord(daily({30, 58, 60, 59}));
    const auto overdue = tasksOf(record, 97);
    REQUIRE(taskOf(overdue, TaskKind::endHold) != nullptr);
    CHECK(overdue.front().kind == TaskKind::endHold);
    CHECK(overdue.front().until == atHour(96));
    CHECK(overdue.front().urgency == Urgency::now);
    const auto early = coreRecord(daily({30, 58, 60}));
    const auto hurry = tasksOf(early, 75);
    REQUIRE_FALSE(hurry.empty());
    CHECK(hurry.front().kind == TaskKind::readForHold);
    CHECK(hurry.front().until == atHour(84));
    CHECK(taskOf(hurry, TaskKind::readOverdue) == nullptr);
    CHECK(taskOf(tasksOf(early, 85), TaskKind::readForHold) == nullptr);
}

TEST_CASE("a hold that broke unread asks for the missed round and promises nothing") {
    const auto record = coreRecord(daily({30, 58, 60, 59}));
    CHECK(taskOf(tasksOf(record, 108), TaskKind::endHold) != nullptr);
    const auto tasks = tasksOf(record, 109);
    CHECK(taskOf(tasks, TaskKind::endHold) == nullptr);
    CHECK(taskOf(tasks, TaskKind::saveHold) == nullptr);
    CHECK(taskOf(tasks, TaskKind::readOverdue) == nullptr);
    const Task* missed = taskOf(tasks, TaskKind::bridgeGap);
    REQUIRE(missed != nullptr);
    CHECK(missed->until == atHour(108));
    CHECK(missed->credited == hours(48));
    CHECK(missed->since == atHour(72));
    CHECK(missed->urgency == Urgency::today);
}

TEST_CASE("a first hot reading that was left alone has lost nothing and is only overdue") {
    const auto tasks = tasksOf(coreRecord(daily({30, 58})), 70);
    CHECK(taskOf(tasks, TaskKind::bridgeGap) == nullptr);
    CHECK(taskOf(tasks, TaskKind::readOverdue) != nullptr);
}

TEST_CASE("a stall comes with its first remedy and with the time to judge one that was logged") {
    auto record = coreRecord(daily({20, 58, 60, 44, 38, 33}));
    const auto stalled = tasksOf(record, 121);
    const auto* remedy = taskOf(stalled, TaskKind::tryRemedy);
    REQUIRE(remedy != nullptr);
    CHECK(remedy->since == atHour(72));
    CHECK_FALSE(remedy->detail.empty());
    observe(record, 121, ObservationKind::remedy, "turned", "out-of-air");
    const auto waiting = tasksOf(record, 122);
    CHECK(taskOf(waiting, TaskKind::tryRemedy) == nullptr);
    REQUIRE(taskOf(waiting, TaskKind::judgeRemedy) != nullptr);
    CHECK(taskOf(waiting, TaskKind::judgeRemedy)->until == atHour(193));
    CHECK(taskOf(waiting, TaskKind::judgeRemedy)->detail == "turned");
}

TEST_CASE("too hot comes before everything else of any bin") {
    const BinStatus bins[] = {statusAfter(named(coreRecord(daily({20, 30})), "A", 1)),
                              statusAfter(named(coreRecord(daily({58, 71})), "B", 2))};
    const auto tasks = tasksFor(bins, at(49));
    REQUIRE(tasks.size() >= 2);
    CHECK(tasks.front().kind == TaskKind::openUp);
    CHECK(tasks.front().where == "B");
    CHECK(tasks.front().urgency == Urgency::now);
}

TEST_CASE("a batch that was never read asks for its first reading alone") {
    const auto tasks = tasksOf(coreRecord({}), 30);
    REQUIRE(tasks.size() == 1);
    CHECK(tasks.front().kind == TaskKind::firstReading);
}

TEST_CASE("a rule in force with turnings asks for the next one from when it would count") {
    Criterion windrow = targetCriterion(defaultTarget().alternatives[0].steps[0].threshold, hours(360));
    windrow.title = "Invented rule with five turnings";
    windrow.alternatives[0].steps[0].turnings = TurningsAsked{5, days(3)};
    auto record = coreRecord(daily({60, 60, 60, 60, 60}));
    const auto first = statusAfter(record, {windrow});
    REQUIRE(first.turnings.size() == 1);
    CHECK(first.turnings[0].recorded == 0);
    CHECK(first.turnings[0].from == atHour(0));
    aerate(record, 70);
    const BinStatus turned[] = {statusAfter(record, {windrow})};
    REQUIRE(turned[0].turnings.size() == 1);
    CHECK(turned[0].turnings[0].recorded == 1);
    CHECK(turned[0].turnings[0].from == atHour(142));
    CHECK(taskOf(tasksFor(turned, at(97)), TaskKind::turn) == nullptr);
    CHECK(turned[0].turnings[0].until == atHour(132));
    record.tracks[0].samples.push_back(samplesOf({{120, 60}})[0]);
    const BinStatus readOn[] = {statusAfter(record, {windrow})};
    const auto later = tasksFor(readOn, at(140));
    REQUIRE(taskOf(later, TaskKind::turn) != nullptr);
    CHECK(taskOf(later, TaskKind::turn)->until == atHour(142));
    CHECK(taskOf(later, TaskKind::turn)->asked == 5);
    CHECK(taskOf(tasksFor(readOn, at(157)), TaskKind::turn) == nullptr);  // unread since 120: that hold is over
}

TEST_CASE("readings of one round count as a round however many minutes lie between its positions") {
    Criterion windrow = targetCriterion(defaultTarget().alternatives[0].steps[0].threshold, hours(360));
    windrow.alternatives[0].steps[0].turnings = TurningsAsked{5, days(3)};
    const double later = 0.2;  // twelve minutes
    const auto record = [&](double lastAtSide) {
        auto both = coreRecord(daily({60, 60, 60}));
        both.tracks.push_back({"side", false, samplesOf({{later, 60}, {24 + later, 60}, {48 + later, lastAtSide}})});
        return both;
    };
    const auto minutesApart = statusAfter(record(60), {windrow});
    REQUIRE(minutesApart.turnings.size() == 1);
    CHECK(minutesApart.turnings[0].until == atHour(84));  // 36 h after the position that was left alone longest
    SECTION("in whichever order they were read") {
        auto turnedRound = record(60);
        std::swap(turnedRound.tracks[0], turnedRound.tracks[1]);
        REQUIRE(statusAfter(turnedRound, {windrow}).turnings.size() == 1);
    }
    SECTION("also while the last of them is still to be read") {
        auto half = record(60);
        half.tracks[1].samples.pop_back();
        REQUIRE(statusAfter(half, {windrow}).turnings.size() == 1);
        CHECK(statusAfter(half, {windrow}).turnings[0].until == atHour(60 + later));
    }
    SECTION("but not when the last one is cold") {
        CHECK(statusAfter(record(40), {windrow}).turnings.empty());
        auto half = record(60);
        half.tracks[1].samples.pop_back();
        half.tracks[0].samples.back() = samplesOf({{48, 40}})[0];
        CHECK(statusAfter(half, {windrow}).turnings.empty());
    }
    SECTION("nor when the round comes too late") {
        auto late = record(60);
        late.tracks[0].samples = samplesOf({{0, 60}, {24, 60}, {61, 60}});
        late.tracks[1].samples = samplesOf({{later, 60}, {24 + later, 60}, {61 + later, 60}});
        CHECK(statusAfter(late, {windrow}).turnings.empty());
    }
    SECTION("nor when raw material went in between two of them") {
        auto fed = record(60);
        add(fed, 48.1);
        CHECK(statusAfter(fed, {windrow}).turnings.empty());
    }
}

TEST_CASE("a reached hold offers its certificate until one is issued") {
    auto record = coreRecord(daily({58, 60, 60, 60, 60}));
    const auto tasks = tasksOf(record, 97);
    REQUIRE(taskOf(tasks, TaskKind::certify) != nullptr);
    BinStatus bins[] = {statusAfter(record)};
    bins[0].isCertified = true;
    CHECK(taskOf(tasksFor(bins, at(97)), TaskKind::certify) == nullptr);
}

TEST_CASE("a bin that has cooled for good is to be turned and then to cure and then to be tested") {
    auto record = coreRecord(daily({60, 60, 60, 60, 60, 50, 38, 36, 34, 32}));
    auto tasks = tasksOf(record, 217);
    REQUIRE(taskOf(tasks, TaskKind::beginCuring) != nullptr);
    CHECK(taskOf(tasks, TaskKind::beginCuring)->since == atHour(144));
    CHECK(taskOf(tasks, TaskKind::beginCuring)->recorded == 0);
    aerate(record, 144);
    CHECK(taskOf(tasksOf(record, 217), TaskKind::beginCuring)->recorded == 1);
    observe(record, 217, ObservationKind::curing, "started");
    CHECK(taskOf(tasksOf(record, 218), TaskKind::beginCuring) == nullptr);
    CHECK(taskOf(tasksOf(record, 218), TaskKind::testCuring) == nullptr);
    CHECK(taskOf(tasksOf(record, 217 + 29 * 24), TaskKind::testCuring) == nullptr);
    REQUIRE(taskOf(tasksOf(record, 217 + 31 * 24), TaskKind::testCuring) != nullptr);
    observe(record, 217 + 31 * 24, ObservationKind::seedTest, "8 of 10 came up");
    CHECK(taskOf(tasksOf(record, 217 + 32 * 24), TaskKind::testCuring) == nullptr);
}

TEST_CASE("a thermometer asks for its check once however many bins it reads") {
    auto record = coreRecord(daily({58, 60}));
    Probe probe;
    probe.id = ProbeId{7};
    probe.name = "long dial";
    record.probes.push_back(probe);
    BinStatus bins[] = {statusAfter(named(record, "A", 1)), statusAfter(named(record, "B", 2))};
    const auto tasks = tasksFor(bins, at(25));
    CHECK(std::count_if(tasks.begin(), tasks.end(), [](const Task& t) { return t.kind == TaskKind::checkProbe; }) == 1);
    CHECK(taskOf(tasks, TaskKind::checkProbe)->where == "long dial");
    bins[1].probes[0].lastCheck = atHour(0);
    CHECK(taskOf(tasksFor(bins, at(25)), TaskKind::checkProbe) == nullptr);
    CHECK(taskOf(tasksFor(bins, at(90 * 24)), TaskKind::checkProbe) != nullptr);
}

TEST_CASE("laws of the list of tasks", "[random]") {
    CHECK(rc::check("it is the same whatever order the bins come in and names only bins with something due", [] {
        std::vector<BinStatus> bins;
        const int count = *rc::gen::inRange(1, 6);
        for (int i = 0; i < count; ++i) {
            Points points;
            const int rounds = *rc::gen::inRange(0, 8);
            for (int day = 0; day < rounds; ++day) {
                points.emplace_back(day * 24 + *rc::gen::inRange(0, 5), *rc::gen::inRange(15, 75));
            }
            bins.push_back(statusAfter(named(coreRecord(points), std::string(1, static_cast<char>('A' + i)), i + 1)));
        }
        const Today today = at(*rc::gen::inRange(0, 240));
        const auto tasks = tasksFor(bins, today);
        std::reverse(bins.begin(), bins.end());
        const auto again = tasksFor(bins, today);
        RC_ASSERT(tasks.size() == again.size());
        for (std::size_t i = 0; i < tasks.size(); ++i) {
            RC_ASSERT(tasks[i].kind == again[i].kind);
            RC_ASSERT(tasks[i].where == again[i].where);
        }
        RC_ASSERT(std::is_sorted(tasks.begin(), tasks.end(),
                                 [](const Task& a, const Task& b) { return a.urgency < b.urgency; }));
        for (const auto& bin : bins) {
            const auto alone = tasksFor({&bin, 1}, today);
            const auto mentioned =
                std::count_if(tasks.begin(), tasks.end(), [&](const Task& t) { return t.bin == bin.bin.id; });
            RC_ASSERT(static_cast<std::size_t>(mentioned) == alone.size());
        }
    }));
}

namespace {

/// Hot, fed and read; what it asks for besides is up to the case.
BinStatus fedBin(const BatchRecord& record, FedStatus fed) {
    BatchRecord kept = record;
    kept.batch.fed = true;
    BinStatus status = statusAfter(kept);
    status.fed = std::move(fed);
    return status;
}

}  // namespace

TEST_CASE("a fed bin has no hold to save, complete or certify") {
    for (const auto& record : {coreRecord(daily({30, 58, 60})), coreRecord(daily({30, 58, 60, 59})),
                               coreRecord(daily({58, 60, 59, 61, 60, 62}))}) {
        for (const double hour : {50.0, 75.0, 97.0, 109.0, 130.0, 200.0}) {
            const BinStatus bins[] = {fedBin(record, {})};
            for (const TaskKind kind : {TaskKind::saveHold, TaskKind::readForHold, TaskKind::endHold,
                                        TaskKind::bridgeGap, TaskKind::certify, TaskKind::turn}) {
                CAPTURE(hour, static_cast<int>(kind));
                CHECK(taskOf(tasksFor(bins, at(hour)), kind) == nullptr);
            }
        }
    }
}

TEST_CASE("a fed bin asks to be fed in its own rhythm, measured every fortnight, and says what is ready") {
    const auto record = coreRecord(daily({30, 58, 60}));
    FedStatus fed;
    fed.lastFed = atHour(40);
    fed.feedDue = atHour(88);
    fed.level = Level{atHour(0), 50};
    const auto tasksWith = [&](const FedStatus& status, double hour) {
        const BinStatus bins[] = {fedBin(record, status)};
        return tasksFor(bins, at(hour));
    };
    CHECK(taskOf(tasksWith(fed, 49), TaskKind::feed) == nullptr);
    REQUIRE(taskOf(tasksWith(fed, 80), TaskKind::feed) != nullptr);
    CHECK(taskOf(tasksWith(fed, 80), TaskKind::feed)->until == atHour(88));
    CHECK(taskOf(tasksWith(fed, 80), TaskKind::feed)->fed->lastFed == atHour(40));

    CHECK(taskOf(tasksWith(fed, 300), TaskKind::measureLevel) == nullptr);
    REQUIRE(taskOf(tasksWith(fed, 330), TaskKind::measureLevel) != nullptr);
    CHECK(taskOf(tasksWith(fed, 330), TaskKind::measureLevel)->since == atHour(0));
    fed.level.reset();
    REQUIRE(taskOf(tasksWith(fed, 49), TaskKind::measureLevel) != nullptr);
    CHECK_FALSE(taskOf(tasksWith(fed, 49), TaskKind::measureLevel)->since);

    CHECK(taskOf(tasksWith(fed, 49), TaskKind::takeOut) == nullptr);
    fed.ready = LowestLayers{40, atHour(0), atHour(10), hours(96)};
    REQUIRE(taskOf(tasksWith(fed, 49), TaskKind::takeOut) != nullptr);
    CHECK(taskOf(tasksWith(fed, 49), TaskKind::takeOut)->urgency == Urgency::soon);
}
