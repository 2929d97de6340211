// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/faults/trial_book.h"

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>
#include <unistd.h>

#include <cstdlib>
#include <fstream>
#include <iterator>
#include <stdexcept>

#include "core/quantities/sha256.h"

namespace midden::faults {

namespace fs = std::filesystem;

Folder::Folder(Where where) {
    const fs::path memory{"/dev/shm"};
    const bool inMemory = where == Where::inMemory && fs::is_directory(memory);
    auto pattern = ((inMemory ? memory : fs::temp_directory_path()) / "middenbook-faults-XXXXXX").string();
    if (::mkdtemp(pattern.data()) == nullptr) {
        throw std::runtime_error{"no folder for the trials in " + pattern};
    }
    path_ = pattern;
}

Folder::~Folder() {
    std::error_code ignored;
    fs::permissions(path_, fs::perms::owner_all, ignored);
    fs::remove_all(path_, ignored);
}

void Folder::clear() const {
    for (const auto& entry : fs::directory_iterator{path_}) {
        fs::remove_all(entry.path());
    }
}

Reading readingAt(BinId bin, std::int64_t minute, std::int32_t tenThousandths, const std::string& note) {
    Reading reading;
    reading.place = {bin, "core"};
    reading.when = {noon + Seconds{60 * minute}, {}};
    reading.written = {tenThousandths, TemperatureUnit::celsius};
    reading.note = note;
    return reading;
}

void makeBook(const fs::path& file) {
    auto book = Logbook::open(file, Logbook::Mode::createIfAbsent);
    Bin bin;
    bin.name = "North";
    const auto binId = std::get<BinId>(book.apply(Put<Bin>{bin}).id);
    Probe probe;
    probe.name = "long dial";
    book.apply(Put<Probe>{probe});
    Batch batch;
    batch.name = "spring";
    batch.started = {noon, {}};
    batch.stays = {{noon, binId}};
    const auto batchId = std::get<BatchId>(book.apply(Put<Batch>{batch}).id);
    book.inOneTransaction([&] {
        for (int reading = 0; reading < 24; ++reading) {
            book.apply(Put<Reading>{readingAt(binId, 60 * reading, 500'000 + 1'000 * reading)});
        }
        Addition addition;
        addition.batch = batchId;
        addition.when = {noon, {}};
        addition.material = "straw";
        addition.massKilograms = 4;
        book.apply(Put<Addition>{addition});
    });
    book.storeCertificate({"2026-1", batchId, noon, sha256("the record"), "the record", ""});
}

std::string entriesOf(const fs::path& file) {
    Logbook::open(file, Logbook::Mode::readOnly);
    SQLite::Database database{file.string(), SQLite::OPEN_READWRITE};
    std::string all;
    for (const char* sql :
         {"SELECT 'bin', name FROM bin ORDER BY 2", "SELECT 'probe', name FROM probe ORDER BY 2",
          "SELECT 'batch', name || ' ' || started || ' ' || ifnull(finished, '') FROM batch ORDER BY 2",
          "SELECT 'stay', since FROM stay ORDER BY since",
          "SELECT 'reading', s.position || ' ' || s.unit || ' ' || s.source || ' ' || r.at || ' ' || r.raw || ' ' || "
          "ifnull(m.note, '') FROM reading r JOIN series s ON s.id = r.series "
          "LEFT JOIN reading_more m ON m.series = r.series AND m.at = r.at ORDER BY 2",
          "SELECT 'addition', at || material || mass_kg FROM addition ORDER BY 2",
          "SELECT 'setting', name || '=' || value FROM setting ORDER BY 2",
          "SELECT 'certificate', number || canonical FROM certificate ORDER BY 2",
          "SELECT 'amendment', kind || ' ' || at || ' ' || who || ' ' || why FROM amendment ORDER BY 2",
          "SELECT 'hand', ifnull(at, '') || who || why FROM hand"}) {
        SQLite::Statement query{database, sql};
        while (query.executeStep()) {
            all += query.getColumn(0).getString() + ' ' + query.getColumn(1).getString() + '\n';
        }
    }
    return all;
}

std::string faultsOf(const fs::path& file) {
    std::string faults;
    for (const auto& fault : Logbook::open(file, Logbook::Mode::readOnly).check(sha256).faults) {
        faults += fault + '\n';
    }
    return faults;
}

std::string bytesOf(const fs::path& file) {
    std::ifstream in{file, std::ios::binary};
    return {std::istreambuf_iterator<char>{in}, {}};
}

void write(const fs::path& file, const std::string& bytes) {
    std::ofstream{file, std::ios::binary} << bytes;
}

void writeReadings(const fs::path& file, std::int64_t minute, int rows) {
    std::ofstream out{file};
    out << "time,temperature\n";
    for (int row = 0; row < rows; ++row) {
        out << isoUtc(noon + Seconds{60 * (minute + row)}) << ',' << 40 + row % 30 << '.' << row % 10 << '\n';
    }
}

void importReadings(Logbook& book, const fs::path& file) {
    ImportRequest request;
    request.batch = "spring";
    request.bin = "North";
    request.files.readings = file;
    auto staged = readFiles(request);
    if (!staged) {
        throw std::runtime_error{staged.error().sentence()};
    }
    if (const auto outcome = storeImport(book, request, std::move(*staged)); !outcome) {
        throw std::runtime_error{outcome.error().sentence()};
    }
}

}  // namespace midden::faults
