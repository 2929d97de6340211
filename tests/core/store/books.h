// SPDX-License-Identifier: GPL-3.0-or-later
// Small books to try things on.
#pragma once

#include <SQLiteCpp/Database.h>
#include <SQLiteCpp/Statement.h>
#include <unistd.h>

#include <catch2/catch.hpp>
#include <filesystem>
#include <string>

#include "core/store/logbook.h"

namespace midden::trial {

/// A folder of its own, gone afterwards.
class Folder {
  public:
    Folder() {
        static int count = 0;
        // In memory where there is such a folder: hundreds of books are written, each safely to its disk.
        const std::filesystem::path memory{"/dev/shm"};
        path_ = (std::filesystem::is_directory(memory) ? memory : std::filesystem::temp_directory_path()) /
                ("middenbook-" + std::to_string(::getpid()) + "-" + std::to_string(++count));
        std::filesystem::create_directories(path_);
    }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    ~Folder() {
        std::error_code ignored;
        std::filesystem::permissions(path_, std::filesystem::perms::owner_all, ignored);
        std::filesystem::remove_all(path_, ignored);
    }
    std::filesystem::path operator/(const std::string& name) const { return path_ / name; }
    const std::filesystem::path& path() const { return path_; }

  private:
    std::filesystem::path path_;
};

/// Noon of 1 March 2026 UTC, the start of every trial.
constexpr Instant noon{1'772'366'400};

inline Moment at(double hoursLater) {
    return {noon + Seconds{static_cast<std::int64_t>(hoursLater * 3'600)}, {}};
}

inline WrittenTemperature degrees(double celsius) {
    return {static_cast<std::int32_t>(celsius * 10'000), TemperatureUnit::celsius};
}

inline BinId putBin(Logbook& book, const std::string& name) {
    Bin bin;
    bin.name = name;
    return std::get<BinId>(book.apply(Put<Bin>{bin}).id);
}

inline ProbeId putProbe(Logbook& book, const std::string& name, std::optional<Kelvins> accuracy = {}) {
    Probe probe;
    probe.name = name;
    probe.accuracy = accuracy;
    return std::get<ProbeId>(book.apply(Put<Probe>{probe}).id);
}

inline Batch batchIn(BinId bin, const std::string& name, double startHours) {
    Batch batch;
    batch.name = name;
    batch.started = at(startHours);
    batch.stays = {{batch.started.at, bin}};
    return batch;
}

inline BatchId putBatch(Logbook& book, BinId bin, const std::string& name, double startHours) {
    return std::get<BatchId>(book.apply(Put<Batch>{batchIn(bin, name, startHours)}).id);
}

inline Reading readingOf(Place place, double hours, double celsius) {
    Reading reading;
    reading.place = std::move(place);
    reading.when = at(hours);
    reading.written = degrees(celsius);
    return reading;
}

inline ReadingId putReading(Logbook& book, BinId bin, const std::string& position, double hours, double celsius) {
    return std::get<ReadingId>(book.apply(Put<Reading>{readingOf({bin, position}, hours, celsius)}).id);
}

inline Addition additionTo(BatchId batch, double hours, const std::string& material, double kilograms) {
    Addition addition;
    addition.batch = batch;
    addition.when = at(hours);
    addition.material = material;
    addition.massKilograms = kilograms;
    return addition;
}

inline Batch shown(const Logbook& book, BatchId id) {
    for (const Batch& batch : book.batches()) {
        if (batch.id == id) {
            return batch;
        }
    }
    throw std::out_of_range{"no such batch"};
}

/// The first column of the first row, by plain SQLite.
inline std::string plainly(const std::filesystem::path& file, const std::string& sql) {
    SQLite::Database database{file.string(), SQLite::OPEN_READWRITE};
    SQLite::Statement query{database, sql};
    return query.executeStep() ? query.getColumn(0).getString() : std::string{};
}

inline void execute(const std::filesystem::path& file, const std::string& sql) {
    SQLite::Database database{file.string(), SQLite::OPEN_READWRITE};
    database.exec(sql);
}

/// A refusal's kind; nothing when `work` went through.
template <class Work>
std::optional<LogbookError::Kind> refusalOf(Work work) {
    try {
        work();
    } catch (const LogbookError& error) {
        return error.kind;
    }
    return std::nullopt;
}

}  // namespace midden::trial

namespace Catch {
template <>
struct StringMaker<midden::LogbookError::Kind> {
    static std::string convert(midden::LogbookError::Kind kind) { return "kind " + std::to_string(int(kind)); }
};
}  // namespace Catch
