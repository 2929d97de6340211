// SPDX-License-Identifier: GPL-3.0-or-later
#include <algorithm>

#include "core/exchange/csv/cells.h"
#include "core/exchange/csv/csv_writer.h"
#include "core/exchange/export/export_parts.h"
#include "core/exchange/plan/batch_stays.h"

namespace midden {

namespace {

constexpr std::string_view insideHeader = "time,temperature,unit,bin,position,probe,note";
constexpr std::string_view outsideHeader = "time,temperature,unit,bin,probe,note";

std::string_view letterOf(TemperatureUnit unit) {
    return unit == TemperatureUnit::celsius ? "c" : "f";
}

/// Hands each reading to the file it belongs in; a file is made with its first row.
class ReadingFiles {
  public:
    explicit ReadingFiles(ExportPlan& plan) : plan_{plan} {}

    void writeInside(const Place& place) {
        const auto occupancies = batchStaysIn(plan_.logbook.batches(), *place.bin);
        auto occupancy = occupancies.begin();
        plan_.logbook.visitReadings(place, [&](const Reading& reading) {
            while (occupancy != occupancies.end() && occupancy->until <= reading.when.at) {
                ++occupancy;
            }
            const bool owned = occupancy != occupancies.end() && occupancy->from <= reading.when.at;
            if (owned) {
                considerStart(plan_, occupancy->batch, reading.when);
            }
            writeTo(
                owned ? plan_.batchFolder(occupancy->batch) / "readings.csv" : plan_.root / "readings-of-no-batch.csv",
                reading);
        });
    }
    void writeOutside(const Place& place) {
        plan_.logbook.visitReadings(place,
                                    [&](const Reading& reading) { writeTo(plan_.root / "outside.csv", reading); });
    }
    void close() {
        for (auto& [file, writer] : writers_) {
            writer.close();
        }
    }
    std::int64_t rows() const { return rows_; }

  private:
    void writeTo(const std::filesystem::path& file, const Reading& reading) {
        const bool outside = reading.place.isOutside();
        if (last_ == nullptr || file != lastFile_) {
            last_ = &writers_.try_emplace(file, file, outside ? outsideHeader : insideHeader).first->second;
            lastFile_ = file;
        }
        const auto time = isoLocal(reading.when);
        const auto number = writtenNumber(reading.written);
        const auto unit = letterOf(reading.written.unit);
        const auto bin = reading.place.bin ? guardedText(plan_.binNames.at(*reading.place.bin)) : std::string{};
        const auto probe = reading.probe ? guardedText(plan_.probeNames.at(*reading.probe)) : std::string{};
        const auto note = guardedText(reading.note);
        if (outside) {
            last_->row({time, number, unit, bin, probe, note});
        } else {
            last_->row({time, number, unit, bin, guardedText(reading.place.position), probe, note});
        }
        ++rows_;
    }

    ExportPlan& plan_;
    std::map<std::filesystem::path, CsvWriter> writers_;
    CsvWriter* last_ = nullptr;
    std::filesystem::path lastFile_;
    std::int64_t rows_ = 0;
};

}  // namespace

std::int64_t exportReadings(ExportPlan& plan) {
    ReadingFiles files{plan};
    auto places = plan.logbook.placesRead();
    const auto byName = [&](const Place& a, const Place& b) {
        const auto nameOf = [&](const Place& place) {
            return place.bin ? plan.binNames.at(*place.bin) : std::string{};
        };
        return std::pair{nameOf(a), a.position} < std::pair{nameOf(b), b.position};
    };
    std::sort(places.begin(), places.end(), byName);
    for (const auto& place : places) {
        if (place.isOutside()) {
            files.writeOutside(place);
        } else {
            files.writeInside(place);
        }
    }
    files.close();
    return files.rows();
}

}  // namespace midden
