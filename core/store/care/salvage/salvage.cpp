// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/care/salvage/salvage.h"

#include <sqlite3.h>

#include <algorithm>
#include <array>
#include <fstream>
#include <map>
#include <system_error>

#include "core/files/destination.h"
#include "core/store/care/salvage/found_rows.h"
#include "core/store/care/salvage/trees.h"
#include "core/store/files/book_copy.h"
#include "core/store/schema/amendment_json.h"
#include "core/store/schema/schema.h"

namespace midden {

namespace fs = std::filesystem;
using Kind = LogbookError::Kind;

namespace {

struct KindName {
    const char* table;
    const char* one;
    const char* many;
};

constexpr std::array kinds{
    KindName{"reading", "reading", "readings"},
    KindName{"addition", "addition", "additions"},
    KindName{"aeration", "turning or other airing", "turnings and other airings"},
    KindName{"observation", "observation", "observations"},
    KindName{"harvest", "harvest", "harvests"},
    KindName{"thermometer_check", "thermometer check", "thermometer checks"},
    KindName{"certificate", "certificate", "certificates"},
    KindName{"amendment", "amendment", "amendments"},
    KindName{"batch", "batch", "batches"},
    KindName{"bin", "bin", "bins"},
    KindName{"probe", "thermometer", "thermometers"},
    KindName{"move", "move of a batch to another bin", "moves of batches to other bins"},
    KindName{"series", "place and way of reading", "places and ways of reading"},
    KindName{"reading_more", "note or time of entry of a reading", "notes and times of entry of readings"},
    KindName{"place_setting", "position of a bin", "positions of bins"},
    KindName{"setting", "setting", "settings"},
};

std::string bytesOf(const fs::path& file) {
    std::ifstream in{file, std::ios::binary};
    std::string bytes{std::istreambuf_iterator<char>{in}, {}};
    if (!in && !in.eof()) {
        throw LogbookError{Kind::failed, fileName(file) + " could not be read; is its disk still there?"};
    }
    return bytes;
}

/// The file as it stands; after a crash in the middle of a change, as it stood before that change. That is tried on a
/// copy: the damaged file is never written to.
std::string bytesBefore(const fs::path& damaged, const fs::path& beside) {
    fs::path journal = damaged;
    journal += "-journal";
    std::error_code none;
    if (fs::file_size(journal, none) == 0 || none) {
        return bytesOf(damaged);
    }
    const Workplace workplace{beside};
    const fs::path& trial = workplace.making();
    fs::copy_file(damaged, trial);
    fs::copy_file(journal, fs::path{trial} += "-journal");
    try {
        DatabaseFile{trial, SQLITE_OPEN_READWRITE}.number("SELECT count(*) FROM sqlite_schema");
    } catch (const LogbookError&) {  // damaged as it is, it need not make sense afterwards
    }
    return bytesOf(trial);
}

std::int64_t countOf(DatabaseFile& book, const std::string& table) {
    const std::string sql = "SELECT count(*) FROM " + table;
    std::int64_t count = 0;
    const auto take = [](void* into, int, char** values, char**) {
        *static_cast<std::int64_t*>(into) = std::stoll(values[0]);
        return 0;
    };
    sqlite3_exec(book.handle(), sql.c_str(), take, &count, nullptr);
    return count;
}

SalvagedKind kindOf(DatabaseFile& book, const KindName& name, const salvage::TreeFind& find) {
    SalvagedKind kind{name.one, name.many};
    kind.kept = countOf(book, name.table);
    const auto found = countOf(book, std::string{"temp.found_"} + name.table);
    kind.lost = find.unreadableRows + std::max<std::int64_t>(0, found - kind.kept);
    kind.lostPages = find.unreadablePages;
    kind.aPage = find.leaves > 0 ? find.rows / find.leaves : 0;
    return kind;
}

std::vector<std::string> standInsOf(DatabaseFile& book) {
    std::vector<std::string> names;
    Query query{book,
                "SELECT name FROM bin WHERE name LIKE 'Salvaged %' UNION SELECT name FROM probe WHERE name LIKE "
                "'Salvaged %' UNION SELECT name FROM batch WHERE name LIKE 'Salvaged %'"};
    while (query.next()) {
        names.push_back(query.text(0));
    }
    return names;
}

template <class T>
std::optional<T> maybe(const salvage::Row& row, std::size_t column) {
    const auto* value = std::get_if<T>(&row.values.at(column));
    return value == nullptr ? std::nullopt : std::optional{*value};
}

/// An amendment with a byte gone wrong tells nobody anything, and no book with it could be merged.
bool isReadable(const salvage::Row& amendment) {
    const auto kind = maybe<std::int64_t>(amendment, 2).value_or(-1);
    return kind >= 0 && kind <= static_cast<std::int64_t>(lastEntryKind) &&
           isSound({static_cast<EntryKind>(kind), maybe<std::string>(amendment, 3).value_or(""),
                    maybe<std::int64_t>(amendment, 9).value_or(0), maybe<std::int64_t>(amendment, 12),
                    maybe<std::string>(amendment, 7), maybe<std::string>(amendment, 8)});
}

/// Certificates whose record no longer has the digest they were issued with are no longer those that were issued.
bool isGenuine(const salvage::TreeShape& shape, const salvage::Row& row, const Digester& digester) {
    if (shape.name == "amendment") {
        return isReadable(row);
    }
    return shape.name != "certificate" || !digester ||
           digester(std::get<std::string>(row.values.at(6))) == std::get<std::string>(row.values.at(4));
}

SalvageReport fill(DatabaseFile& book, const salvage::Pages& pages, const Digester& digester) {
    const auto shapes = salvage::shapesOf(book);
    salvage::FoundRows found{book, shapes};
    std::map<std::string, std::int64_t> spoilt;
    Transaction transaction{book};
    const auto finds = salvage::findRows(pages, shapes, [&](const salvage::TreeShape& shape, salvage::Row&& row) {
        if (isGenuine(shape, row, digester)) {
            found.add(shape, row);
        } else {
            ++spoilt[shape.name];
        }
    });
    salvage::compose(book);
    transaction.commit();
    SalvageReport report;
    for (const KindName& name : kinds) {
        const auto shape =
            std::find_if(shapes.begin(), shapes.end(), [&](const auto& s) { return s.name == name.table; });
        if (shape == shapes.end()) {
            continue;  // it came with a later format
        }
        report.kinds.push_back(kindOf(book, name, finds.at(static_cast<std::size_t>(shape - shapes.begin()))));
        report.kinds.back().lost += spoilt[name.table];
    }
    report.standIns = standInsOf(book);
    return report;
}

std::int64_t keptOf(const SalvageReport& report) {
    std::int64_t kept = 0;
    for (const auto& kind : report.kinds) {
        kept += kind.kept;
    }
    return kept;
}

/// Where SQLite keeps the format: "Database File Format", section 1.3, the user version.
std::size_t formatToldBy(const salvage::Pages& pages) {
    constexpr std::size_t userVersion = 60;
    constexpr std::size_t applicationMark = 68;
    const auto head = pages.page(1);
    const bool isOurs = head.size() > 100 && salvage::bigEndian(head, applicationMark, 4) == applicationId;
    return isOurs ? salvage::bigEndian(head, userVersion, 4) : 0;
}

/// The formats it may have: the one in whose words the file lists its tables, else the one its head tells, else all.
std::vector<std::size_t> formatsOf(const salvage::Pages& pages) {
    std::vector<std::size_t> all;
    std::size_t likeliest = 0;
    std::size_t mostNamed = 0;
    for (std::size_t format = newestFormat; format > 0; --format) {
        all.push_back(format);
        DatabaseFile empty{":memory:", SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE};
        setUpConnection(empty);
        migrate(empty, Migrations{migrations}.first(format));
        const auto named = salvage::treesNamed(pages, salvage::shapesOf(empty));
        likeliest = named > mostNamed ? format : likeliest;
        mostNamed = std::max(named, mostNamed);
    }
    if (likeliest > 0) {
        return {likeliest};
    }
    const auto told = formatToldBy(pages);
    return told > 0 && told <= newestFormat ? std::vector{told} : all;
}

/// What comes back of it when it is read as one of that format, in a book of the newest.
SalvageReport fillAs(std::size_t format, const fs::path& fresh, const salvage::Pages& pages, const Digester& digester) {
    DatabaseFile book{fresh, SQLITE_OPEN_READWRITE | SQLITE_OPEN_CREATE};
    setUpConnection(book);
    book.run("PRAGMA foreign_keys = OFF");
    migrate(book, Migrations{migrations}.first(format));
    auto report = fill(book, pages, digester);
    migrate(book);
    return report;
}

void expectSomething(const fs::path& damaged, const SalvageReport& report) {
    const bool anything =
        std::any_of(report.kinds.begin(), report.kinds.end(), [](const auto& k) { return k.kept > 0; });
    if (!anything) {
        throw LogbookError{Kind::damaged, "nothing of a logbook can be read in " + fileName(damaged)};
    }
}

void expectFree(bool isFree, const fs::path& fresh) {
    if (!isFree) {
        throw LogbookError{Kind::refused, fileName(fresh) + " is already there; salvaging never writes over a file"};
    }
}

}  // namespace

SalvageReport salvageBook(const fs::path& damaged, const fs::path& fresh, const Digester& digester) {
    expectFree(!asLogbookError([&] { return fileStatus(fresh).has_value(); }), fresh);
    if (!fs::is_regular_file(damaged)) {
        throw LogbookError{Kind::absent, "there is no logbook " + fileName(damaged)};
    }
    auto passing = std::make_unique<TemporaryBook>(fresh);
    const salvage::Pages pages{bytesBefore(damaged, passing->path())};
    std::optional<SalvageReport> best;
    for (const auto format : formatsOf(pages)) {
        auto attempt = best ? std::make_unique<TemporaryBook>(fresh) : std::move(passing);
        auto report = fillAs(format, attempt->path(), pages, digester);
        if (!best || keptOf(report) > keptOf(*best)) {
            passing = std::move(attempt);
            best = std::move(report);
        }
    }
    auto& report = *best;
    expectSomething(damaged, report);
    report.faults = Logbook::open(passing->path(), Logbook::Mode::readOnly).check(digester).faults;
    asLogbookError([&] { giveRights(passing->path(), rightsOf(damaged)); });
    expectFree(passing->takeName(fresh), fresh);
    return report;
}

}  // namespace midden
