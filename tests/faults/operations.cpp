// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/faults/operations.h"

#include "core/quantities/sha256.h"
#include "tests/faults/trial_book.h"

namespace midden::faults {

namespace fs = std::filesystem;

namespace {

constexpr const char* bookName = "plot.midden";
constexpr const char* copyName = "copy.midden";

Logbook opened(const fs::path& folder) {
    auto book = Logbook::open(folder / bookName, Logbook::Mode::readWrite);
    book.setHand("a steward", [] { return noon + days(3); });
    return book;
}

ReadingId eighth(const Logbook& book) {
    return {{book.binNamed("North")->id, "core"}, noon + hours(8)};
}

void enter(const fs::path& folder) {
    auto book = opened(folder);
    book.apply(Put<Reading>{readingAt(book.binNamed("North")->id, 30, 612'000, "steaming")});
}

void correct(const fs::path& folder) {
    auto book = opened(folder);
    auto reading = *book.reading(eighth(book));
    reading.written.tenThousandths += 10'000;
    book.apply(Amend<Reading>{reading.id(), reading, "misread"});
}

void withdraw(const fs::path& folder) {
    auto book = opened(folder);
    book.apply(Withdraw<Reading>{eighth(book), "the wrong bin"});
}

void import(const fs::path& folder) {
    auto book = opened(folder);
    importReadings(book, folder / "rows.csv");
}

void beginBook(const fs::path& folder) {
    fs::remove(folder / bookName);
    Logbook::open(folder / bookName, Logbook::Mode::createIfAbsent);
}

void backUp(const fs::path& folder) {
    opened(folder).backUpTo(folder / copyName);
}

void issue(const fs::path& folder) {
    auto book = opened(folder);
    const std::string record(20'000, 'r');
    book.storeCertificate({"2026-2", book.batchNamed("spring")->id, noon, sha256(record), record, "2026-1"});
}

void merge(const fs::path& folder) {
    auto book = opened(folder);
    book.merge(Logbook::open(folder / "other.midden", Logbook::Mode::readOnly));
}

}  // namespace

const std::vector<Operation>& operations() {
    static const std::vector<Operation> all{{"entering", enter},
                                            {"correcting", correct},
                                            {"withdrawing", withdraw},
                                            {"importing", import},
                                            {"beginning a book", beginBook},
                                            {"backing up", backUp},
                                            {"issuing", issue},
                                            {"merging", merge}};
    return all;
}

TrialPlace::TrialPlace() {
    const Folder folder{Folder::Where::inMemory};
    makeBook(folder / bookName);
    book_ = bytesOf(folder / bookName);
    {
        auto book = opened(folder.path());
        book.apply(Put<Reading>{readingAt(book.binNamed("North")->id, 45, 633'000)});
        Addition addition;
        addition.batch = book.batchNamed("spring")->id;
        addition.when = {noon + hours(1), {}};
        addition.material = "grass";
        addition.massKilograms = 2;
        book.apply(Put<Addition>{addition});
    }
    other_ = bytesOf(folder / bookName);
    writeReadings(folder / "rows.csv", 24 * 60, 400);
    rows_ = bytesOf(folder / "rows.csv");
}

void TrialPlace::layOut(const fs::path& folder) const {
    for (const auto& entry : fs::directory_iterator{folder}) {
        fs::remove_all(entry.path());
    }
    write(folder / bookName, book_);
    write(folder / "other.midden", other_);
    write(folder / "rows.csv", rows_);
}

std::string stateOf(const fs::path& folder) {
    try {
        return entriesOf(folder / bookName);
    } catch (const LogbookError& error) {
        if (error.kind == LogbookError::Kind::absent) {
            return "absent";
        }
        throw;
    }
}

std::string harmIn(const fs::path& folder) {
    std::string harm;
    for (const auto* name : {bookName, copyName, "other.midden"}) {
        try {
            harm += faultsOf(folder / name);
        } catch (const LogbookError& error) {
            harm += error.kind == LogbookError::Kind::absent ? "" : error.what();
        }
    }
    return harm;
}

bool attempt(const Operation& operation, const fs::path& folder) {
    try {
        operation.run(folder);
        return true;
    } catch (const LogbookError&) {
        return false;
    }
}

}  // namespace midden::faults
