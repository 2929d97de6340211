// SPDX-License-Identifier: GPL-3.0-or-later
// Where files may stand, and how they get their names.
#include <sys/stat.h>

#include <catch2/catch.hpp>

#include "core/files/naming.h"
#include "core/files/output_file.h"
#include "core/files/output_folder.h"
#include "core/files/rights.h"
#include "tests/core/exchange/scratch.h"

using namespace midden;
using midden::testing::Scratch;
namespace fs = std::filesystem;
using Kind = FileTrouble::Kind;

namespace {

template <class Work>
std::optional<Kind> troubleOf(Work work) {
    try {
        work();
    } catch (const FileTrouble& trouble) {
        CHECK(std::string{trouble.what()} != "");
        return trouble.kind;
    }
    return std::nullopt;
}

bool startsWithOurs(std::string_view content) {
    return content.starts_with("ours");
}

std::ptrdiff_t entriesIn(const fs::path& folder) {
    return std::distance(fs::directory_iterator{folder}, {});
}

}  // namespace

TEST_CASE("a destination is what the links lead to") {
    const Scratch scratch;
    fs::create_directory(scratch.path("deep"));
    scratch.write("deep/there.txt", "x");
    fs::create_symlink("deep/there.txt", scratch.path("link"));
    fs::create_symlink("link", scratch.path("chain"));
    fs::create_symlink("deep/absent.txt", scratch.path("hanging"));
    const auto folder = fs::canonical(scratch.folder());
    CHECK(destinationOf(scratch.path("chain")).path == folder / "deep/there.txt");
    CHECK(destinationOf(scratch.path("chain")).isPlainFile());
    CHECK(destinationOf(scratch.path("hanging")).path == folder / "deep/absent.txt");
    CHECK_FALSE(destinationOf(scratch.path("hanging")).isTaken());
    CHECK_FALSE(destinationOf(scratch.path("deep")).isPlainFile());
}

TEST_CASE("no file stands at a folder's name, round a circle of links or as a part of a book") {
    const Scratch scratch;
    fs::create_symlink("b", scratch.path("a"));
    fs::create_symlink("a", scratch.path("b"));
    scratch.write("plot.midden", "x");
    for (const char* name :
         {"a", "new/", ".", "..", "new/.", "plot.midden-journal", "plot.midden-wal", "plot.midden-shm"}) {
        CAPTURE(name);
        CHECK(troubleOf([&] { destinationOf(scratch.path(name)); }) == Kind::refused);
    }
    CHECK(troubleOf([&] { destinationOf(scratch.path("absent/x")); }) == Kind::unwritable);
    CHECK(troubleOf([&] { destinationOf(scratch.path("plot.midden/x")); }) == Kind::unwritable);
    CHECK(troubleOf([&] { destinationOf(scratch.path(std::string(300, 'n'))); }) == Kind::refused);
    CHECK_FALSE(troubleOf([&] { destinationOf(scratch.path("garden-journal")); }));
}

TEST_CASE("a name that is taken is not given again") {
    const Scratch scratch;
    const auto made = scratch.write("made", "new");
    const auto taken = scratch.write("taken", "old");
    fs::create_symlink("nowhere", scratch.path("link"));
    CHECK_FALSE(giveName(made, taken));
    CHECK_FALSE(giveName(made, scratch.path("link")));
    CHECK(Scratch::read(taken) == "old");
    CHECK(giveName(made, scratch.path("free")));
    CHECK(Scratch::read(scratch.path("free")) == "new");
    CHECK_FALSE(fs::exists(made));
}

TEST_CASE("only the file that was found gives way") {
    const Scratch scratch;
    const auto made = scratch.write("made", "new");
    const auto name = scratch.write("name", "old");
    const auto found = *fileStatus(name);
    fs::remove(name);
    scratch.write("name", "of somebody else");
    CHECK_FALSE(takePlaceOf(found, made, name));
    CHECK(Scratch::read(name) == "of somebody else");
    CHECK(takePlaceOf(*fileStatus(name), made, name));
    CHECK(Scratch::read(name) == "new");
    CHECK(Scratch::read(made) == "of somebody else");
}

TEST_CASE("an output takes a free name or the place of one of its own and nothing else") {
    const Scratch scratch;
    for (const char* name : {"new", "ours"}) {
        scratch.write("ours", "ours, before");
        OutputFile output{scratch.path(name), startsWithOurs};
        output.write("ours, now");
        CHECK(Scratch::read(scratch.path("ours")) == "ours, before");
        output.takeName();
        CHECK(Scratch::read(scratch.path(name)) == "ours, now");
    }
    for (const char* content : {"theirs", ""}) {
        scratch.write("theirs", content);
        fs::remove(scratch.path("link"));
        fs::create_symlink("theirs", scratch.path("link"));
        CHECK(troubleOf([&] { OutputFile{scratch.path("theirs"), startsWithOurs}; }) == Kind::refused);
        CHECK(troubleOf([&] { OutputFile{scratch.path("link"), startsWithOurs}; }) == Kind::refused);
    }
    REQUIRE(::mkfifo(scratch.path("pipe").c_str(), 0600) == 0);
    CHECK(troubleOf([&] { OutputFile{scratch.path("pipe"), startsWithOurs}; }) == Kind::refused);
    CHECK(troubleOf([&] { OutputFile{"/dev/null", startsWithOurs}; }) == Kind::refused);
    CHECK(entriesIn(scratch.folder()) == 5);
}

TEST_CASE("an output whose name is taken or changed meanwhile is refused and leaves nothing") {
    const Scratch scratch;
    scratch.write("before", "ours");
    for (const char* name : {"new", "before"}) {
        OutputFile output{scratch.path(name), startsWithOurs};
        output.write("ours, now");
        scratch.write(name, "ours, but of somebody else");
        CHECK(troubleOf([&] { output.takeName(); }) == Kind::refused);
        CHECK(Scratch::read(scratch.path(name)) == "ours, but of somebody else");
    }
    CHECK(entriesIn(scratch.folder()) == 2);
}

TEST_CASE("an output that is replaced keeps its rights and is reached through its link") {
    const Scratch scratch;
    scratch.write("deep", "ours");
    fs::create_symlink("deep", scratch.path("link"));
    giveRights(scratch.path("deep"), {0640, {}});
    OutputFile output{scratch.path("link"), startsWithOurs};
    output.write("ours, now");
    output.takeName();
    CHECK(fs::is_symlink(scratch.path("link")));
    CHECK(Scratch::read(scratch.path("deep")) == "ours, now");
    CHECK(rightsOf(scratch.path("deep")).bits == 0640);
}

TEST_CASE("a folder of files takes a free name or that of an empty folder") {
    const Scratch scratch;
    fs::create_directory(scratch.path("empty"));
    for (const char* name : {"a/b/new", "empty", "slash/"}) {
        CAPTURE(name);
        OutputFolder output{scratch.path(name)};
        std::ofstream{output.making() / "file"} << "x";
        output.takeName();
        CHECK(Scratch::read(scratch.path(name) / "file") == "x");
    }
    CHECK(troubleOf([&] { OutputFolder{scratch.path("empty")}; }) == Kind::refused);
    scratch.write("text", "mine");
    CHECK(troubleOf([&] { OutputFolder{scratch.path("text")}; }) == Kind::refused);
    CHECK(troubleOf([&] { OutputFolder{scratch.path("text/below")}; }) == Kind::unwritable);
    { const OutputFolder givenUp{scratch.path("x/y/z")}; }
    CHECK_FALSE(fs::exists(scratch.path("x")));
    CHECK(entriesIn(scratch.folder()) == 4);
}

TEST_CASE("a folder filled meanwhile is left to whoever filled it") {
    const Scratch scratch;
    fs::create_directory(scratch.path("out"));
    OutputFolder output{scratch.path("out")};
    scratch.write("out/letter", "mine");
    CHECK(troubleOf([&] { output.takeName(); }) == Kind::refused);
    CHECK(Scratch::read(scratch.path("out/letter")) == "mine");
}

TEST_CASE("a folder without a name, or below a folder that is gone, is refused in words of our own") {
    CHECK(troubleOf([] { OutputFolder{fs::path{}}; }) == Kind::refused);
    const auto before = fs::current_path();
    const Scratch scratch;
    fs::create_directory(scratch.path("gone"));
    fs::current_path(scratch.path("gone"));
    fs::remove(scratch.path("gone"));
    const auto trouble = troubleOf([] { OutputFolder{"out"}; });
    fs::current_path(before);
    CHECK(trouble == Kind::unwritable);
}
