// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/entries/occupancy.h"

#include <sqlite3.h>

#include <algorithm>
#include <catch2/catch.hpp>

#include "core/store/schema/schema.h"
#include "tests/core/store/books.h"

using namespace midden;
using namespace midden::trial;

namespace {

/// A book whose one bin so many batches stood in, one after the other; every third was moved there.
struct Bins {
    Folder folder;
    std::vector<BatchId> batches;

    explicit Bins(int count) {
        auto book = Logbook::open(folder / "plot.midden", Logbook::Mode::createIfAbsent);
        const auto north = putBin(book, "North");
        for (int i = 0; i < count; ++i) {
            const auto name = "batch " + std::to_string(i);
            const auto begun = i % 3 == 0 ? putBin(book, "Heap " + std::to_string(i)) : north;
            const auto id = putBatch(book, begun, name, 100 * i);
            if (begun != north) {
                auto batch = *book.batch(id);
                batch.stays.push_back({batch.started.at + hours(10), north});
                book.apply(Amend<Batch>{id, batch, ""});
            }
            batches.push_back(id);
        }
    }
    DatabaseFile open() const { return DatabaseFile{folder / "plot.midden", SQLITE_OPEN_READWRITE}; }
};

/// What SQLite does to find the times of a batch in its bins, in steps of its machine.
int stepsFor(const Bins& bins, BatchId batch) {
    auto file = bins.open();
    int count = 0;
    sqlite3_progress_handler(
        file.handle(), 1, [](void* into) { return ++*static_cast<int*>(into), 0; }, &count);
    CHECK_FALSE(occupanciesOf(file, batch).empty());
    sqlite3_progress_handler(file.handle(), 0, nullptr, nullptr);
    return count;
}

}  // namespace

TEST_CASE("the times of a batch are those of its bins, looked at alone or all together") {
    const Bins bins{40};
    auto file = bins.open();
    for (const BatchId batch : bins.batches) {
        for (const Occupancy& own : occupanciesOf(file, batch)) {
            const auto all = occupanciesIn(file, own.bin);
            const auto same = std::ranges::find_if(
                all, [&](const Occupancy& one) { return one.batch == batch && one.since == own.since; });
            REQUIRE(same != all.end());
            CHECK(same->from == own.from);
            CHECK(same->until == own.until);
        }
    }
}

TEST_CASE("finding the times of one batch takes no more work in a bin where many stood") {
    const Bins few{40};
    const Bins many{160};
    CHECK(stepsFor(many, many.batches[80]) < 2 * stepsFor(few, few.batches[20]));
}
