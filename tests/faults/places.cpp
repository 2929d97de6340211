// SPDX-License-Identifier: GPL-3.0-or-later
// Where a book lies: a read-only file, a read-only folder, a file removed or replaced under the program, a clock set
// back, an import's file cut short while it is read.
#include <sys/wait.h>
#include <unistd.h>

#include <atomic>
#include <thread>

#include "core/store/logbook.h"
#include "tests/faults/tally.h"
#include "tests/faults/trial_book.h"

using namespace midden;
using namespace midden::faults;
namespace fs = std::filesystem;
using Kind = LogbookError::Kind;

namespace {

/// What the work was refused as; nothing when it went through.
template <class Work>
std::optional<Kind> refusalOf(Work work) {
    try {
        work();
    } catch (const LogbookError& error) {
        return error.kind;
    }
    return std::nullopt;
}

/// Permissions say nothing to root, so this is done as nobody. False where that could not be.
template <class Work>
bool asNobody(Work work) {
    const auto child = ::fork();
    if (child == 0) {
        if (::getuid() == 0 && ::setuid(65'534) != 0) {
            ::_exit(9);
        }
        ::_exit(work() ? 0 : 1);
    }
    int status = -1;
    ::waitpid(child, &status, 0);
    return WIFEXITED(status) && WEXITSTATUS(status) == 0;
}

constexpr auto readableByAll = static_cast<fs::perms>(0444);
constexpr auto enterableByAll = static_cast<fs::perms>(0555);

void readOnlyFile(Tally& tally) {
    const Folder folder;
    makeBook(folder / "plot.midden");
    const auto before = bytesOf(folder / "plot.midden");
    for (const auto folderMode : {fs::perms::all, enterableByAll}) {
        fs::permissions(folder / "plot.midden", readableByAll);
        fs::permissions(folder.path(), folderMode);
        const bool decent = asNobody([&] {
            const auto writing = refusalOf([&] { Logbook::open(folder / "plot.midden", Logbook::Mode::readWrite); });
            const auto book = Logbook::open(folder / "plot.midden", Logbook::Mode::readOnly);
            return writing == Kind::readOnly && book.batches().size() == 1 && book.check({}).faults.empty();
        });
        tally.expect(decent, "a read-only file is read, and refused for writing in words");
        tally.add("read-only files and folders");
    }
    fs::permissions(folder.path(), fs::perms::owner_all);
    const bool unseen = asNobody([&] {
        return refusalOf([&] { Logbook::open(folder / "plot.midden", Logbook::Mode::readOnly); }) == Kind::failed;
    });
    tally.expect(unseen, "a book that may not be looked at is not called absent");
    tally.add("read-only files and folders");
    tally.expect(bytesOf(folder / "plot.midden") == before, "a read-only file is left alone");
}

/// The file can be written, but no journal can be made beside it.
void readOnlyFolder(Tally& tally) {
    const Folder folder;
    makeBook(folder / "plot.midden");
    const auto before = entriesOf(folder / "plot.midden");
    fs::permissions(folder / "plot.midden", fs::perms::all);
    fs::permissions(folder.path(), enterableByAll);
    const bool decent = asNobody([&] {
        return refusalOf([&] {
                   auto book = Logbook::open(folder / "plot.midden", Logbook::Mode::readWrite);
                   book.apply(Put<Reading>{readingAt(book.binNamed("North")->id, 31, 600'000)});
               })
            .has_value();
    });
    fs::permissions(folder.path(), fs::perms::owner_all);
    tally.expect(decent && entriesOf(folder / "plot.midden") == before, "a read-only folder takes no half entry");
    tally.add("read-only files and folders");
}

/// Somebody moves, deletes or replaces the file while the window has it open.
void takenAway(Tally& tally) {
    for (const char* how : {"removed", "renamed", "replaced by another book", "replaced by a text"}) {
        const Folder folder;
        makeBook(folder / "plot.midden");
        auto book = Logbook::open(folder / "plot.midden", Logbook::Mode::readWrite);
        const auto bin = book.binNamed("North")->id;
        fs::rename(folder / "plot.midden", folder / "moved.midden");
        if (std::string_view{how} == "removed") {
            fs::remove(folder / "moved.midden");
        } else if (std::string_view{how} == "replaced by another book") {
            makeBook(folder / "plot.midden");
        } else if (std::string_view{how} == "replaced by a text") {
            write(folder / "plot.midden", "not a book");
        }
        const bool other = fs::exists(folder / "plot.midden");
        const auto bytes = other ? bytesOf(folder / "plot.midden") : std::string{};
        const auto refused = refusalOf([&] { book.apply(Put<Reading>{readingAt(bin, 31, 600'000)}); });
        tally.expect(refused.has_value(), std::string{"an entry into a file that was "} + how + " is refused");
        tally.expect(!other || bytesOf(folder / "plot.midden") == bytes,
                     std::string{"what took its place is left alone: "} + how);
        tally.add("files removed or replaced under the program");
    }
}

/// Entries made while the clock was wrong are kept in the order and with the times they were given.
void clockSetBack(Tally& tally) {
    const Folder folder;
    makeBook(folder / "plot.midden");
    auto book = Logbook::open(folder / "plot.midden", Logbook::Mode::readWrite);
    const auto bin = book.binNamed("North")->id;
    Instant clock = noon + days(30);
    book.setHand("a steward", [&] { return clock; });
    for (int entry = 0; entry < 20; ++entry) {
        clock = clock - days(entry);  // back, and back, long before the batch began
        const auto reading = readingAt(bin, 2'000 + entry, 600'000);
        book.apply(Put<Reading>{reading});
        auto corrected = reading;
        corrected.written.tenThousandths = 610'000;
        book.apply(Amend<Reading>{reading.id(), corrected, "slip"});
        const auto found = book.reading(reading.id());
        tally.expect(found && found->provenance.entered == clock && found->written == corrected.written,
                     "an entry keeps what it was given, whatever the clock says");
        tally.add("entries under a clock set back");
    }
    const auto batch = book.batchNamed("spring")->id;
    tally.expect(book.amendments(batch).size() == 20, "every amendment is there");
    tally.expect(book.check({}).faults.empty(), "a book is sound whatever the clock said");
}

/// Another program writes and cuts the file that an import is reading.
void cutWhileRead(Tally& tally) {
    const Folder folder;
    const auto rows = folder / "rows.csv";
    writeReadings(rows, 0, 60'000);
    const auto whole = fs::file_size(rows);
    std::atomic<bool> stop{false};
    std::thread cutter{[&] {
        for (std::uintmax_t size = whole; !stop; size = size < 1'000 ? whole : size * 2 / 3) {
            fs::resize_file(rows, size);
        }
    }};
    for (int trial = 0; trial < 40; ++trial) {
        ImportRequest request;
        request.batch = "spring";
        request.bin = "North";
        request.files.readings = rows;
        const auto staged = readFiles(request);
        tally.expect(staged || !staged.error().problem.wrong.empty(), "a file cut short is read as far as it goes");
        tally.add("files cut short while they were read");
    }
    stop = true;
    cutter.join();
}

}  // namespace

int main() {
    Tally tally;
    readOnlyFile(tally);
    readOnlyFolder(tally);
    takenAway(tally);
    clockSetBack(tally);
    cutWhileRead(tally);
    return tally.tell();
}
