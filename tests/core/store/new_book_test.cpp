// SPDX-License-Identifier: GPL-3.0-or-later
// How books come into being, whose they are, and what a second name does to them.
#include <catch2/catch.hpp>
#include <fstream>

#include "core/files/rights.h"
#include "core/store/care/salvage/salvage.h"
#include "core/store/entries/take_back.h"
#include "core/store/files/new_book.h"
#include "core/store/files/trial_copy.h"
#include "core/store/sqlite/second_name.h"
#include "tests/core/store/books.h"

using namespace midden;
using namespace midden::trial;
using Kind = LogbookError::Kind;
using Mode = Logbook::Mode;
namespace fs = std::filesystem;

namespace {

struct GivenUp {};

std::size_t filesIn(const Folder& folder) {
    return static_cast<std::size_t>(std::distance(fs::directory_iterator{folder.path()}, {}));
}

void fill(Logbook& book) {
    putBin(book, "North");
}

fs::path smallBook(const Folder& folder) {
    const auto file = folder / "plot.midden";
    REQUIRE(beginBook(file, fill));
    return file;
}

}  // namespace

TEST_CASE("a book that is given up while it is begun leaves no file") {
    const Folder folder;
    const auto file = folder / "plot.midden";
    const auto giveUp = [&] { beginBook(file, [](Logbook&) { throw GivenUp{}; }); };
    CHECK_THROWS_AS(giveUp(), GivenUp);
    CHECK(filesIn(folder) == 0);
    std::ofstream{file}.flush();
    CHECK_THROWS_AS(giveUp(), GivenUp);
    CHECK(fs::file_size(file) == 0);
    fs::remove(file);
    fs::create_symlink("real.midden", file);
    CHECK_THROWS_AS(giveUp(), GivenUp);
    CHECK(fs::is_symlink(file));
    CHECK(filesIn(folder) == 1);
}

TEST_CASE("a book begun by another program meanwhile is left to it") {
    const Folder folder;
    const auto file = folder / "plot.midden";
    const bool wasEmpty = GENERATE(false, true);
    if (wasEmpty) {
        std::ofstream{file}.flush();
    }
    CHECK_FALSE(beginBook(file, [&](Logbook& book) {
        putBin(book, "South");
        REQUIRE(beginBook(file, fill));
    }));
    CHECK(Logbook::open(file, Mode::readOnly).binNamed("North"));
    CHECK_FALSE(Logbook::open(file, Mode::readOnly).binNamed("South"));
    CHECK(filesIn(folder) == 1);
}

TEST_CASE("a book begun through a link stands where the link leads") {
    const Folder folder;
    fs::create_symlink("real.midden", folder / "link.midden");
    CHECK(isUnwritten(folder / "link.midden"));
    REQUIRE(beginBook(folder / "link.midden", fill));
    CHECK(fs::is_symlink(folder / "link.midden"));
    CHECK(Logbook::open(folder / "real.midden", Mode::readOnly).binNamed("North"));
    CHECK_FALSE(isUnwritten(folder / "link.midden"));
}

TEST_CASE("no book is begun or copied beside the journal of another") {
    const Folder folder;
    const auto file = smallBook(folder);
    std::ofstream{folder / "new.midden-journal"} << "of a book that was here";
    CHECK(refusalOf([&] { beginBook(folder / "new.midden", fill); }) == Kind::refused);
    CHECK(refusalOf([&] { Logbook::open(file, Mode::readOnly).backUpTo(folder / "new.midden"); }) == Kind::refused);
    CHECK(refusalOf([&] { salvageBook(file, folder / "new.midden", {}); }) == Kind::refused);
    CHECK(fs::exists(folder / "new.midden-journal"));
    CHECK(filesIn(folder) == 2);
}

TEST_CASE("a new book is private and its copies are as open as it is") {
    const Folder folder;
    const auto file = smallBook(folder);
    CHECK(rightsOf(file).bits == 0600);
    giveRights(file, {0664, {}});
    Logbook::open(file, Mode::readOnly).backUpTo(folder / "copy.midden");
    salvageBook(file, folder / "salvaged.midden", {});
    CHECK(rightsOf(folder / "copy.midden").bits == 0664);
    CHECK(rightsOf(folder / "salvaged.midden").bits == 0664);
}

TEST_CASE("a trial takes changes and leaves no file") {
    const Folder folder;
    const auto file = smallBook(folder);
    {
        const TrialCopy copy{file, folder.path()};
        auto trial = copy.open();
        putBin(trial, "South");
        CHECK(trial.bins().size() == 2);
        CHECK(trial.check({}).faults.empty());
    }
    CHECK(Logbook::open(file, Mode::readOnly).bins().size() == 1);
    CHECK(filesIn(folder) == 1);
}

TEST_CASE("a book with a second name is read and not written") {
    const Folder folder;
    const auto file = smallBook(folder);
    auto open = Logbook::open(file, Mode::readWrite);
    fs::create_hard_link(file, folder / "second.midden");
    CHECK(refusalOf([&] { putBin(open, "South"); }) == Kind::readOnly);
    CHECK(refusalOf([&] { open.setSetting(setting::group, "Ferry Lane"); }) == Kind::readOnly);
    for (const char* name : {"plot.midden", "second.midden"}) {
        CHECK(refusalOf([&] { Logbook::open(folder / name, Mode::readWrite); }) == Kind::readOnly);
        CHECK(refusalOf([&] { Logbook::open(folder / name, Mode::createIfAbsent); }) == Kind::readOnly);
        CHECK(Logbook::open(folder / name, Mode::readOnly).binNamed("North"));
    }
    fs::remove(folder / "second.midden");
    putBin(open, "South");
    CHECK(open.bins().size() == 2);
}

TEST_CASE("a change broken off under one name is not read under another") {
    const Folder folder;
    const auto file = smallBook(folder);
    fs::create_hard_link(file, folder / "second.midden");
    std::ofstream{folder / "plot.midden-journal"} << std::string(512, 'j');
    for (const char* name : {"plot.midden", "second.midden"}) {
        CHECK(refusalOf([&] { Logbook::open(folder / name, Mode::readOnly); }) == Kind::failed);
    }
    CHECK(fs::exists(folder / "plot.midden-journal"));
}

TEST_CASE("a certificate that was taken back was never issued") {
    const Folder folder;
    auto book = Logbook::open(folder / "plot.midden", Mode::createIfAbsent);
    const auto batch = putBatch(book, putBin(book, "North"), "spring", 0);
    book.storeCertificate({"2026-1", batch, noon, std::string(64, 'a'), "record", ""});
    book.storeCertificate({"2026-2", batch, noon + hours(1), std::string(64, 'b'), "record", "2026-1"});
    takeBackCertificate(folder / "plot.midden", "2026-2");
    CHECK(book.certificate("2026-1"));
    CHECK_FALSE(book.certificate("2026-2"));
    CHECK(refusalOf([&] { putBin(book, "North"); }) == Kind::refused);  // the rules of the file hold again
}
