// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <catch2/catch.hpp>
#include <optional>
#include <string>
#include <utility>

#include "core/exchange/plan/import.h"
#include "tests/core/exchange/scratch.h"

namespace midden::testing {

inline const Scratch scratch;

/// A request whose files are written from texts.
struct Asked {
    ImportRequest request;

    explicit Asked(std::string batch, std::optional<std::string> bin = "North") {
        request.batch = std::move(batch);
        request.bin = std::move(bin);
    }
    Asked& readings(std::string_view rows) { return file(request.files.readings, "readings.csv", rows); }
    Asked& additions(std::string_view rows) { return file(request.files.additions, "additions.csv", rows); }
    Asked& aerations(std::string_view rows) { return file(request.files.aerations, "aerations.csv", rows); }
    Asked& moves(std::string_view rows) { return file(request.files.moves, "moves.csv", rows); }
    Asked& outside(std::string_view rows) { return file(request.files.outside, "outside.csv", rows); }
    Asked& probes(std::string_view rows) { return file(request.files.probes, "probes.csv", rows); }
    Asked& checks(std::string_view rows) { return file(request.files.checks, "checks.csv", rows); }
    Asked& bins(std::string_view rows) { return file(request.files.bins, "bins.csv", rows); }
    Asked& observations(std::string_view rows) { return file(request.files.observations, "observations.csv", rows); }
    Asked& positions(std::string_view rows) { return file(request.files.positions, "positions.csv", rows); }
    Asked& harvests(std::string_view rows) { return file(request.files.harvests, "harvests.csv", rows); }
    Asked& fed() {
        request.fed = true;
        return *this;
    }
    Asked& start(const char* iso) {
        const auto parsed = *parseIsoTime(iso);
        request.start = Moment{instantOf(parsed.wall, parsed.offset), parsed.offset};
        return *this;
    }

  private:
    Asked& file(std::optional<std::filesystem::path>& into, std::string_view name, std::string_view rows) {
        into = scratch.write(name, rows);
        return *this;
    }
};

inline FileResult<ImportOutcome> import(Logbook& book, const Asked& asked) {
    auto staged = readFiles(asked.request);
    if (!staged) {
        return tl::unexpected{staged.error()};
    }
    return storeImport(book, asked.request, std::move(*staged));
}

inline ImportOutcome imported(Logbook& book, const Asked& asked) {
    auto outcome = import(book, asked);
    INFO((outcome ? "" : outcome.error().sentence()));
    REQUIRE(outcome);
    return *outcome;
}

inline std::string refusalOf(Logbook& book, const Asked& asked) {
    const auto outcome = import(book, asked);
    REQUIRE_FALSE(outcome);
    auto sentence = outcome.error().sentence();
    const auto folder = scratch.folder().string() + "/";
    for (auto at = sentence.find(folder); at != std::string::npos; at = sentence.find(folder)) {
        sentence.erase(at, folder.size());
    }
    return (outcome.error().wrongUsage ? "usage: " : "") + sentence;
}

inline BatchRecord recordOf(const Logbook& book, std::string_view batch) {
    return book.record(book.batchNamed(batch)->id);
}

}  // namespace midden::testing
