// SPDX-License-Identifier: GPL-3.0-or-later
// A book climbs to a newer format, by a rung invented for this trial, and is interrupted at every point: by a failing
// disk, by a loss of power, and by another program that climbs at the same time. No entry is lost, the copy of before
// is whole before the first step is taken, and the next opening finishes the climb.
// Usage: faults_ladder [EVERY_NTH]
#include <array>
#include <cstdlib>
#include <thread>

#include "core/store/state.h"
#include "tests/faults/faulty_disk.h"
#include "tests/faults/tally.h"
#include "tests/faults/trial_book.h"

using namespace midden;
using namespace midden::faults;
namespace fs = std::filesystem;

namespace {

constexpr const char* secondRung =
    "CREATE TABLE weather(at INTEGER PRIMARY KEY, rain_mm REAL) STRICT;"
    "INSERT INTO weather(at) SELECT DISTINCT at FROM reading;"
    "ALTER TABLE bin ADD COLUMN colour TEXT NOT NULL DEFAULT '';";
const std::array<const char*, newestFormat + 1> longer{migrations[0], secondRung};
constexpr const char* bookName = "plot.midden";
constexpr const char* copyName = "plot before format 2.midden";

/// The format climbed to, or the refusal.
std::string migrated(const fs::path& folder) {
    try {
        const auto state = openState(folder / bookName, Logbook::Mode::readWrite, longer);
        const bool filled = state->file.number("SELECT count(*) FROM weather") == 24;
        return "format " + std::to_string(state->file.number("PRAGMA user_version")) + (filled ? "" : ", half filled");
    } catch (const LogbookError& error) {
        return error.what();
    }
}

std::int64_t count(const fs::path& folder) {
    return openState(folder / bookName, Logbook::Mode::readWrite, longer)->file.number("SELECT count(*) FROM reading");
}

class Trials {
  public:
    Trials(Tally& tally, std::int64_t step) : tally_{tally}, step_{step} {
        makeBook(start_ / bookName);
        book_ = bytesOf(start_ / bookName);
        entries_ = entriesOf(start_ / bookName);
        static_assert(newestFormat == 1, "the invented rung comes after the last of ours");
    }

    void run() {
        layOut();
        disk_.mend();
        tally_.expect(migrated(folder_.path()) == "format 2", "a sound disk: " + migrated(folder_.path()));
        const auto events = disk_.events();
        for (std::int64_t at = 0; at < events; at += step_) {
            for (const auto fault : {Fault::full, Fault::failsOnce, Fault::failsForGood}) {
                layOut();
                disk_.plan(fault, at);
                migrated(folder_.path());
                disk_.mend();
                tally_.add("climbs to a newer format interrupted");
                examine(folder_.path(), "fault at " + std::to_string(at));
            }
            losePower(at);
        }
    }

    void refuseNewer() {
        layOut();
        tally_.expect(migrated(folder_.path()) == "format 2", "it climbs");
        const auto bytes = bytesOf(folder_ / bookName);
        for (const auto mode : {Logbook::Mode::readOnly, Logbook::Mode::readWrite, Logbook::Mode::createIfAbsent}) {
            bool newer = false;
            try {
                Logbook::open(folder_ / bookName, mode);
            } catch (const LogbookError& error) {
                newer = error.kind == LogbookError::Kind::newer;
            }
            tally_.expect(newer && bytesOf(folder_ / bookName) == bytes, "a newer format is refused and left alone");
            tally_.add("newer formats refused");
        }
    }

    void race() {
        for (int round = 0; round < 10; ++round) {
            layOut();
            std::string one;
            std::string other;
            std::thread first{[&] { one = migrated(folder_.path()); }};
            std::thread second{[&] { other = migrated(folder_.path()); }};
            first.join();
            second.join();
            tally_.expect(one == "format 2" && other == "format 2", "both climb: " + one + "; " + other);
            examine(folder_.path(), "two at once");
            tally_.add("climbs of two programs at once");
        }
    }

  private:
    void layOut() {
        folder_.clear();
        write(folder_ / bookName, book_);
    }

    void losePower(std::int64_t at) {
        for (const auto survival : {Survival::nothing, Survival::everything, Survival::some, Survival::torn}) {
            layOut();
            disk_.watch(folder_.path());
            disk_.plan(Fault::powerLoss, at);
            migrated(folder_.path());
            disk_.cutPower();
            disk_.mend();
            survivors_.clear();
            disk_.writeSurvivors(survivors_.path(), survival, static_cast<std::uint64_t>(at) + 5);
            disk_.watch({});
            tally_.add("climbs to a newer format without power");
            examine(survivors_.path(), "power lost at " + std::to_string(at));
        }
    }

    void examine(const fs::path& folder, const std::string& where) {
        const auto result = migrated(folder);
        tally_.expect(result == "format 2", where + ": the next opening finishes the climb, but: " + result);
        if (result == "format 2") {
            tally_.expect(count(folder) == 24, where + ": every reading is there");
        }
        try {
            tally_.expect(entriesOf(folder / copyName) == entries_, where + ": the copy of before is whole");
        } catch (const LogbookError& error) {
            tally_.expect(false, where + ": the copy of before: " + error.what());
        }
    }

    Tally& tally_;
    std::int64_t step_;
    FaultyDisk& disk_ = FaultyDisk::instance();
    Folder start_{Folder::Where::inMemory};
    Folder folder_{Folder::Where::inMemory};
    Folder survivors_{Folder::Where::inMemory};
    std::string book_;
    std::string entries_;
};

}  // namespace

int main(int argc, char** argv) {
    const std::int64_t step = argc > 1 ? std::max(1L, std::strtol(argv[1], nullptr, 10)) : 1;
    Tally tally;
    Trials trials{tally, step};
    trials.run();
    trials.refuseNewer();
    trials.race();
    return tally.tell();
}
