// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/read/bin_statuses.h"

#include <catch2/catch.hpp>

using namespace midden;

namespace {

constexpr Instant start{1'772'352'000};  // 2026-03-01T08:00:00Z

BatchId putBatch(Logbook& book, BinId bin, const std::string& name, Instant from) {
    return std::get<BatchId>(book.apply(Put<Batch>{{.name = name, .started = {from, {}}, .stays = {{from, bin}}}}).id);
}

void finish(Logbook& book, const std::string& name, Instant at) {
    Batch batch = *book.batchNamed(name);
    batch.finished = Moment{at, {}};
    book.apply(Amend<Batch>{batch.id, batch, {}});
}

}  // namespace

TEST_CASE("bins in use stand with their batch and a finished batch stands until it is certified or long past") {
    auto book = Logbook::inMemory();
    const auto north = std::get<BinId>(book.apply(Put<Bin>{{.name = "North"}}).id);
    book.apply(Put<Bin>{{.name = "Shed"}});
    putBatch(book, north, "First", start);
    CHECK(statusesOf(book, start + days(1)).size() == 1);
    finish(book, "First", start + days(20));
    putBatch(book, north, "Second", start + days(21));
    const auto both = statusesOf(book, start + days(22));
    REQUIRE(both.size() == 2);
    CHECK(both[0].batch->name == "Second");
    CHECK_FALSE(both[0].isFinished);
    CHECK(both[1].batch->name == "First");
    CHECK(both[1].isFinished);
    CHECK(statusesOf(book, start + days(51)).size() == 1);
}
