// SPDX-License-Identifier: GPL-3.0-or-later
// The commands that look after a book, as a script would call them.
#include <sys/wait.h>

#include <catch2/catch.hpp>
#include <cstdlib>
#include <fstream>
#include <sstream>

#include "core/store/care/copies.h"
#include "tests/core/store/books.h"

using namespace midden;
using namespace midden::trial;
namespace fs = std::filesystem;

namespace {

struct Ran {
    int status = -1;
    std::string out;
    std::string err;
};

std::string textOf(const fs::path& file) {
    std::ostringstream text;
    text << std::ifstream{file}.rdbuf();
    return text.str();
}

/// Runs the program in the folder, which is also its user's data folder.
Ran run(const Folder& folder, const std::string& arguments) {
    const auto line = "cd '" + folder.path().string() + "' && XDG_DATA_HOME=\"$PWD/data\" '" MIDDENBOOK_BINARY "' " +
                      arguments + " >out.txt 2>err.txt";
    const int status = std::system(line.c_str());
    return {WIFEXITED(status) ? WEXITSTATUS(status) : -1, textOf(folder / "out.txt"), textOf(folder / "err.txt")};
}

/// A book of one bin with two copies, one before the bin was there.
fs::path copiedBook(const Folder& folder) {
    const auto file = folder / "plot.midden";
    const auto copies = folder / "data/middenbook/middenbook/copies" / copyFolderName(file);
    auto book = Logbook::open(file, Logbook::Mode::createIfAbsent);
    keepCopy(file, copies, noon);
    putBin(book, "North");
    keepCopy(file, copies, noon + days(1));
    return file;
}

}  // namespace

TEST_CASE("copies are listed with the newest first") {
    const Folder folder;
    copiedBook(folder);
    const auto ran = run(folder, "copies plot.midden");
    CHECK(ran.status == 0);
    CHECK(ran.err.empty());
    CHECK(ran.out.find("1. 2 March 2026 12:00, ") < ran.out.find("2. 1 March 2026 12:00, "));
    CHECK(run(folder, "copies").out.find("plot.midden, newest first") != std::string::npos);
    const auto none = run(folder, "copies other.midden");
    CHECK(none.status == 1);
    CHECK(none.out.find("keeps no copies of other.midden") != std::string::npos);
}

TEST_CASE("a copy is restored to a new file even when the book is gone") {
    const Folder folder;
    const auto file = copiedBook(folder);
    fs::remove(file);
    CHECK(run(folder, "restore plot.midden new.midden").status == 0);
    CHECK(Logbook::open(folder / "new.midden", Logbook::Mode::readOnly).bins().size() == 1);
    CHECK(run(folder, "restore plot.midden older.midden --copy 2").status == 0);
    CHECK(Logbook::open(folder / "older.midden", Logbook::Mode::readOnly).bins().empty());
    CHECK_FALSE(fs::exists(file));
}

TEST_CASE("a damaged book is salvaged to a new file and what is lost is said") {
    const Folder folder;
    const auto file = copiedBook(folder);
    CHECK(run(folder, "salvage plot.midden whole.midden").status == 0);
    CHECK(run(folder, "check whole.midden").status == 0);
    auto bytes = textOf(file);
    const auto root = std::stoul(plainly(file, "SELECT rootpage FROM sqlite_schema WHERE name = 'bin'"));
    const auto page = std::stoul(plainly(file, "PRAGMA page_size"));
    bytes.replace((root - 1) * page, page, page, '\0');
    std::ofstream{file, std::ios::binary} << bytes;
    CHECK(run(folder, "check plot.midden").status == 1);
    const auto ran = run(folder, "salvage plot.midden new.midden");
    CHECK(ran.status == 1);
    CHECK(ran.out.find("1 bin kept; 1 page of the file with more of them unreadable") != std::string::npos);
    CHECK(ran.out.find("Wrote new.midden; plot.midden is as it was.") != std::string::npos);
    CHECK(textOf(file) == bytes);
    CHECK(run(folder, "check new.midden").status == 0);
    CHECK(run(folder, "salvage plot.midden new.midden").status == 3);
}

TEST_CASE("restoring never writes over a file") {
    const Folder folder;
    copiedBook(folder);
    const auto before = textOf(folder / "plot.midden");
    const auto ran = run(folder, "restore plot.midden plot.midden");
    CHECK(ran.status == 3);
    CHECK(ran.err.find("plot.midden is already there") != std::string::npos);
    CHECK(textOf(folder / "plot.midden") == before);
    CHECK(run(folder, "restore plot.midden new.midden --copy 3").status == 3);
    CHECK(run(folder, "restore plot.midden").status == 2);
    CHECK_FALSE(fs::exists(folder / "new.midden"));
}
