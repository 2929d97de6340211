// SPDX-License-Identifier: GPL-3.0-or-later
// A book climbs to a newer format, by a step invented for this trial and from format 1 by ours, and is interrupted at
// every point: by a failing disk, by a loss of power, and by another program that climbs at the same time. No entry is
// lost, the copy of before is whole before the first step is taken, and the next opening finishes the climb. Usage:
// faults_migration [EVERY_NTH]
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

constexpr const char* oneMoreStep =
    "CREATE TABLE weather(at INTEGER PRIMARY KEY, rain_mm REAL) STRICT;"
    "INSERT INTO weather(at) SELECT DISTINCT at FROM reading;"
    "ALTER TABLE bin ADD COLUMN colour TEXT NOT NULL DEFAULT '';";
const std::array<const char*, newestFormat + 1> longer{migrations[0], migrations[1], oneMoreStep};
constexpr const char* bookName = "plot.midden";

/// From the format a book has to the last of these steps.
struct Climb {
    std::string book;  ///< its bytes
    Migrations steps;
    const char* filled;  ///< gives 1 once the last step is whole

    std::string copyName() const { return "plot before format " + std::to_string(steps.size()) + ".midden"; }
    std::string top() const { return "format " + std::to_string(steps.size()); }
};

class Trials {
  public:
    Trials(Tally& tally, std::int64_t step, Climb climb) : tally_{tally}, step_{step}, climb_{std::move(climb)} {
        write(start_ / bookName, climb_.book);
        entries_ = entriesOf(start_ / bookName);
        readings_ = openState(start_ / bookName, Logbook::Mode::readOnly, migrations)
                        ->file.number("SELECT count(*) FROM reading");
    }

    void run() {
        layOut();
        disk_.mend();
        tally_.expect(migrated(folder_.path()) == climb_.top(), "a sound disk: " + migrated(folder_.path()));
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
        tally_.expect(migrated(folder_.path()) == climb_.top(), "it climbs");
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
            tally_.expect(one == climb_.top() && other == climb_.top(), "both climb: " + one + "; " + other);
            examine(folder_.path(), "two at once");
            tally_.add("climbs of two programs at once");
        }
    }

  private:
    /// The format climbed to, or the refusal.
    std::string migrated(const fs::path& folder) const {
        try {
            const auto state = openState(folder / bookName, Logbook::Mode::readWrite, climb_.steps);
            const bool filled = state->file.number(climb_.filled) == 1;
            return "format " + std::to_string(state->file.number("PRAGMA user_version")) +
                   (filled ? "" : ", half filled");
        } catch (const LogbookError& error) {
            return error.what();
        }
    }

    std::int64_t count(const fs::path& folder) const {
        return openState(folder / bookName, Logbook::Mode::readWrite, climb_.steps)
            ->file.number("SELECT count(*) FROM reading");
    }

    void layOut() {
        folder_.clear();
        write(folder_ / bookName, climb_.book);
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
        tally_.expect(result == climb_.top(), where + ": the next opening finishes the climb, but: " + result);
        if (result == climb_.top()) {
            tally_.expect(count(folder) == readings_, where + ": every reading is there");
        }
        try {
            tally_.expect(entriesOf(folder / climb_.copyName()) == entries_, where + ": the copy of before is whole");
        } catch (const LogbookError& error) {
            tally_.expect(false, where + ": the copy of before: " + error.what());
        }
    }

    Tally& tally_;
    std::int64_t step_;
    Climb climb_;
    FaultyDisk& disk_ = FaultyDisk::instance();
    Folder start_{Folder::Where::inMemory};
    Folder folder_{Folder::Where::inMemory};
    Folder survivors_{Folder::Where::inMemory};
    std::string entries_;
    std::int64_t readings_ = 0;
};

}  // namespace

int main(int argc, char** argv) {
    const std::int64_t step = argc > 1 ? std::max(1L, std::strtol(argv[1], nullptr, 10)) : 1;
    Tally tally;
    const Folder made{Folder::Where::inMemory};
    makeBook(made / bookName);
    static_assert(newestFormat == 2, "the invented step comes after the last of ours");
    Trials invented{tally, step, {bytesOf(made / bookName), longer, "SELECT count(*) = 24 FROM weather"}};
    invented.run();
    invented.refuseNewer();
    invented.race();
    const auto first = fs::path{MIDDENBOOK_SOURCE_DIR} / "tests/support/formats/format-1.midden";
    Trials ours{tally,
                step,
                {bytesOf(first), migrations,
                 "SELECT (SELECT count(*) FROM harvest) = 0 AND NOT EXISTS (SELECT 1 FROM batch WHERE fed)"}};
    ours.run();
    ours.race();
    return tally.tell();
}
