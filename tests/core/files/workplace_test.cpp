// SPDX-License-Identifier: GPL-3.0-or-later
// What a killed program leaves is removed by the next, and nothing else is.
#include <sys/wait.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <csignal>

#include "core/files/workplace.h"
#include "tests/core/exchange/scratch.h"

using namespace midden;
using midden::testing::Scratch;
namespace fs = std::filesystem;

namespace {

std::ptrdiff_t entriesIn(const fs::path& folder) {
    return std::distance(fs::directory_iterator{folder}, {});
}

/// Another program that works in the folder and is killed there.
void killAtWork(const Scratch& scratch) {
    const auto child = ::fork();
    if (child == 0) {
        const Workplace workplace{scratch.path("copy.midden")};
        fs::create_directories(workplace.making() / "deep");
        std::ofstream{workplace.making() / "deep/file"} << "half";
        ::kill(::getpid(), SIGKILL);
    }
    int status = 0;
    ::waitpid(child, &status, 0);
    REQUIRE(WIFSIGNALED(status));
}

}  // namespace

TEST_CASE("a workplace goes with everything in it") {
    const Scratch scratch;
    {
        const Workplace workplace{scratch.path("copy.midden")};
        CHECK(workplace.making().filename() == "copy.midden");
        std::ofstream{workplace.making()} << "half";
        CHECK((fs::status(workplace.making().parent_path()).permissions() & fs::perms{0077}) == fs::perms::none);
    }
    CHECK(entriesIn(scratch.folder()) == 0);
}

TEST_CASE("what a killed program left is removed by the next one there") {
    const Scratch scratch;
    killAtWork(scratch);
    killAtWork(scratch);
    CHECK(entriesIn(scratch.folder()) == 1);
    tidyUpAfterKilled(scratch.folder());
    CHECK(entriesIn(scratch.folder()) == 0);
}

TEST_CASE("a workplace in use is not tidied away") {
    const Scratch scratch;
    const Workplace one{scratch.path("a")};
    std::ofstream{one.making()} << "half";
    const Workplace other{scratch.path("b")};
    tidyUpAfterKilled(scratch.folder());
    CHECK(Scratch::read(one.making()) == "half");
}

TEST_CASE("what only looks like a workplace is left alone") {
    const Scratch scratch;
    killAtWork(scratch);
    const auto left = fs::directory_iterator {
        scratch.folder()
        } -> path();
    const auto mark = Scratch::read(left / ".in-use");
    fs::rename(left, scratch.path("kept"));
    fs::create_directory(scratch.path(".middenbook-others"));
    for (const std::string name : {".middenbook-unmark", ".middenbook-edited", ".middenbook-elsewh"}) {
        fs::create_directory(scratch.path(name));
        scratch.write(name + "/copy.midden", "mine");
    }
    scratch.write(".middenbook-edited/.in-use", mark + "!");
    auto elsewhere = mark;
    elsewhere[elsewhere.size() - 2] ^= 1;
    scratch.write(".middenbook-elsewh/.in-use", elsewhere);
    fs::create_directory_symlink(scratch.path("kept"), scratch.path(".middenbook-linked"));
    scratch.write(".middenbook-afile1", "mine");
    tidyUpAfterKilled(scratch.folder());
    CHECK(fs::exists(scratch.path("kept/copy.midden/deep/file")));
    for (const char* name : {".middenbook-unmark/copy.midden", ".middenbook-edited/copy.midden",
                             ".middenbook-elsewh/copy.midden", ".middenbook-linked", ".middenbook-afile1"}) {
        CAPTURE(name);
        CHECK(fs::exists(scratch.path(name)));
    }
}

TEST_CASE("where nothing can be made it says so") {
    const Scratch scratch;
    CHECK_THROWS_AS(Workplace{scratch.path("absent/copy")}, FileTrouble);
}
