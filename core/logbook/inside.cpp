// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/logbook/inside.h"

#include <sqlite3.h>

#include <array>
#include <system_error>

#include "core/logbook/copying.h"
#include "core/logbook/schema.h"
#include "core/logbook/state.h"

namespace midden {

namespace fs = std::filesystem;

namespace {

/// An entry is the same in both books when all that is said of it is the same.
struct Comparison {
    const char* one;
    const char* many;
    const char* onlyInBook;
    const char* onlyInCopy;
};

#define MIDDEN_READINGS(book)                                                                 \
    "SELECT b.key, s.position, r.at, r.raw, s.unit, p.key FROM " book ".reading r JOIN " book \
    ".series s ON s.id = r.series LEFT JOIN " book ".bin b ON b.id = s.bin LEFT JOIN " book   \
    ".probe p ON p.id = s.probe"
#define MIDDEN_ROWS(columns, table, book) "SELECT " columns " FROM " book "." table
#define MIDDEN_BOTH(one, many, select)                                                     \
    Comparison {                                                                           \
        one, many, "SELECT count(*) FROM (" select("main") " EXCEPT " select("other") ")", \
            "SELECT count(*) FROM (" select("other") " EXCEPT " select("main") ")"         \
    }
#define MIDDEN_BINS(book) MIDDEN_ROWS("key, name, note, retired", "bin", book)
#define MIDDEN_BATCHES(book) MIDDEN_ROWS("key, name, started, finished, note", "batch", book)
#define MIDDEN_ADDITIONS(book) MIDDEN_ROWS("id, at, material, mass_kg, note", "addition", book)
#define MIDDEN_AERATIONS(book) MIDDEN_ROWS("id, at, kind, note", "aeration", book)
#define MIDDEN_OBSERVATIONS(book) MIDDEN_ROWS("id, at, kind, subject, value, note", "observation", book)
#define MIDDEN_CHECKS(book) MIDDEN_ROWS("id, at, kind, raw, unit, note", "thermometer_check", book)
#define MIDDEN_CERTIFICATES(book) MIDDEN_ROWS("number, digest", "certificate", book)
#define MIDDEN_AMENDMENTS(book) MIDDEN_ROWS("key", "amendment", book)

constexpr std::array comparisons{
    MIDDEN_BOTH("reading", "readings", MIDDEN_READINGS),
    MIDDEN_BOTH("addition", "additions", MIDDEN_ADDITIONS),
    MIDDEN_BOTH("turning or other airing", "turnings and other airings", MIDDEN_AERATIONS),
    MIDDEN_BOTH("observation", "observations", MIDDEN_OBSERVATIONS),
    MIDDEN_BOTH("thermometer check", "thermometer checks", MIDDEN_CHECKS),
    MIDDEN_BOTH("batch", "batches", MIDDEN_BATCHES),
    MIDDEN_BOTH("bin", "bins", MIDDEN_BINS),
    MIDDEN_BOTH("certificate", "certificates", MIDDEN_CERTIFICATES),
    MIDDEN_BOTH("amendment", "amendments", MIDDEN_AMENDMENTS),
};

/// A name beside the book that nothing else has: "plot set aside.midden", "plot set aside 2.midden" …
fs::path nameAside(const fs::path& book) {
    for (int count = 1;; ++count) {
        fs::path aside = book;
        aside.replace_filename(book.stem().concat(count == 1 ? " set aside" : " set aside " + std::to_string(count)));
        aside.concat(book.extension().string());
        if (!fs::exists(fs::symlink_status(aside))) {
            return aside;
        }
    }
}

bool opens(const fs::path& book) {
    try {
        Logbook::open(book, Logbook::Mode::readWrite);
        return true;
    } catch (const LogbookError& error) {
        if (error.kind == LogbookError::Kind::damaged || error.kind == LogbookError::Kind::foreign ||
            error.kind == LogbookError::Kind::absent) {
            return false;
        }
        throw;  // a busy or read-only file is no reason to set it aside
    }
}

}  // namespace

Inside lookInside(const Logbook& book) {
    Inside inside;
    inside.group = book.setting("group");
    for (const Batch& batch : book.batches()) {
        inside.batches.push_back({batch.name, batch.started, batch.finished, book.record(batch.id).readings});
    }
    for (const Place& place : book.placesRead()) {
        book.visitReadings(place, [&](const Reading& reading) {
            ++inside.readings;
            if (!inside.lastReading || reading.when.at > *inside.lastReading) {
                inside.lastReading = reading.when.at;
            }
        });
    }
    return inside;
}

std::vector<OnlyIn> compare(const Logbook& book, const fs::path& copy) {
    DatabaseFile both{book.file(), SQLITE_OPEN_READWRITE};
    setUpConnection(both);
    const auto name = copy.u8string();
    Query{both, "ATTACH ? AS other"}.with(std::string{name.begin(), name.end()}).run();
    both.run("PRAGMA query_only = ON");
    const ReadTransaction moment{both};
    std::vector<OnlyIn> differences;
    for (const Comparison& comparison : comparisons) {
        const OnlyIn only{comparison.one, comparison.many, both.number(comparison.onlyInBook),
                          both.number(comparison.onlyInCopy)};
        if (only.book > 0 || only.copy > 0) {
            differences.push_back(only);
        }
    }
    return differences;
}

std::optional<fs::path> replaceBook(const fs::path& book, const fs::path& copy) {
    const auto from = Logbook::open(copy, Logbook::Mode::readOnly);
    if (opens(book)) {
        copyInto(copy, book);
        return std::nullopt;
    }
    if (!fs::exists(book)) {
        from.backUpTo(book);
        return std::nullopt;
    }
    const fs::path aside = nameAside(book);
    std::error_code problem;
    fs::rename(book, aside, problem);
    if (problem) {
        throw LogbookError{LogbookError::Kind::readOnly, fileName(book) + " could not be set aside"};
    }
    fs::rename(fs::path{book} += "-journal", fs::path{aside} += "-journal", problem);  // if there is one
    from.backUpTo(book);
    return aside;
}

}  // namespace midden
