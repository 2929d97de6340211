// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>
#include <fstream>

#include "core/store/care/book_summary.h"
#include "tests/core/store/books.h"

using namespace midden;
using namespace midden::trial;
using Kind = LogbookError::Kind;
using Mode = Logbook::Mode;
using FileState = Logbook::FileState;
namespace fs = std::filesystem;

namespace {

fs::path smallBook(const Folder& folder) {
    auto book = Logbook::open(folder / "plot.midden", Mode::createIfAbsent);
    book.setSetting(setting::group, "Lane End");
    const auto bin = putBin(book, "North");
    putBatch(book, bin, "spring", 0);
    putReading(book, bin, "core", 1, 55);
    putReading(book, bin, "core", 30, 60);
    return folder / "plot.midden";
}

void addReading(const fs::path& file, double hour, double celsius) {
    auto book = Logbook::open(file, Mode::readWrite);
    putReading(book, book.bins().at(0).id, "core", hour, celsius);
}

fs::path copyOf(const fs::path& file, const std::string& name) {
    const auto copy = file.parent_path() / name;
    Logbook::open(file, Mode::readOnly).backUpTo(copy);
    return copy;
}

}  // namespace

TEST_CASE("a look inside tells group and batches and readings") {
    const Folder folder;
    const auto inside = summaryOf(Logbook::open(smallBook(folder), Mode::readOnly));
    CHECK(inside.group == "Lane End");
    REQUIRE(inside.batches.size() == 1);
    CHECK(inside.batches[0].name == "spring");
    CHECK(inside.batches[0].readings == 2);
    CHECK(inside.readings == 2);
    CHECK(inside.lastReading == at(30).at);
}

TEST_CASE("a restored copy shows at once in a book that is open elsewhere") {
    const Folder folder;
    const auto file = smallBook(folder);
    const auto copy = copyOf(file, "copy.midden");
    addReading(file, 40, 50);
    const auto elsewhere = Logbook::open(file, Mode::readWrite);
    const auto before = elsewhere.dataVersion();
    CHECK_FALSE(replaceBook(file, copy));
    CHECK(elsewhere.dataVersion() != before);
    CHECK(elsewhere.fileState() == FileState::inPlace);
    CHECK(summaryOf(elsewhere).readings == 2);
    CHECK(elsewhere.check({}).faults.empty());
}

TEST_CASE("a damaged file is set aside as it is when a copy takes its place") {
    const Folder folder;
    const auto file = smallBook(folder);
    const auto copy = copyOf(file, "copy.midden");
    std::ofstream{file, std::ios::binary} << std::string(50'000, 'x');
    CHECK(replaceBook(file, copy) == folder / "plot set aside.midden");
    CHECK(fs::file_size(folder / "plot set aside.midden") == 50'000);
    CHECK(summaryOf(Logbook::open(file, Mode::readOnly)).readings == 2);
    std::ofstream{file, std::ios::binary} << std::string(60'000, 'x');
    CHECK(replaceBook(file, copy) == folder / "plot set aside 2.midden");
    fs::remove(file);
    CHECK_FALSE(replaceBook(file, copy));
    CHECK(summaryOf(Logbook::open(file, Mode::readOnly)).readings == 2);
}

TEST_CASE("a file that another program is writing to is neither replaced nor set aside") {
    const Folder folder;
    const auto file = smallBook(folder);
    const auto copy = copyOf(file, "copy.midden");
    addReading(file, 40, 50);
    auto writer = Logbook::open(file, Mode::readWrite);
    writer.inOneTransaction([&] {
        putBin(writer, "South");
        CHECK(refusalOf([&] { replaceBook(file, copy); }) == Kind::busy);
    });
    CHECK(summaryOf(writer).readings == 3);
    CHECK_FALSE(fs::exists(folder / "plot set aside.midden"));
}

TEST_CASE("a file moved or deleted or replaced while open is noticed and no entry is taken") {
    const Folder folder;
    const auto file = smallBook(folder);
    auto book = Logbook::open(file, Mode::readWrite);
    CHECK(book.fileState() == FileState::inPlace);
    const auto bin = book.bins().at(0).id;
    fs::rename(file, folder / "elsewhere.midden");
    CHECK(book.fileState() == FileState::gone);
    CHECK(refusalOf([&] { putReading(book, bin, "core", 40, 50); }) == Kind::moved);
    book.backUpTo(folder / "rescued.midden");
    CHECK(summaryOf(Logbook::open(folder / "rescued.midden", Mode::readOnly)).readings == 2);
    fs::copy_file(folder / "elsewhere.midden", file);
    CHECK(book.fileState() == FileState::replaced);
    CHECK(refusalOf([&] { putReading(book, bin, "core", 40, 50); }) == Kind::moved);
    fs::rename(folder / "elsewhere.midden", file);
    CHECK(book.fileState() == FileState::inPlace);
    CHECK_FALSE(refusalOf([&] { putReading(book, bin, "core", 40, 50); }));
}
