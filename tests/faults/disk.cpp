// SPDX-License-Identifier: GPL-3.0-or-later
// A disk that fills up or fails, at every single point of everything a person does to a book. What was refused must
// leave no trace, what was accepted must be there, and once the disk works again so must the book.
// Usage: faults_disk [EVERY_NTH]
#include <cstdlib>

#include "core/store/logbook.h"
#include "tests/faults/faulty_disk.h"
#include "tests/faults/operations.h"
#include "tests/faults/tally.h"
#include "tests/faults/trial_book.h"

using namespace midden;
using namespace midden::faults;

namespace {

struct Kind {
    Fault fault;
    const char* name;
};
constexpr Kind kinds[]{{Fault::full, "disk full"},
                       {Fault::failsOnce, "one write, sync or deletion failed"},
                       {Fault::failsForGood, "disk gone for good"}};

class Trials {
  public:
    Trials(Tally& tally, std::int64_t step) : tally_{tally}, step_{step} {}

    void run(const Operation& operation) {
        setting_.layOut(folder_.path());
        before_ = stateOf(folder_.path());
        disk_.mend();
        tally_.expect(attempt(operation, folder_.path()), operation.name + " works on a sound disk");
        const auto events = disk_.events();
        const auto growths = disk_.growths();
        after_ = stateOf(folder_.path());
        for (const auto& kind : kinds) {
            for (std::int64_t at = 0; at < (kind.fault == Fault::full ? growths : events); at += step_) {
                strike(operation, kind, at);
            }
        }
    }

  private:
    void strike(const Operation& operation, const Kind& kind, std::int64_t at) {
        setting_.layOut(folder_.path());
        disk_.plan(kind.fault, at);
        const bool done = attempt(operation, folder_.path());
        const bool struck = disk_.struck();
        disk_.mend();
        const auto where = operation.name + ", " + kind.name + " at " + std::to_string(at) + ": ";
        tally_.expect(struck, where + "the fault came to pass");
        tally_.add(kind.name);
        try {
            const auto state = stateOf(folder_.path());
            const bool begun = operation.name == "beginning a book" && state == "absent";
            tally_.expect(begun || state == (done ? after_ : before_),
                          where + (done ? "what was accepted is there" : "what was refused left no trace"));
            tally_.expect(harmIn(folder_.path()).empty(), where + harmIn(folder_.path()));
            tally_.expect(done || attempt(operation, folder_.path()), where + "it works once the disk does");
            tally_.expect(stateOf(folder_.path()) == after_, where + "and then everything is there");
        } catch (const LogbookError& error) {
            tally_.expect(false, where + error.what());
        }
    }

    Tally& tally_;
    std::int64_t step_;
    FaultyDisk& disk_ = FaultyDisk::instance();
    TrialPlace setting_;
    Folder folder_{Folder::Where::inMemory};
    std::string before_;
    std::string after_;
};

/// The window keeps its book open: after a refusal the next entry goes through, in the same book.
void carryOn(Tally& tally, std::int64_t step) {
    auto& disk = FaultyDisk::instance();
    const Folder folder{Folder::Where::inMemory};
    makeBook(folder / "plot.midden");
    auto book = Logbook::open(folder / "plot.midden", Logbook::Mode::readWrite);
    const auto bin = book.binNamed("North")->id;
    for (std::int64_t at = 0; at < 60; at += step) {
        for (const auto& kind : kinds) {
            const auto minute = 10'000 + 10 * at + static_cast<std::int64_t>(kind.fault);
            const auto reading = readingAt(bin, minute, 600'000, "kept or not");
            disk.plan(kind.fault, at);
            bool done = true;
            try {
                book.apply(Put<Reading>{reading});
            } catch (const LogbookError&) {
                done = false;
            }
            const bool struck = disk.struck();
            disk.mend();
            tally.expect(book.reading(reading.id()).has_value() == done, "an open book knows what it kept");
            tally.expect(struck || done, "nothing is refused without a fault");
            tally.add("refusals after which the open book went on", struck ? 1 : 0);
            if (!done) {
                book.apply(Put<Reading>{reading});
            }
        }
    }
    tally.expect(faultsOf(folder / "plot.midden").empty(), "a book is sound after many refusals");
}

/// A real file system of 600 kB, where the system lets us make one.
void onSmallDisk(Tally& tally) {
    const Folder folder;
    if (std::system(("mount -t tmpfs -o size=600k none '" + folder.path().string() + "' 2>/dev/null").c_str()) != 0) {
        std::cout << "No right to mount a small file system here: that trial was left out.\n";
        return;
    }
    makeBook(folder / "plot.midden");
    int kept = 0;
    try {
        auto book = Logbook::open(folder / "plot.midden", Logbook::Mode::readWrite);
        const auto bin = book.binNamed("North")->id;
        for (int minute = 1; minute < 1'000; ++minute, ++kept) {
            book.apply(Put<Reading>{readingAt(bin, 24 * 60 + minute, 550'000, std::string(4'000, 'n'))});
        }
        tally.expect(false, "the small disk filled up");
    } catch (const LogbookError& error) {
        tally.expect(error.kind == LogbookError::Kind::full,
                     std::string{"a full disk is called full: "} + error.what());
    }
    {
        const auto book = Logbook::open(folder / "plot.midden", Logbook::Mode::readOnly);
        int found = 0;
        book.visitReadings({book.binNamed("North")->id, "core"},
                           [&](const Reading& reading) { found += reading.note.empty() ? 0 : 1; });
        tally.expect(found == kept && kept > 5, "every accepted entry is on the full disk");
        tally.expect(faultsOf(folder / "plot.midden").empty(), "the book on a full disk is sound");
    }
    tally.add("small file system filled to the brim");
    if (std::system(("umount '" + folder.path().string() + "'").c_str()) != 0) {
        std::cerr << "The small file system could not be taken down.\n";
    }
}

}  // namespace

int main(int argc, char** argv) {
    const std::int64_t step = argc > 1 ? std::max(1L, std::strtol(argv[1], nullptr, 10)) : 1;
    Tally tally;
    onSmallDisk(tally);
    Trials trials{tally, step};
    for (const auto& operation : operations()) {
        trials.run(operation);
    }
    carryOn(tally, step);
    return tally.tell();
}
