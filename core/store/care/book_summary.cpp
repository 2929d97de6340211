// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/care/book_summary.h"

#include <system_error>

#include "core/files/naming.h"
#include "core/store/files/book_copy.h"
#include "core/store/state.h"

namespace midden {

namespace fs = std::filesystem;

namespace {

/// A name beside the book that nothing else has: "plot set aside.midden", "plot set aside 2.midden" …
fs::path nameAside(const fs::path& book) {
    for (int count = 1;; ++count) {
        fs::path asideName = book;
        asideName.replace_filename(
            book.stem().concat(count == 1 ? " set aside" : " set aside " + std::to_string(count)));
        asideName.concat(book.extension().string());
        if (!fs::exists(fs::symlink_status(asideName))) {
            return asideName;
        }
    }
}

/// With its journal, if there is one. Gives the name it has now.
fs::path setAside(const fs::path& book) {
    return asLogbookError([&] {
        const fs::path asideName = nameAside(book);
        const fs::path journal = fs::path{book} += "-journal";
        if (!giveName(book, asideName) ||
            (fileStatus(journal) && !giveName(journal, fs::path{asideName} += "-journal"))) {
            throw LogbookError{LogbookError::Kind::failed, fileName(book) + " could not be set aside"};
        }
        return asideName;
    });
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

BookSummary summaryOf(const Logbook& book) {
    BookSummary inside;
    inside.group = book.setting(setting::group);
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

std::optional<fs::path> replaceBook(const fs::path& book, const fs::path& copy) {
    const auto from = Logbook::open(copy, Logbook::Mode::readOnly);
    if (opens(book)) {
        copyInto(Logbook::State::of(from).file, book);
        return std::nullopt;
    }
    if (!fs::exists(book)) {
        from.backUpTo(book);
        return std::nullopt;
    }
    const fs::path asideName = setAside(book);
    from.backUpTo(book);
    return asideName;
}

}  // namespace midden
