// SPDX-License-Identifier: GPL-3.0-or-later
#include <catch2/catch.hpp>
#include <fstream>
#include <map>
#include <random>
#include <set>

#include "core/quantities/sha256.h"
#include "core/store/care/salvage/salvage.h"
#include "tests/core/store/books.h"
#include "tests/support/surroundings.h"

using namespace midden;
using namespace midden::trial;
using Kind = LogbookError::Kind;
using Mode = Logbook::Mode;
namespace fs = std::filesystem;

namespace {

constexpr std::size_t pageSize = 8'192;

std::string bytesOf(const fs::path& file) {
    std::ifstream in{file, std::ios::binary};
    return {std::istreambuf_iterator<char>{in}, {}};
}

void write(const fs::path& file, const std::string& bytes) {
    std::ofstream{file, std::ios::binary} << bytes;
}

void addYear(Logbook& book, BinId bin, BatchId batch, const std::string& position) {
    std::vector<RawReading> readings;
    for (int i = 0; i < 2'000; ++i) {
        readings.push_back({at(4.0 * i).at, 150'000 + (i * 7'919) % 500'000});
    }
    book.addReadings({{bin, position}, {}, TemperatureUnit::celsius, {}, Source::imported, "Ada"}, readings);
    for (int i = 0; i < 40; ++i) {
        Reading noted = readingOf({bin, position}, 4.0 * i + 1, 50 + i % 20);
        noted.note = "seen at the lid, number " + std::to_string(i);
        const auto put = std::get<ReadingId>(book.apply(Put<Reading>{noted}).id);
        if (i % 3 == 0) {
            noted.written = degrees(40 + i);
            book.apply(Amend<Reading>{put, noted, "misread"});
        }
        book.apply(Put<Addition>{additionTo(batch, 4.0 * i, "kitchen scraps", 1.5 + i)});
        Aeration aeration;
        aeration.batch = batch;
        aeration.when = at(4.0 * i);
        aeration.note = "turned over";
        aeration.depthCentimetres = i % 3 == 0 ? std::optional{10.0 + i} : std::nullopt;
        book.apply(Put<Aeration>{aeration});
        Observation seen;
        seen.batch = batch;
        seen.when = at(4.0 * i);
        seen.value = "moist";
        book.apply(Put<Observation>{seen});
        Harvest harvest;
        harvest.batch = batch;
        harvest.when = at(4.0 * i + 2);
        harvest.volumeLitres = 0.5 + i;
        harvest.massKilograms = i % 2 == 0 ? std::nullopt : std::optional{0.3 * i};
        harvest.note = "from the hatch, bucket " + std::to_string(i);
        book.apply(Put<Harvest>{harvest});
    }
}

/// Years of several bins: every table has rows, the large ones have several levels of pages.
fs::path grownBook(const Folder& folder) {
    auto book = Logbook::open(folder / "grown.midden", Mode::createIfAbsent);
    book.setHand("Ada", [] { return noon; });
    book.inOneTransaction([&] {
        for (const std::string name : {"North", "Shed", "Hedge"}) {
            const auto bin = std::get<BinId>(book.apply(Put<Bin>{{.name = name, .heightCentimetres = 90}}).id);
            const auto probe = putProbe(book, "probe of " + name);
            book.apply(Put<PlaceSetting>{{.place = {bin, "core"}, .heightCentimetres = 45.5}});
            Batch fed = batchIn(bin, name + " 1", 0);
            fed.fed = name != "Hedge";
            const auto batch = std::get<BatchId>(book.apply(Put<Batch>{fed}).id);
            addYear(book, bin, batch, "core");
            addYear(book, bin, batch, "side");
            ThermometerCheck check;
            check.probe = probe;
            check.when = at(1);
            check.read = degrees(0.5);
            book.apply(Put<ThermometerCheck>{check});
            const std::string record = "the record of " + name + std::string(20'000, 'r');
            book.storeCertificate({"2026-" + name, batch, at(900).at, sha256(record), record, ""});
            const std::string about = "about " + name;
            book.setSetting({.name = about}, std::string(300, 'x'));
        }
        Batch moved = *book.batchNamed("North 1");
        moved.stays.push_back({at(20'000).at, putBin(book, "Curing")});
        book.apply(Amend<Batch>{moved.id, moved, ""});
        const auto gone = putBin(book, "Gone");
        book.apply(Withdraw<Bin>{gone, "never built"});
    });
    return folder / "grown.midden";
}

using Rows = std::multiset<std::string>;

const std::vector<std::string>& tables() {
    static const std::vector<std::string> names{
        "setting",     "bin",          "probe",          "place_setting", "batch",       "move",    "series",
        "reading",     "reading_more", "addition",       "aeration",      "observation", "harvest", "thermometer_check",
        "certificate", "amendment",    "sqlite_sequence"};
    return names;
}

/// Every row of a table, as text.
Rows rowsOf(const fs::path& file, const std::string& table) {
    SQLite::Database database{file.string(), SQLite::OPEN_READONLY};
    SQLite::Statement query{database, "SELECT * FROM " + table};
    Rows rows;
    while (query.executeStep()) {
        std::string row;
        for (int i = 0; i < query.getColumnCount(); ++i) {
            row += query.getColumn(i).isNull() ? "-|" : query.getColumn(i).getString() + '|';
        }
        rows.insert(row);
    }
    return rows;
}

/// All of a table's rows are there again. Of the numbers given out, "bin|4|", each is as high or higher: what stands in
/// for lost rows takes numbers too.
bool cameBack(const std::string& table, const Rows& before, const Rows& back) {
    if (table != "sqlite_sequence") {
        return std::includes(back.begin(), back.end(), before.begin(), before.end());
    }
    const auto nameOf = [](const std::string& row) { return row.substr(0, row.find('|')); };
    const auto numberOf = [](const std::string& row) { return std::stoll(row.substr(row.find('|') + 1)); };
    return std::all_of(before.begin(), before.end(), [&](const std::string& row) {
        return std::any_of(back.begin(), back.end(), [&](const std::string& other) {
            return nameOf(other) == nameOf(row) && numberOf(other) >= numberOf(row);
        });
    });
}

/// Which table or index each page belongs to.
std::map<std::size_t, std::string> ownersOf(const fs::path& file) {
    SQLite::Database database{file.string(), SQLite::OPEN_READONLY};
    SQLite::Statement query{database, "SELECT pageno, name FROM dbstat"};
    std::map<std::size_t, std::string> owners;
    while (query.executeStep()) {
        owners[static_cast<std::size_t>(query.getColumn(0).getInt64())] = query.getColumn(1).getString();
    }
    return owners;
}

/// Trees of one kind with as many columns: a wrong pointer in one can make rows of another pass for its own.
using Shape = std::pair<bool, std::int64_t>;

std::map<std::string, Shape> shapesOf(const fs::path& file) {
    SQLite::Database database{file.string(), SQLite::OPEN_READONLY};
    SQLite::Statement query{
        database,
        "SELECT name, (SELECT wr FROM pragma_table_list l WHERE l.name = s.name AND l.schema = 'main'), "
        "(SELECT count(*) FROM pragma_table_info(s.name)) FROM sqlite_schema s WHERE type = 'table' UNION ALL "
        "SELECT name, 1, (SELECT count(*) FROM pragma_index_xinfo(s.name)) FROM sqlite_schema s WHERE type = 'index'"};
    std::map<std::string, Shape> shapes;
    while (query.executeStep()) {
        shapes[query.getColumn(0).getString()] = {query.getColumn(1).getInt() != 0, query.getColumn(2).getInt64()};
    }
    return shapes;
}

/// Which tables must come back whole, whatever the rest of the file has become.
class Untouched {
  public:
    explicit Untouched(const fs::path& file) : shapes_{shapesOf(file)} {
        for (const auto& [page, owner] : ownersOf(file)) {
            ++pages_[owner];
        }
    }

    /// Not those with a harmed page, nor those that a harmed tree may take pages from. Without the file's own list of
    /// tables only those that no other tree is like, and that are one page.
    bool mustComeBack(const std::string& table, const std::set<std::string>& touched) const {
        for (const auto& owner : leanedOn(table)) {
            if (touched.contains(owner)) {
                return false;
            }
        }
        const bool isListLost = touched.contains("sqlite_schema");
        for (const auto& [other, shape] : shapes_) {
            if (other != table && shape == shapes_.at(table) && (isListLost || touched.contains(other))) {
                return false;
            }
        }
        return !isListLost || pages_.at(table) == 1;
    }

  private:
    /// Two places of reading that damage made one have one reading an instant, and without it there is no note of it.
    static std::vector<std::string> leanedOn(const std::string& table) {
        if (table == "reading" || table == "reading_more") {
            return {"reading", "reading_more", "series", "series_once"};
        }
        return {table};
    }

    std::map<std::string, Shape> shapes_;
    std::map<std::string, int> pages_;
};

using Chance = std::mt19937;

/// Harms the page with this number, counted from 1, in one of the ways disks and cables do.
void harm(std::string& bytes, std::size_t page, Chance& chance) {
    const std::size_t start = (page - 1) * pageSize;
    const auto any = [&](std::size_t below) { return chance() % below; };
    switch (any(5)) {
        case 0:
            bytes.replace(start, pageSize, pageSize, '\0');
            break;
        case 1:
            std::generate_n(bytes.begin() + static_cast<std::ptrdiff_t>(start), pageSize,
                            [&] { return static_cast<char>(any(256)); });
            break;
        case 2: {
            const std::size_t from = any(pageSize);
            std::fill_n(bytes.begin() + static_cast<std::ptrdiff_t>(start + from), any(pageSize - from) + 1, '\xFF');
            break;
        }
        case 3:
            for (int i = 0; i < 20; ++i) {
                bytes[start + any(pageSize)] ^= static_cast<char>(1U << any(8));
            }
            break;
        default:  // another page's content, as a torn write leaves it
            bytes.replace(start, pageSize, bytes.substr(any(bytes.size() / pageSize) * pageSize, pageSize));
    }
}

struct Damage {
    std::string bytes;
    std::set<std::string> touched;  ///< tables and indexes with a page in it
};

Damage damaged(const std::string& sound, const std::map<std::size_t, std::string>& owners, Chance& chance) {
    Damage damage{sound, {}};
    const std::size_t pages = sound.size() / pageSize;
    const std::size_t count = 1 + chance() % 6;
    for (std::size_t i = 0; i < count; ++i) {
        const std::size_t page =
            chance() % 4 == 0 ? 1 + chance() % std::min<std::size_t>(pages, 40) : 1 + chance() % pages;
        harm(damage.bytes, page, chance);
        damage.touched.insert(owners.count(page) > 0 ? owners.at(page) : "");
    }
    if (chance() % 10 == 0) {
        const std::size_t left = 1 + chance() % pages;
        damage.bytes.resize(left * pageSize - chance() % pageSize);
        for (std::size_t page = left; page <= pages; ++page) {
            damage.touched.insert(owners.count(page) > 0 ? owners.at(page) : "");
        }
    }
    return damage;
}

}  // namespace

TEST_CASE("from a sound book everything comes back as it was") {
    const Folder folder;
    const auto file = grownBook(folder);
    const auto report = salvageBook(file, folder / "fresh.midden", sha256);
    CHECK(report.isWhole());
    CHECK(report.faults.empty());
    CHECK(report.standIns.empty());
    for (const auto& table : tables()) {
        INFO(table);
        CHECK(rowsOf(folder / "fresh.midden", table) == rowsOf(file, table));
    }
    CHECK(inWords(report).at(0) == "12240 readings kept.");
}

TEST_CASE("two hundred damaged books are salvaged and what was not harmed comes back whole", "[random]") {
    const Folder folder;
    const auto file = grownBook(folder);
    const auto sound = bytesOf(file);
    const auto owners = ownersOf(file);
    const Untouched untouched{file};
    std::map<std::string, Rows> rows;
    for (const auto& table : tables()) {
        rows[table] = rowsOf(file, table);
    }
    Chance chance{static_cast<Chance::result_type>(testing::seedOfRun())};
    for (int round = 0; round < 200; ++round) {
        INFO("round " << round);
        const Damage damage = damaged(sound, owners, chance);
        write(folder / "damaged.midden", damage.bytes);
        const auto fresh = folder / "fresh.midden";
        fs::remove(fresh);
        SalvageReport report;
        const auto refusal = refusalOf([&] { report = salvageBook(folder / "damaged.midden", fresh, sha256); });
        REQUIRE(bytesOf(folder / "damaged.midden") == damage.bytes);
        REQUIRE(refusal.value_or(Kind::damaged) == Kind::damaged);
        REQUIRE(fs::exists(fresh) == !refusal);
        REQUIRE(report.faults == std::vector<std::string>{});
        for (const auto& table : tables()) {
            if (untouched.mustComeBack(table, damage.touched)) {
                INFO(table);
                REQUIRE_FALSE(refusal);
                CHECK(cameBack(table, rows[table], rowsOf(fresh, table)));
            }
        }
        if (round % 20 == 0 && !refusal) {
            REQUIRE(Logbook::open(fresh, Mode::readWrite).check(sha256).faults == std::vector<std::string>{});
        }
    }
}

TEST_CASE("a head that tells a wrong size of pages, or room at their ends, is not believed") {
    const Folder folder;
    const auto file = grownBook(folder);
    auto bytes = bytesOf(file);
    SECTION("half the size") {
        bytes[16] = 0x10;
    }
    SECTION("twice the size") {
        bytes[16] = 0x40;
    }
    SECTION("room") {
        bytes[20] = 32;
    }
    write(folder / "damaged.midden", bytes);
    CHECK(salvageBook(folder / "damaged.midden", folder / "fresh.midden", sha256).isWhole());
    for (const auto& table : tables()) {
        INFO(table);
        CHECK(rowsOf(folder / "fresh.midden", table) == rowsOf(file, table));
    }
}

TEST_CASE("a table whose beginning is told wrongly is found where every book has it") {
    const Folder folder;
    const auto file = grownBook(folder);
    std::map<std::string, Rows> before;
    for (const std::string table : {"batch", "addition"}) {
        before[table] = rowsOf(file, table);
    }
    execute(file, "PRAGMA writable_schema = ON; UPDATE sqlite_schema SET rootpage = 99 WHERE name = 'batch'");
    const auto bytes = bytesOf(file);
    salvageBook(file, folder / "fresh.midden", sha256);
    CHECK(bytesOf(file) == bytes);
    for (const std::string table : {"batch", "addition"}) {
        CHECK(rowsOf(folder / "fresh.midden", table) == before[table]);
    }
}

TEST_CASE("entries of a batch whose name another one took by damage come back") {
    const Folder folder;
    const auto file = grownBook(folder);
    // Its number alone is harmed: the indexes still tell the old one, under the same name.
    auto bytes = bytesOf(file);
    const auto key = plainly(file, "SELECT key FROM batch WHERE name = 'Shed 1'");
    const auto number = std::stoll(plainly(file, "SELECT id FROM batch WHERE name = 'Shed 1'"));
    const auto root = std::stoul(plainly(file, "SELECT rootpage FROM sqlite_schema WHERE name = 'batch'"));
    const auto found = bytes.find(key, (root - 1) * pageSize);
    REQUIRE(found < root * pageSize);
    const auto head = bytes.rfind(static_cast<char>(number), found);
    REQUIRE(found - head < 20);
    bytes[head] = 77;
    write(folder / "damaged.midden", bytes);
    const auto report = salvageBook(folder / "damaged.midden", folder / "fresh.midden", sha256);
    CHECK(report.faults.empty());
    for (const std::string table : {"addition", "aeration", "observation", "harvest", "reading", "certificate"}) {
        INFO(table);
        CHECK(rowsOf(folder / "fresh.midden", table) == rowsOf(file, table));
    }
}

namespace {

/// The book with all pages of these tables and indexes wiped, salvaged.
SalvageReport withoutPagesOf(const Folder& folder, const fs::path& file, const std::set<std::string>& names) {
    auto bytes = bytesOf(file);
    for (const auto& [page, owner] : ownersOf(file)) {
        if (names.contains(owner)) {
            bytes.replace((page - 1) * pageSize, pageSize, pageSize, '\0');
        }
    }
    write(folder / "damaged.midden", bytes);
    const auto report = salvageBook(folder / "damaged.midden", folder / "fresh.midden", sha256);
    CHECK(report.faults.empty());
    CHECK(bytesOf(folder / "damaged.midden") == bytes);
    return report;
}

std::vector<std::string> namesIn(const fs::path& file, const std::string& table) {
    std::vector<std::string> names;
    for (const auto& row : rowsOf(file, "(SELECT name FROM " + table + ")")) {
        names.push_back(row);
    }
    return names;
}

}  // namespace

TEST_CASE("without its first page and its list of tables a book comes back whole") {
    const Folder folder;
    const auto file = grownBook(folder);
    SECTION("as the program made it") {
        withoutPagesOf(folder, file, {"sqlite_schema"});
    }
    SECTION("even laid out anew, as far as a tree needs no list to be told from others") {
        execute(file, "VACUUM");
        auto bytes = bytesOf(file);
        bytes.replace(0, pageSize, pageSize, '\0');
        write(folder / "damaged.midden", bytes);
        CHECK(salvageBook(folder / "damaged.midden", folder / "fresh.midden", sha256).faults.empty());
    }
    SECTION("even with pages of another size") {
        constexpr std::size_t small = 4'096;
        execute(file, "PRAGMA page_size = 4096; VACUUM");
        auto bytes = bytesOf(file);
        bytes.replace(0, small, small, '\0');
        write(folder / "damaged.midden", bytes);
        CHECK(salvageBook(folder / "damaged.midden", folder / "fresh.midden", sha256).faults.empty());
    }
    for (const auto& table : tables()) {
        INFO(table);
        CHECK(rowsOf(folder / "fresh.midden", table) == rowsOf(file, table));
    }
}

TEST_CASE("what a table has lost its indexes still tell") {
    const Folder folder;
    const auto file = grownBook(folder);
    const auto report = withoutPagesOf(folder, file, {"bin", "batch", "probe", "series", "move"});
    CHECK_FALSE(report.isWhole());
    CHECK(report.standIns.empty());
    for (const std::string table : {"series", "move", "reading", "reading_more", "addition"}) {
        INFO(table);
        CHECK(rowsOf(folder / "fresh.midden", table) == rowsOf(file, table));
    }
    for (const std::string table : {"bin", "batch", "probe"}) {
        CHECK(namesIn(folder / "fresh.midden", table) == namesIn(file, table));
    }
    const auto book = Logbook::open(folder / "fresh.midden", Mode::readOnly);
    CHECK(book.record(book.batchNamed("North 1")->id).readings == 4'080);
}

TEST_CASE("what nothing tells any more gets a name that says so and keeps its readings") {
    const Folder folder;
    const auto file = grownBook(folder);
    const auto report = withoutPagesOf(
        folder, file,
        {"bin", "sqlite_autoindex_bin_1", "sqlite_autoindex_bin_2", "series", "series_once", "move", "move_to_bin"});
    CHECK(rowsOf(folder / "fresh.midden", "reading") == rowsOf(file, "reading"));
    CHECK(rowsOf(folder / "fresh.midden", "batch") == rowsOf(file, "batch"));
    CHECK(report.standIns.size() == 3 + 1);  // bins of three places, and of the readings
    const auto words = inWords(report);
    CHECK(std::find(words.begin(), words.end(),
                    "“Salvaged readings” stands in for one whose own name could not be read.") != words.end());
}

TEST_CASE("a batch of which only its entries are left stands in a bin of its own") {
    const Folder folder;
    const auto file = grownBook(folder);
    const auto report = withoutPagesOf(
        folder, file, {"batch", "batch_in_bin", "sqlite_autoindex_batch_1", "sqlite_autoindex_batch_2", "move_to_bin"});
    CHECK(report.faults.empty());
    CHECK(rowsOf(folder / "fresh.midden", "addition") == rowsOf(file, "addition"));
    CHECK(rowsOf(folder / "fresh.midden", "move") == rowsOf(file, "move"));
    const auto words = inWords(report);
    CHECK(std::any_of(words.begin(), words.end(), [](const std::string& sentence) {
        return sentence.find("Salvaged bin of batch") != std::string::npos;
    }));
}

TEST_CASE("a lost page in the middle costs no more than itself") {
    const Folder folder;
    const auto file = grownBook(folder);
    auto bytes = bytesOf(file);
    const auto root = std::stoul(plainly(file, "SELECT rootpage FROM sqlite_schema WHERE name = 'reading'"));
    bytes.replace((root - 1) * pageSize, pageSize, pageSize, '\0');
    write(folder / "damaged.midden", bytes);
    const auto report = salvageBook(folder / "damaged.midden", folder / "fresh.midden", sha256);
    const auto kept = rowsOf(folder / "fresh.midden", "reading").size();
    CHECK(kept < 12'240);
    CHECK(kept > 12'240 - 100);  // the rows that stood on the root itself
    CHECK(report.kinds.at(0).lostPages == 1);
    CHECK(inWords(report).at(0).find("1 page of the file with more of them unreadable") != std::string::npos);
}

TEST_CASE("a book cut off in the middle gives up to where it was cut") {
    const Folder folder;
    const auto file = grownBook(folder);
    write(folder / "damaged.midden", bytesOf(file).substr(0, fs::file_size(file) / 2 + 100));
    const auto report = salvageBook(folder / "damaged.midden", folder / "fresh.midden", sha256);
    CHECK(report.faults.empty());
    CHECK_FALSE(report.isWhole());
    CHECK(report.kinds.at(0).kept > 2'000);
}

TEST_CASE("a change that a crash broke off is left out of what is salvaged") {
    const Folder folder;
    const auto file = grownBook(folder);
    {
        SQLite::Database writer{file.string(), SQLite::OPEN_READWRITE};
        writer.exec(
            "PRAGMA cache_size = 1; BEGIN IMMEDIATE; DROP TRIGGER reading_withdrawn; DELETE FROM reading_more;"
            "DELETE FROM reading");
        fs::copy_file(file, folder / "crashed.midden");
        fs::copy_file(file.string() + "-journal", folder / "crashed.midden-journal");
    }
    const auto before = bytesOf(folder / "crashed.midden");
    REQUIRE(before != bytesOf(file));
    const auto report = salvageBook(folder / "crashed.midden", folder / "fresh.midden", sha256);
    CHECK(report.kinds.at(0).kept == 12'240);
    CHECK(bytesOf(folder / "crashed.midden") == before);
    CHECK(fs::exists(folder / "crashed.midden-journal"));
}

TEST_CASE("a certificate whose record was harmed is not passed on as issued") {
    const Folder folder;
    const auto file = grownBook(folder);
    auto bytes = bytesOf(file);
    bytes[bytes.find("the record of Shed") + 15] = 's';
    write(folder / "damaged.midden", bytes);
    const auto report = salvageBook(folder / "damaged.midden", folder / "fresh.midden", sha256);
    CHECK(report.faults.empty());
    const auto certificates = report.kinds.at(6);
    CHECK(certificates.many == "certificates");
    CHECK(certificates.kept == 2);
    CHECK(certificates.lost == 1);
}

TEST_CASE("salvaging refuses what is no logbook and never writes over a file") {
    const Folder folder;
    const auto file = grownBook(folder);
    const auto fresh = folder / "fresh.midden";
    write(folder / "letter.midden", std::string(50'000, 'x'));
    CHECK(refusalOf([&] { salvageBook(folder / "letter.midden", fresh, sha256); }) == Kind::damaged);
    write(folder / "nothing.midden", "");
    CHECK(refusalOf([&] { salvageBook(folder / "nothing.midden", fresh, sha256); }) == Kind::damaged);
    CHECK(refusalOf([&] { salvageBook(folder / "absent.midden", fresh, sha256); }) == Kind::absent);
    CHECK(refusalOf([&] { salvageBook(file, file, sha256); }) == Kind::refused);
    CHECK_FALSE(fs::exists(fresh));
    CHECK(std::distance(fs::directory_iterator{folder.path()}, {}) == 3);
}
