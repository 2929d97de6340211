// SPDX-License-Identifier: GPL-3.0-or-later
#include <rapidcheck.h>

#include <algorithm>
#include <catch2/catch.hpp>

#include "core/review/stall.h"
#include "made_record.h"

using namespace midden;
using namespace midden::testing;

namespace {

/// Six to forty readings, 1 to 40 h apart, now and then handled or fed.
BatchRecord anyRecord() {
    const auto count = *rc::gen::inRange(6, 40);
    Points points;
    double hour = 0;
    for (int i = 0; i < count; ++i) {
        points.emplace_back(hour, *rc::gen::inRange(20, 66));
        hour += *rc::gen::inRange(2, 40);
    }
    auto record = coreRecord(points);
    for (int i = *rc::gen::inRange(0, 3); i > 0; --i) {
        aerate(record, *rc::gen::inRange(0, 300));
        add(record, *rc::gen::inRange(0, 300), *rc::gen::arbitrary<bool>());
    }
    const auto earlier = [](const auto& a, const auto& b) { return a.when.at < b.when.at; };
    std::sort(record.aerations.begin(), record.aerations.end(), earlier);
    std::sort(record.additions.begin(), record.additions.end(), earlier);
    return record;
}

void shift(BatchRecord& record, Seconds by) {
    record.batch.started.at = record.batch.started.at + by;
    for (auto& sample : record.tracks[0].samples) {
        sample.at = sample.at + by;
    }
    for (auto& addition : record.additions) {
        addition.when.at = addition.when.at + by;
    }
    for (auto& aeration : record.aerations) {
        aeration.when.at = aeration.when.at + by;
    }
}

bool isSame(const Stall& a, const Stall& b, Seconds by = {}) {
    const bool endsAlike = a.to ? b.to == *a.to + by : !b.to;
    return a.kind == b.kind && a.from + by == b.from && endsAlike && a.hoursShort == b.hoursShort &&
           a.hoursCredited == b.hoursCredited;
}

}  // namespace

TEST_CASE("shifting a whole batch in time shifts its stalls and nothing else", "[random]") {
    CHECK(rc::check("shifting a whole batch in time shifts its stalls", [] {
        auto record = anyRecord();
        const auto before = stallsOf(record);
        const Seconds by{*rc::gen::inRange(-1'000'000, 1'000'000)};
        shift(record, by);
        const auto after = stallsOf(record);
        RC_ASSERT(before.size() == after.size());
        for (std::size_t i = 0; i < before.size(); ++i) {
            RC_ASSERT(isSame(before[i], after[i], by));
        }
    }));
}

TEST_CASE("readings that come later do not change a stall that is over", "[random]") {
    CHECK(rc::check("readings that come later do not change a stall that is over", [] {
        auto record = anyRecord();
        const auto whole = stallsOf(record);
        const auto kept =
            static_cast<std::size_t>(*rc::gen::inRange(2, static_cast<int>(record.tracks[0].samples.size())));
        record.tracks[0].samples.resize(kept);
        const Instant end = record.tracks[0].samples.back().at;
        std::erase_if(record.additions, [&](const Addition& a) { return a.when.at > end; });
        std::erase_if(record.aerations, [&](const Aeration& a) { return a.when.at > end; });
        for (const auto& stall : stallsOf(record)) {
            const bool isKept = !stall.to || std::any_of(whole.begin(), whole.end(),
                                                         [&](const Stall& later) { return isSame(stall, later); });
            RC_ASSERT(isKept);
        }
    }));
}

TEST_CASE("stalls are in time order inside the batch and always have a cause and never negative hours", "[random]") {
    CHECK(rc::check("stalls are in order and whole", [] {
        const auto record = anyRecord();
        Instant last{std::numeric_limits<std::int64_t>::min()};
        for (const auto& stall : stallsOf(record)) {
            RC_ASSERT(stall.from >= last);
            RC_ASSERT(!stall.to || *stall.to > stall.from);
            RC_ASSERT(!stall.causes.empty());
            RC_ASSERT(stall.hoursShort >= 0 && stall.hoursShort <= 72);
            last = stall.from;
        }
    }));
}
