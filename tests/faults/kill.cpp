// SPDX-License-Identifier: GPL-3.0-or-later
// kill −9 at random instants. A child enters, corrects and withdraws readings and says each one on a pipe, once before
// it applies it and once after; or the program itself imports a file. After every kill the book opens, is sound, holds
// every entry that was acknowledged and at most the one under way, and no part of an import.
// Usage: faults_kill KILLS_WHILE_ENTERING KILLS_WHILE_IMPORTING
#include <fcntl.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <csignal>
#include <cstdio>
#include <map>
#include <optional>
#include <random>
#include <sstream>
#include <thread>

#include "core/store/logbook.h"
#include "tests/faults/tally.h"
#include "tests/faults/trial_book.h"

using namespace midden;
using namespace midden::faults;
namespace fs = std::filesystem;

namespace {

/// Minute of the reading and its ten-thousandths; none = withdrawn.
struct Step {
    std::int64_t minute = 0;
    std::optional<std::int32_t> value;
};
using Entries = std::map<std::int64_t, std::int32_t>;

void say(int pipe, char word, const Step& step) {
    const auto line = std::string{word} + ' ' + std::to_string(step.minute) + ' ' +
                      (step.value ? std::to_string(*step.value) : "-") + '\n';
    if (::write(pipe, line.data(), line.size()) != static_cast<ssize_t>(line.size())) {
        ::_exit(3);
    }
}

void apply(Logbook& book, BinId bin, const Entries& standing, const Step& step) {
    if (!step.value) {
        book.apply(Withdraw<Reading>{readingAt(bin, step.minute, 0).id(), "taken back"});
    } else if (standing.contains(step.minute)) {
        book.apply(
            Amend<Reading>{readingAt(bin, step.minute, 0).id(), readingAt(bin, step.minute, *step.value), "slip"});
    } else {
        book.apply(Put<Reading>{readingAt(bin, step.minute, *step.value, "typed")});
    }
}

/// The child: never returns.
[[noreturn]] void enterForEver(const fs::path& file, Entries standing, int pipe, unsigned start) {
    std::mt19937 chance{start};
    auto book = Logbook::open(file, Logbook::Mode::readWrite);
    book.setHand("a steward", [] { return noon; });
    const auto bin = book.binNamed("North")->id;
    for (std::int64_t minute = 100'000 + std::ssize(standing) * 7 + start % 5;; ++minute) {
        Step step{minute, 400'000 + static_cast<std::int32_t>(chance() % 300'000)};
        if (standing.contains(minute)) {
            continue;
        }
        if (const auto what = chance() % 4; what < 2 && !standing.empty()) {
            step.minute = std::next(standing.begin(), static_cast<std::ptrdiff_t>(chance() % standing.size()))->first;
            step.value = what == 0 ? std::nullopt : step.value;
        }
        say(pipe, 'i', step);
        apply(book, bin, standing, step);
        say(pipe, 'a', step);
        step.value ? void(standing[step.minute] = *step.value) : void(standing.erase(step.minute));
    }
}

void take(Entries& entries, const Step& step) {
    if (step.value) {
        entries[step.minute] = *step.value;
    } else {
        entries.erase(step.minute);
    }
}

std::string readAll(int pipe) {
    std::string all;
    char block[4'096];
    for (ssize_t got = 0; (got = ::read(pipe, block, sizeof block)) > 0;) {
        all.append(block, static_cast<std::size_t>(got));
    }
    return all;
}

class Entering {
  public:
    Entering(Tally& tally, unsigned seed) : tally_{tally}, seed_{seed} { begin(); }

    void killOnce(unsigned trial) {
        int ends[2];
        tally_.expect(::pipe(ends) == 0, "a pipe");
        const auto child = ::fork();
        if (child == 0) {
            ::close(ends[0]);
            enterForEver(file_, acknowledged_, ends[1], seed_ + trial);
        }
        ::close(ends[1]);
        std::this_thread::sleep_for(std::chrono::microseconds{10'000 + chance_() % 240'000});
        ::kill(child, SIGKILL);
        int status = 0;
        ::waitpid(child, &status, 0);
        tally_.expect(WIFSIGNALED(status) && WTERMSIG(status) == SIGKILL, "the child ran until it was killed");
        const bool hot = fs::exists(file_.string() + "-journal");
        tally_.add("kills while entering");
        tally_.add("… of them inside a transaction", hot ? 1 : 0);
        hear(readAll(ends[0]));
        ::close(ends[0]);
        examine();
    }

  private:
    void begin() {
        makeBook(file_);
        for (int reading = 0; reading < 24; ++reading) {
            acknowledged_[60 * reading] = 500'000 + 1'000 * reading;
        }
    }

    /// What the child said: everything acknowledged, and the step it was at.
    void hear(const std::string& said) {
        std::istringstream lines{said};
        char word = 0;
        std::string value;
        for (Step step; lines >> word >> step.minute >> value;) {
            step.value = value == "-" ? std::nullopt : std::optional{std::stoi(value)};
            if (word == 'a') {
                take(acknowledged_, step);
                tally_.add("entries acknowledged");
                underWay_.reset();
            } else {
                underWay_ = step;
            }
        }
    }

    void examine() {
        try {
            auto book = Logbook::open(file_, Logbook::Mode::readWrite);
            tally_.expect(book.check({}).faults.empty(), "a killed book is sound");
            Entries found;
            book.visitReadings({book.binNamed("North")->id, "core"}, [&](const Reading& reading) {
                found[(reading.when.at - noon).count / 60] = reading.written.tenThousandths;
            });
            auto withLast = acknowledged_;
            if (underWay_) {
                take(withLast, *underWay_);
            }
            tally_.expect(found == acknowledged_ || found == withLast,
                          "every acknowledged entry is there and nothing nobody entered");
            for (const auto& [minute, value] : acknowledged_) {
                const bool changing = underWay_ && underWay_->minute == minute;
                const bool there = changing || (found.contains(minute) && found.at(minute) == value);
                tally_.add("standing entries looked up after kills");
                tally_.add("… of them found", there ? 1 : 0);
            }
            acknowledged_ = found;
        } catch (const LogbookError& error) {
            tally_.expect(false, error.what());
        }
        underWay_.reset();
    }

    Tally& tally_;
    Folder folder_;
    fs::path file_ = folder_ / "plot.midden";
    Entries acknowledged_;
    std::optional<Step> underWay_;
    unsigned seed_;
    std::mt19937 chance_{seed_};
};

/// The program's own import, as a script would call it.
pid_t startImport(const fs::path& book, const fs::path& rows) {
    const auto child = ::fork();
    if (child == 0) {
        const int nowhere = ::open("/dev/null", O_WRONLY | O_CLOEXEC);
        ::dup2(nowhere, STDOUT_FILENO);
        ::dup2(nowhere, STDERR_FILENO);
        ::execl(MIDDENBOOK_BINARY, MIDDENBOOK_BINARY, "import", book.c_str(), "--batch", "spring", "--bin", "North",
                "--readings", rows.c_str(), nullptr);
        ::_exit(127);
    }
    return child;
}

class Importing {
  public:
    Importing(Tally& tally, unsigned seed) : tally_{tally}, chance_{seed} {
        makeBook(folder_ / "before.midden");
        before_ = entriesOf(folder_ / "before.midden");
        writeReadings(rows_, 24 * 60, rowCount);
        const auto begun = std::chrono::steady_clock::now();
        lay(true);
        finish();
        after_ = entriesOf(file_);
        lasts_ = std::chrono::steady_clock::now() - begun;
        lay(false);
        finish();
        afterAbsent_ = entriesOf(file_);
    }

    void killOnce(int trial) {
        const bool existing = trial % 3 != 0;
        lay(existing);
        const auto child = startImport(file_, rows_);
        const auto most = std::chrono::duration_cast<std::chrono::microseconds>(lasts_).count() * 6 / 5;
        std::this_thread::sleep_for(std::chrono::microseconds{chance_() % static_cast<std::uint64_t>(most)});
        ::kill(child, SIGKILL);
        int status = 0;
        ::waitpid(child, &status, 0);
        tally_.add("kills while importing");
        tally_.add("… of them with a journal left", fs::exists(file_.string() + "-journal") ? 1 : 0);
        tally_.add("… of them too late, import done", WIFEXITED(status) ? 1 : 0);
        examine(existing, WIFEXITED(status));
    }

  private:
    static constexpr int rowCount = 20'000;

    void lay(bool existing) {
        for (const char* end : {"", "-journal"}) {
            fs::remove(file_.string() + end);
        }
        if (existing) {
            fs::copy_file(folder_ / "before.midden", file_);
        }
    }

    void finish() {
        int status = -1;
        ::waitpid(startImport(file_, rows_), &status, 0);
        tally_.expect(WIFEXITED(status) && WEXITSTATUS(status) == 0, "an import after a kill goes through");
    }

    void examine(bool existing, bool done) {
        const auto& whole = existing ? after_ : afterAbsent_;
        try {
            const auto found = state();
            const bool none = existing ? found == before_ : found.empty() || found == emptyBook();
            tally_.expect(found == whole || (none && !done), "an import is there as a whole or not at all");
            finish();
            tally_.expect(entriesOf(file_) == whole, "the same import again brings in what is missing, once");
            tally_.expect(faultsOf(file_).empty(), "a book is sound after a killed import");
        } catch (const LogbookError& error) {
            tally_.expect(false, error.what());
        }
    }

    std::string state() const {
        try {
            return entriesOf(file_);
        } catch (const LogbookError& error) {
            if (error.kind != LogbookError::Kind::absent) {
                throw;
            }
            return {};
        }
    }

    std::string emptyBook() const {
        const auto file = folder_ / "empty.midden";
        Logbook::open(file, Logbook::Mode::createIfAbsent);
        return entriesOf(file);
    }

    Tally& tally_;
    Folder folder_;
    fs::path file_ = folder_ / "plot.midden";
    fs::path rows_ = folder_ / "rows.csv";
    std::string before_;
    std::string after_;
    std::string afterAbsent_;
    std::chrono::steady_clock::duration lasts_{};
    std::mt19937_64 chance_;
};

}  // namespace

int main(int argc, char** argv) {
    if (argc != 3 && argc != 4) {
        std::cerr << "Usage: " << argv[0] << " KILLS_WHILE_ENTERING KILLS_WHILE_IMPORTING [SEED]\n";
        return 2;
    }
    const auto seed = argc == 4 ? static_cast<unsigned>(std::stoul(argv[3])) : 2'026U;
    Tally tally;
    Entering entering{tally, seed};
    for (unsigned trial = 0; trial < std::stoul(argv[1]); ++trial) {
        entering.killOnce(trial);
    }
    Importing importing{tally, seed};
    for (int trial = 0; trial < std::stoi(argv[2]); ++trial) {
        importing.killOnce(trial);
    }
    return tally.tell();
}
