// SPDX-License-Identifier: GPL-3.0-or-later
#include <rapidcheck.h>

#include <algorithm>
#include <catch2/catch.hpp>
#include <set>

#include "core/store/care/rotation.h"

using namespace midden;

namespace {

/// Wednesday 4 March 2026, 08:10 UTC.
constexpr Instant aMorning{1'772'611'800};

/// A folder as it stands after each copy was made and the rule was followed.
class Folder {
  public:
    void make(Instant made) {
        copies_.insert(made);
        for (const Instant old : copiesToDrop({copies_.begin(), copies_.end()}, made)) {
            copies_.erase(old);
        }
    }
    const std::set<Instant>& copies() const { return copies_; }
    std::size_t between(Instant from, Instant to) const {
        return static_cast<std::size_t>(std::distance(copies_.lower_bound(from), copies_.upper_bound(to)));
    }

  private:
    std::set<Instant> copies_;
};

Folder daily(int count, Instant from = aMorning) {
    Folder folder;
    for (int day = 0; day < count; ++day) {
        folder.make(from + days(day));
    }
    return folder;
}

}  // namespace

TEST_CASE(
    "after a year of daily use there are seven daily copies and eight weekly ones and one of every month before") {
    const Folder folder = daily(366);
    const Instant last = aMorning + days(365);  // Thursday 4 March 2027
    CHECK(folder.between(last - days(6), last) == 7);
    // The week of the oldest daily copy (Friday 26 February) is spoken for; the eight before it end on Sundays.
    CHECK(folder.between(last - days(11 + 7 * 7), last - days(7)) == 8);
    CHECK(folder.copies().count(last - days(11)) == 1);  // Sunday 21 February
    // The weekly ones reach back to Sunday 3 January: then the last Sunday of each month from December to March 2026.
    CHECK(folder.copies().size() == 7 + 8 + 10);
    CHECK(*folder.copies().begin() == aMorning + days(25));  // Sunday 29 March 2026
}

TEST_CASE("after three years of daily use there are exactly seven and eight and twenty four") {
    CHECK(daily(3 * 365).copies().size() == 7 + 8 + 24);
    CHECK(daily(4 * 365).copies().size() == 7 + 8 + 24);
}

TEST_CASE("every one of the latest days and weeks and months of use has a copy") {
    const Folder folder = daily(3 * 365);
    const Instant last = aMorning + days(3 * 365 - 1);
    for (int day = 0; day < 7; ++day) {
        CHECK(folder.between(last - days(day), last - days(day)) == 1);
    }
    for (int week = 0; week < 8; ++week) {
        CHECK(folder.between(last - days(7 * week + 7), last - days(7 * week)) >= 1);
    }
    for (int month = 0; month < 24; ++month) {
        CHECK(folder.between(last - days(31 * month + 38), last - days(31 * month)) >= 1);
    }
}

TEST_CASE("of one day the newest copy is kept") {
    Folder folder;
    for (int hour = 0; hour < 10; ++hour) {
        folder.make(aMorning + hours(hour));
    }
    CHECK(folder.copies() == std::set<Instant>{aMorning + hours(9)});
}

TEST_CASE("a book opened once a month keeps its last thirty nine months") {
    Folder folder;
    for (int month = 0; month < 60; ++month) {
        folder.make(aMorning + days(31 * month));
    }
    CHECK(folder.copies().size() == 39);
}

TEST_CASE("a clock that was set back costs no copy") {
    Folder folder = daily(3 * 365);
    const auto before = folder.copies();
    for (int day = 0; day < 100; ++day) {
        folder.make(Instant{0} + days(day));  // a computer that woke up in 1970
    }
    CHECK(std::includes(folder.copies().begin(), folder.copies().end(), before.begin(), before.end()));
    CHECK(folder.copies().count(Instant{0} + days(99)) == 1);
    folder.make(*before.rbegin() + days(1));
    for (int day = 0; day < 6; ++day) {
        CHECK(folder.copies().count(*before.rbegin() - days(day)) == 1);
    }
}

TEST_CASE("a clock that ran ahead for a day spoils nothing afterwards") {
    Folder folder = daily(100);
    folder.make(aMorning + days(30'000));
    const Instant back = aMorning + days(100);
    for (int day = 0; day < 3 * 365; ++day) {
        folder.make(back + days(day));
    }
    CHECK(folder.copies().size() == 39 + 1);
}

TEST_CASE("laws of the rotation", "[random]") {
    using Ages = std::vector<std::uint32_t>;
    const auto instants = [](const Ages& ages) {
        std::vector<Instant> made;
        for (const auto age : ages) {
            made.push_back(aMorning + Seconds{std::int64_t{age % 200'000'000} - 100'000'000});
        }
        return made;
    };
    CHECK(rc::check("what is dropped was there and is older than the copy just made", [&](const Ages& ages) {
        auto copies = instants(ages);
        copies.push_back(aMorning);
        for (const Instant old : copiesToDrop(copies, aMorning)) {
            RC_ASSERT(old < aMorning);
            RC_ASSERT(std::count(copies.begin(), copies.end(), old) > 0);
        }
    }));
    CHECK(rc::check("at most thirty nine are left of those the clock can judge", [&](const Ages& ages) {
        auto copies = instants(ages);
        copies.push_back(aMorning);
        const std::set<Instant> all{copies.begin(), copies.end()};
        const auto dropped = copiesToDrop({all.begin(), all.end()}, aMorning);
        const auto judged = std::count_if(all.begin(), all.end(), [](Instant copy) { return copy <= aMorning; });
        RC_ASSERT(static_cast<std::size_t>(judged) - dropped.size() <= 39U);
    }));
    CHECK(rc::check("following it twice drops nothing more, whatever the order", [&](const Ages& ages) {
        auto copies = instants(ages);
        copies.push_back(aMorning);
        std::set<Instant> left{copies.begin(), copies.end()};
        std::reverse(copies.begin(), copies.end());
        for (const Instant old : copiesToDrop({left.begin(), left.end()}, aMorning)) {
            left.erase(old);
        }
        RC_ASSERT(copiesToDrop({left.begin(), left.end()}, aMorning).empty());
    }));
    CHECK(rc::check("the copy just made is kept wherever the clock jumps", [&](const Ages& ages) {
        Folder folder;
        for (const Instant made : instants(ages)) {
            folder.make(made);
            RC_ASSERT(folder.copies().count(made) == 1U);
        }
    }));
}
