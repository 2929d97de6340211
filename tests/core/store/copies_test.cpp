// SPDX-License-Identifier: GPL-3.0-or-later
#include <sqlite3.h>

#include <catch2/catch.hpp>
#include <fstream>

#include "core/store/care/copies.h"
#include "tests/core/store/books.h"

using namespace midden;
using namespace midden::trial;
using Kind = LogbookError::Kind;
using Mode = Logbook::Mode;
namespace fs = std::filesystem;

namespace {

fs::path smallBook(const Folder& folder, const std::string& name = "plot.midden") {
    auto book = Logbook::open(folder / name, Mode::createIfAbsent);
    const auto bin = putBin(book, "North");
    putBatch(book, bin, "spring", 0);
    putReading(book, bin, "core", 1, 55);
    return folder / name;
}

void addReading(const fs::path& file, double hour) {
    auto book = Logbook::open(file, Mode::readWrite);
    putReading(book, book.bins().at(0).id, "core", hour, 60);
}

std::size_t filesIn(const fs::path& folder) {
    return static_cast<std::size_t>(std::distance(fs::directory_iterator{folder}, {}));
}

/// While this lives, a disk that takes nothing of a copy under its passing name beyond the first few pages.
class FullDisk {
  public:
    FullDisk() : disk_{*sqlite3_vfs_find(nullptr)}, before_{sqlite3_vfs_find(nullptr)} {
        real() = before_;
        disk_.zName = "full disk";
        disk_.xOpen = &FullDisk::open;
        sqlite3_vfs_register(&disk_, 1);
    }
    FullDisk(const FullDisk&) = delete;
    FullDisk& operator=(const FullDisk&) = delete;
    ~FullDisk() {
        sqlite3_vfs_register(before_, 1);
        sqlite3_vfs_unregister(&disk_);
    }

  private:
    static sqlite3_vfs*& real() {
        static sqlite3_vfs* vfs = nullptr;
        return vfs;
    }
    static sqlite3_io_methods& methods() {
        static sqlite3_io_methods ours{};
        return ours;
    }
    static int (*&realWrite())(sqlite3_file*, const void*, int, sqlite3_int64) {
        static int (*write)(sqlite3_file*, const void*, int, sqlite3_int64) = nullptr;
        return write;
    }
    static int write(sqlite3_file* file, const void* bytes, int count, sqlite3_int64 at) {
        return at > 8'192 ? SQLITE_FULL : realWrite()(file, bytes, count, at);
    }
    static int open(sqlite3_vfs*, const char* name, sqlite3_file* file, int flags, int* given) {
        const int opened = real()->xOpen(real(), name, file, flags, given);
        if (opened == SQLITE_OK && name != nullptr && std::string{name}.find("/.middenbook-") != std::string::npos) {
            methods() = *file->pMethods;
            realWrite() = methods().xWrite;
            methods().xWrite = &FullDisk::write;
            file->pMethods = &methods();
        }
        return opened;
    }

    sqlite3_vfs disk_;
    sqlite3_vfs* before_;
};

}  // namespace

TEST_CASE("a full disk leaves the copies made before alone and says so") {
    const Folder folder;
    const auto file = smallBook(folder);
    const auto copies = folder / "copies";
    for (int day = 0; day < 8; ++day) {
        addReading(file, 2 + day);
        REQUIRE(keepCopy(file, copies, noon + days(day)));
    }
    const auto kept = filesIn(copies);
    addReading(file, 20);
    {
        const FullDisk disk;
        CHECK(refusalOf([&] { keepCopy(file, copies, noon + days(9)); }) == Kind::full);
        CHECK(filesIn(copies) == kept);
    }
    CHECK(keepCopy(file, copies, noon + days(9)));
}

TEST_CASE("a kept copy is a whole book named by its instant") {
    const Folder folder;
    const auto file = smallBook(folder);
    const auto copy = keepCopy(file, folder / "copies", noon);
    REQUIRE(copy);
    CHECK(copy->file.filename() == "2026-03-01T12.00.00Z.midden");
    CHECK(copy->made == noon);
    CHECK(copy->bytes == fs::file_size(copy->file));
    CHECK(Logbook::open(copy->file, Mode::readOnly).record(BatchId{1}).readings == 1);
    CHECK(Logbook::open(copy->file, Mode::readOnly).check({}).faults.empty());
    CHECK(filesIn(folder / "copies") == 2);  // with the note of whose they are
}

TEST_CASE("a copy is made only when the book holds something else") {
    const Folder folder;
    const auto file = smallBook(folder);
    const auto copies = folder / "copies";
    REQUIRE(keepCopy(file, copies, noon));
    CHECK_FALSE(keepCopy(file, copies, noon + hours(1)));
    addReading(file, 2);
    CHECK(keepCopy(file, copies, noon + days(1)));
    CHECK_FALSE(keepCopy(file, copies, noon + days(2)));
    const auto kept = keptCopies(copies);
    REQUIRE(kept.size() == 2);
    CHECK(kept[0].made == noon + days(1));
    CHECK(kept[1].made == noon);
}

TEST_CASE("two copies of one second get two names") {
    const Folder folder;
    const auto file = smallBook(folder);
    const auto copies = folder / "copies";
    REQUIRE(keepCopy(file, copies, noon));
    addReading(file, 2);
    REQUIRE(keepCopy(file, copies, noon));
    CHECK(keptCopies(copies).at(0).made == noon + Seconds{1});
    CHECK(Logbook::open(keptCopies(copies).at(0).file, Mode::readOnly).record(BatchId{1}).readings == 2);
}

TEST_CASE("old copies make room only once a new one is good") {
    const Folder folder;
    const auto file = smallBook(folder);
    const auto copies = folder / "copies";
    for (int day = 0; day < 20; ++day) {
        addReading(file, 2 + day);
        REQUIRE(keepCopy(file, copies, noon + days(day)));
    }
    const auto kept = keptCopies(copies).size();
    CHECK(kept == 7 + 2);  // 14 to 20 March, and the Sundays 1 and 8 March
    std::ofstream{file, std::ios::binary | std::ios::in | std::ios::out}.seekp(4'096) << std::string(60'000, '\xAA');
    CHECK(refusalOf([&] { keepCopy(file, copies, noon + days(30)); }) == Kind::damaged);
    CHECK(keptCopies(copies).size() == kept);
    fs::remove(file);
    CHECK(refusalOf([&] { keepCopy(file, copies, noon + days(31)); }) == Kind::absent);
    CHECK(keptCopies(copies).size() == kept);
    CHECK(filesIn(copies) == kept + 1);
}

TEST_CASE("a copy made while another program writes holds only what was finished") {
    const Folder folder;
    const auto file = smallBook(folder);
    auto writer = Logbook::open(file, Mode::readWrite);
    writer.inOneTransaction([&] {
        putBin(writer, "South");
        REQUIRE(keepCopy(file, folder / "copies", noon));
    });
    CHECK(Logbook::open(keptCopies(folder / "copies").at(0).file, Mode::readOnly).bins().size() == 1);
    CHECK(writer.bins().size() == 2);
}

TEST_CASE("what a crash left behind is tidied up after a day and other files are left alone") {
    const Folder folder;
    const auto file = smallBook(folder);
    const auto copies = folder / "copies";
    fs::create_directories(copies);
    for (const std::string name :
         {"copy.12345678.part", "copy.87654321.part", "letter.txt", "2026-02-30T12.00.00Z.midden"}) {
        std::ofstream{copies / name} << "x";
    }
    fs::last_write_time(copies / "copy.12345678.part", fs::file_time_type::clock::now() - std::chrono::hours{30});
    REQUIRE(keepCopy(file, copies, noon));
    CHECK_FALSE(fs::exists(copies / "copy.12345678.part"));
    CHECK(fs::exists(copies / "copy.87654321.part"));
    CHECK(fs::exists(copies / "letter.txt"));
    CHECK(keptCopies(copies).size() == 1);
}

TEST_CASE("books of one name in two folders keep their copies apart") {
    const Folder folder;
    fs::create_directories(folder / "a");
    fs::create_directories(folder / "b");
    const auto one = smallBook(folder, "a/plot.midden");
    const auto other = smallBook(folder, "b/plot.midden");
    CHECK(copyFolderName(one) != copyFolderName(other));
    CHECK(copyFolderName(one) == copyFolderName(folder / "b/../a/plot.midden"));
    CHECK(copyFolderName(one).starts_with("plot-"));
    const auto place = folder / "place";
    keepCopy(one, place / copyFolderName(one), noon);
    keepCopy(other, place / copyFolderName(other), noon);
    const auto books = copiedBooks(place);
    REQUIRE(books.size() == 2);
    CHECK(books[0].book == one);
    CHECK(books[1].book == other);
    CHECK(keptCopies(books[0].folder).size() == 1);
}

TEST_CASE("any name of a book names a folder of copies") {
    const Folder folder;
    for (const std::string name :
         {"a 'b' \"c\"\n\xf0\x9f\x8d\x82.midden", ".midden", "dots...", "\xc3\xa9t\xc3\xa9.midden"}) {
        const auto file = smallBook(folder, name);
        const auto copies = folder / "copies" / copyFolderName(file);
        CHECK(keepCopy(file, copies, noon));
        CHECK(copies.filename().u8string().find(u8'\n') == std::u8string::npos);
    }
    CHECK(copyFolderName(folder / (std::string(200, 'x') + ".midden")).size() == 40 + 1 + 16);
    CHECK(copiedBooks(folder / "copies").size() == 4);
    CHECK(copiedBooks(folder / "nowhere").empty());
}
