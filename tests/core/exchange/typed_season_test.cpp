// SPDX-License-Identifier: GPL-3.0-or-later
// A season typed by hand, number by number, and the same season imported must review the same.
#include <catch2/catch.hpp>
#include <map>

#include "core/exchange/plan/import.h"
#include "core/review/review_json.h"
#include "core/store/read/book_rules.h"

using namespace midden;

namespace {

void importBatch(Logbook& book, const char* batch, const char* bin, const std::string& files) {
    const std::filesystem::path season = std::filesystem::path{MIDDENBOOK_SOURCE_DIR} / "demo" / "season";
    ImportRequest request;
    request.batch = batch;
    request.bin = bin;
    request.files.readings = season / (files + "-readings.csv");
    request.files.additions = season / (files + "-additions.csv");
    request.files.aerations = season / (files + "-aerations.csv");
    request.files.probes = season / "probes.csv";
    request.files.checks = season / "checks.csv";
    auto staged = readFiles(request);
    REQUIRE(staged);
    REQUIRE(storeImport(book, request, std::move(*staged)));
}

Logbook importedSeason() {
    auto book = Logbook::inMemory();
    importBatch(book, "North, early spring", "North", "north-early");
    importBatch(book, "Shed, spring", "Shed", "shed-spring");
    importBatch(book, "Hedge, spring", "Hedge", "hedge-spring");
    importBatch(book, "North, summer", "North", "north-summer");
    return book;
}

/// Puts into `typed` whatever `printed` shows, one entry at a time, as a person copying a book would.
class Copyist {
  public:
    Copyist(const Logbook& printed, Logbook& typed) : printed_{printed}, typed_{typed} {
        typed_.setHand("a steward", [this] { return now_; });
    }

    void copyAll() {
        copyNamed(printed_.bins(), bins_);
        copyNamed(printed_.probes(), probes_);
        for (const auto& probe : printed_.probes()) {
            for (auto check : printed_.checks(probe.id)) {
                check.probe = probes_.at(check.probe);
                put(check, check.when.at);
            }
        }
        for (const auto& batch : printed_.batches()) {
            copyBatch(batch);
        }
    }

  private:
    template <class E, class Ids>
    void copyNamed(const std::vector<E>& entries, Ids& ids) {
        for (auto entry : entries) {
            const auto old = entry.id;
            entry.id = {};
            ids[old] = std::get<decltype(entry.id)>(typed_.apply(Put<E>{entry}).id);
        }
    }
    template <class E>
    void put(E entry, Instant at) {
        now_ = at + minutes(1);
        entry.provenance = {};
        if constexpr (requires { entry.id.digits; }) {
            entry.id = {};
        }
        typed_.apply(Put<E>{entry});
    }
    void copyBatch(Batch batch) {
        const auto record = printed_.record(batch.id);
        const auto from = batch.id;
        batch.id = {};
        for (auto& stay : batch.stays) {
            stay.bin = bins_.at(stay.bin);
        }
        const auto id = std::get<BatchId>(typed_.apply(Put<Batch>{batch}).id);
        const Interval always{{0}, {4'000'000'000}};
        for (auto reading : printed_.readings(from, always, true, 1'000'000)) {
            if (reading.place.bin) {
                reading.place.bin = bins_.at(*reading.place.bin);
            }
            if (reading.probe) {
                reading.probe = probes_.at(*reading.probe);
            }
            put(reading, reading.when.at);
        }
        copyEntries(record.additions, id);
        copyEntries(record.aerations, id);
    }
    template <class E>
    void copyEntries(std::vector<E> entries, BatchId batch) {
        for (auto& entry : entries) {
            entry.batch = batch;
            put(entry, entry.when.at);
        }
    }

    const Logbook& printed_;
    Logbook& typed_;
    Instant now_;
    std::map<BinId, BinId> bins_;
    std::map<ProbeId, ProbeId> probes_;
};

std::string reviewOfAll(const Logbook& book) {
    std::vector<BatchReview> reviews;
    for (const auto& batch : book.batches()) {
        reviews.push_back(reviewOf(book.record(batch.id), questionsOf(book)));
    }
    return reviewJson(reviews);
}

}  // namespace

TEST_CASE("a season typed by hand and the same season imported give the same review") {
    const auto imported = importedSeason();
    auto typed = Logbook::inMemory();
    Copyist{imported, typed}.copyAll();
    const auto expected = reviewOfAll(imported);
    CHECK(reviewOfAll(typed) == expected);
    CHECK_THAT(expected,
               Catch::Contains("\"shown\"") && Catch::Contains("\"not-shown\"") && Catch::Contains("early-cooling"));
}
