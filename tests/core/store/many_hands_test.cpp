// SPDX-License-Identifier: GPL-3.0-or-later
// Several programs writing to one book at once: real processes, made with fork and exec.
#include <sys/wait.h>
#include <unistd.h>

#include <array>
#include <catch2/catch.hpp>
#include <cstdlib>
#include <string>
#include <vector>

#include "tests/core/store/books.h"

using namespace midden;
using namespace midden::trial;
using Mode = Logbook::Mode;

namespace {

constexpr int entriesEach = 150;

/// Starts this very program again as a writer of its own position.
pid_t startWriter(const std::filesystem::path& file, const std::string& position) {
    const pid_t child = ::fork();
    if (child == 0) {
        ::setenv("MIDDENBOOK_TRIAL_BOOK", file.c_str(), 1);
        ::setenv("MIDDENBOOK_TRIAL_POSITION", position.c_str(), 1);
        ::execl("/proc/self/exe", "writer", "one of several writers", static_cast<char*>(nullptr));
        ::_exit(99);
    }
    return child;
}

int statusOf(pid_t child) {
    int status = 0;
    ::waitpid(child, &status, 0);
    return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

}  // namespace

/// What each of the processes does: one entry after the other, as a person would, trying again when told to.
TEST_CASE("one of several writers", "[.]") {
    auto book = Logbook::open(std::getenv("MIDDENBOOK_TRIAL_BOOK"), Mode::readWrite);
    const std::string position = std::getenv("MIDDENBOOK_TRIAL_POSITION");
    const auto bin = book.bins().at(0).id;
    for (int i = 0; i < entriesEach;) {
        const auto refusal = refusalOf([&] { putReading(book, bin, position, i, 40 + i % 30); });
        REQUIRE((!refusal || *refusal == LogbookError::Kind::busy));
        i += refusal ? 0 : 1;
    }
}

TEST_CASE("three programs writing at once lose no entry and double none") {
    const Folder folder;
    const auto file = folder / "plot.midden";
    {
        auto book = Logbook::open(file, Mode::createIfAbsent);
        putBatch(book, putBin(book, "North"), "spring", 0);
    }
    const auto watcher = Logbook::open(file, Mode::readOnly);
    const auto before = watcher.dataVersion();
    std::vector<pid_t> writers;
    for (const std::string position : {"base", "core", "side"}) {
        writers.push_back(startWriter(file, position));
    }
    for (const pid_t writer : writers) {
        CHECK(statusOf(writer) == 0);
    }
    CHECK(watcher.dataVersion() != before);
    const auto bin = watcher.bins().at(0).id;
    for (const std::string position : {"base", "core", "side"}) {
        int count = 0;
        watcher.visitReadings({bin, position}, [&](const Reading& reading) {
            CHECK(reading.when.at == at(count).at);
            ++count;
        });
        CHECK(count == entriesEach);
    }
    CHECK(watcher.check({}).faults.empty());
}
