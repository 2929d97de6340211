// SPDX-License-Identifier: GPL-3.0-or-later
// The power goes at every single point of everything a person does to a book. What was not synced is lost, kept, half
// kept or torn; afterwards the book opens, is sound, and holds all of an operation or nothing of it. What was said to
// be done is there.
// Usage: faults_power [EVERY_NTH]
#include <cstdlib>

#include "core/store/logbook.h"
#include "tests/faults/faulty_disk.h"
#include "tests/faults/operations.h"
#include "tests/faults/tally.h"
#include "tests/faults/trial_book.h"

using namespace midden;
using namespace midden::faults;

namespace {

struct Remnant {
    Survival survival;
    const char* name;
    std::uint64_t throws;  ///< of the coins
};
constexpr Remnant remnants[]{{Survival::nothing, "power lost, unsynced writes gone", 1},
                             {Survival::everything, "power lost, unsynced writes kept", 1},
                             {Survival::some, "power lost, unsynced writes half kept", 3},
                             {Survival::torn, "power lost, unsynced writes torn", 3}};

class Trials {
  public:
    Trials(Tally& tally, std::int64_t step) : tally_{tally}, step_{step} {}

    void run(const Operation& operation) {
        setting_.layOut(folder_.path());
        before_ = stateOf(folder_.path());
        disk_.mend();
        attempt(operation, folder_.path());
        const auto events = disk_.events();
        after_ = stateOf(folder_.path());
        for (std::int64_t at = 0; at <= events; at += at + step_ > events && at < events ? events - at : step_) {
            lose(operation, at);
        }
        tally_.add("points at which the power went", events / step_ + 1);
    }

  private:
    void lose(const Operation& operation, std::int64_t at) {
        setting_.layOut(folder_.path());
        disk_.watch(folder_.path());
        disk_.plan(Fault::powerLoss, at);
        const bool done = attempt(operation, folder_.path());
        disk_.cutPower();
        disk_.mend();
        for (const auto& remnant : remnants) {
            for (std::uint64_t chance = 1; chance <= remnant.throws; ++chance) {
                survivors_.clear();
                disk_.writeSurvivors(survivors_.path(), remnant.survival, chance + 97 * static_cast<std::uint64_t>(at));
                tally_.add(remnant.name);
                examine(operation.name + " at " + std::to_string(at) + ", " + remnant.name + ": ", done);
            }
        }
        disk_.watch({});
    }

    void examine(const std::string& where, bool done) {
        try {
            const auto state = stateOf(survivors_.path());
            tally_.expect(state == after_ || (!done && (state == before_ || isBegun(where, state))),
                          where + (done ? "what was done is there" : "it is there as a whole or not at all"));
            const auto harm = harmIn(survivors_.path());
            tally_.expect(harm.empty(), where + harm);
        } catch (const LogbookError& error) {
            tally_.expect(false, where + error.what());
        }
    }

    /// A book that was only being begun may be absent.
    static bool isBegun(const std::string& where, const std::string& state) {
        return where.starts_with("beginning") && state == "absent";
    }

    Tally& tally_;
    std::int64_t step_;
    FaultyDisk& disk_ = FaultyDisk::instance();
    TrialPlace setting_;
    Folder folder_{Folder::Where::inMemory};
    Folder survivors_{Folder::Where::inMemory};
    std::string before_;
    std::string after_;
};

}  // namespace

int main(int argc, char** argv) {
    const std::int64_t step = argc > 1 ? std::max(1L, std::strtol(argv[1], nullptr, 10)) : 1;
    Tally tally;
    Trials trials{tally, step};
    for (const auto& operation : operations()) {
        trials.run(operation);
    }
    return tally.tell();
}
