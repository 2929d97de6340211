// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/schema/read_twice.h"

#include <sqlite3.h>

#include <catch2/catch.hpp>
#include <map>
#include <random>
#include <set>

using namespace midden;

namespace {

/// A reading table as in a book, without its rules, so that it can hold what a book may not.
struct Table {
    DatabaseFile file{":memory:", SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE};

    Table() { file.run("CREATE TABLE reading(series, at, raw, PRIMARY KEY (series, at)) WITHOUT ROWID"); }

    void add(std::int64_t series, std::int64_t at) {
        Query{file, "INSERT OR IGNORE INTO reading VALUES (?, ?, 0)"}.with(series, at).run();
    }
    std::vector<std::int64_t> twice(std::int64_t series, std::size_t most = 1'000'000) {
        std::vector<std::int64_t> all(static_cast<std::size_t>(series));
        for (std::int64_t i = 0; i < series; ++i) {
            all[static_cast<std::size_t>(i)] = i;
        }
        std::vector<std::int64_t> found;
        for (const Instant at : readTwice(file, all, most)) {
            found.push_back(at.utcSeconds);
        }
        return found;
    }
    /// What SQLite does, in steps of its machine.
    int steps(std::int64_t series) {
        int count = 0;
        sqlite3_progress_handler(
            file.handle(), 1, [](void* into) { return ++*static_cast<int*>(into), 0; }, &count);
        CHECK(twice(series).empty());
        sqlite3_progress_handler(file.handle(), 0, nullptr, nullptr);
        return count;
    }
};

}  // namespace

TEST_CASE("instants read twice are those a plain count finds") {
    std::mt19937 random{4'711};
    for (int trial = 0; trial < 60; ++trial) {
        Table table;
        std::map<std::int64_t, std::set<std::int64_t>> plain;
        const int series = 1 + trial % 9;
        for (int i = 0; i < 300; ++i) {
            const auto one = static_cast<std::int64_t>(random() % static_cast<unsigned>(series));
            const auto at = static_cast<std::int64_t>(random() % (trial % 2 == 0 ? 400U : 9'000U)) + 200 * one;
            table.add(one, at);
            plain[at].insert(one);
        }
        std::vector<std::int64_t> expected;
        for (const auto& [at, whom] : plain) {
            if (whom.size() > 1) {
                expected.push_back(at);
            }
        }
        CHECK(table.twice(series) == expected);
        CHECK(table.twice(series, 2).size() == std::min<std::size_t>(2, expected.size()));
    }
}

TEST_CASE("looking for instants read twice takes work by the readings, however many series there are") {
    const auto stepsOf = [](int series) {
        Table table;
        for (int i = 0; i < series * 4; ++i) {
            table.add(i % series, i);
        }
        return table.steps(series);
    };
    CHECK(stepsOf(800) < 3 * stepsOf(400));
}

TEST_CASE("one reading beside a logger's many is looked up, not walked to") {
    Table table;
    for (int i = 0; i < 20'000; ++i) {
        table.add(0, i * 2);
    }
    table.add(1, 1'001);
    table.add(1, 30'001);
    CHECK(table.steps(2) < 1'000);
}
