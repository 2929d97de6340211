// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/plan/readings_file.h"

#include <fmt/core.h>

#include <array>
#include <limits>
#include <map>
#include <tuple>

#include "core/exchange/csv/cells.h"
#include "core/exchange/csv/csv_table.h"
#include "core/exchange/times/time_column.h"
#include "core/exchange/times/unit_rule.h"

namespace midden {

namespace {

enum Column : std::size_t { time, temperature, bin, unit, probe, note, position, ambient };
constexpr std::array<ColumnSpec, 8> specs{{{"time", true},
                                           {"temperature", true, true},
                                           {"bin"},
                                           {"unit"},
                                           {"probe"},
                                           {"note"},
                                           {"position"},
                                           {"ambient", false, true}}};
constexpr std::span<const ColumnSpec> outsideSpecs{specs.data(), note + 1};

constexpr std::int64_t rowsBetweenProgress = 100'000;

/// Reads one file row by row into the staged places and columns.
class Stager {
  public:
    Stager(CsvTable& table, const ReadingHabits& habits, StagedReadings& staged, bool outside)
        : table_{table}, times_{habits.zone, time}, staged_{staged}, outside_{outside} {}

    std::optional<Refusal> readAll(const ReadingHabits& habits);
    std::optional<std::string> remark() const;

  private:
    struct Where {
        std::string_view bin;
        std::string_view position;
    };

    std::optional<Refusal> readRow(const UnitRule& rule, std::optional<TemperatureUnit> ambientHeader);
    std::optional<Refusal> stageAmbient(const Moment& when, TemperatureUnit unit);
    std::size_t placeOf(const Where& where, bool outside);
    std::size_t addPlace(const Where& where, bool outside);
    std::uint32_t columnOf(const StagedColumn& column);
    std::uint32_t columnOf(TemperatureUnit unit, UtcOffset offset);
    void stage(std::size_t place, const Moment& when, const WrittenTemperature& written);

    CsvTable& table_;
    TimeColumn times_;
    StagedReadings& staged_;
    bool outside_;
    std::map<std::tuple<std::string, std::string, bool>, std::size_t> places_;
    std::map<StagedColumn, std::uint32_t> columns_;
    std::vector<std::optional<Instant>> lastOfPlace_;

    // Rows mostly come in the same order of places again and again: the one after the last is tried first.
    struct Visited {
        std::string bin;
        std::string position;
        bool outside = false;
        std::size_t place = 0;

        bool is(const Where& where, bool isOutside) const {
            return outside == isOutside && bin == where.bin && position == where.position;
        }
    };
    std::vector<Visited> visited_;
    std::size_t expected_ = 0;
    std::optional<std::uint32_t> lastColumn_;
};

std::optional<Refusal> Stager::readAll(const ReadingHabits& habits) {
    const auto rule = UnitRule::of(table_, temperature, habits.unit);
    if (!rule) {
        return rule.error();
    }
    const auto ambientHeader = outside_ ? std::nullopt : table_.unitOf(ambient);
    for (std::int64_t rows = 1;; ++rows) {
        const auto more = table_.next();
        if (!more) {
            return more.error();
        }
        if (!*more) {
            return std::nullopt;
        }
        if (auto refusal = readRow(*rule, ambientHeader)) {
            return refusal;
        }
        if (habits.progress && rows % rowsBetweenProgress == 0 &&
            !habits.progress({ImportProgress::Stage::reading, rows, table_.share()})) {
            return stoppedImport();
        }
    }
}

std::optional<Refusal> Stager::readRow(const UnitRule& rule, std::optional<TemperatureUnit> ambientHeader) {
    if (table_.line() > std::numeric_limits<std::uint32_t>::max() ||
        staged_.columns.size() >= StagedReading::mostColumns) {
        return table_.refuse({"the file has too many lines or thermometers", "a smaller file"}).value();
    }
    const auto rowUnit = rule.forRow(table_.text(unit));
    if (!rowUnit) {
        return table_.refuse(rowUnit.error()).value();
    }
    const auto place = placeOf({table_.text(bin), outside_ ? "" : table_.text(position)}, outside_);
    auto& last = lastOfPlace_[place];
    const auto when = times_.read(table_, last);
    if (!when) {
        return when.error();
    }
    last = when->at;
    const auto written = UnitRule::read(table_.text(temperature), *rowUnit);
    if (!written) {
        return table_.refuse(written.error()).value();
    }
    stage(place, *when, *written);
    if (const auto text = table_.text(note); !text.empty()) {
        staged_.places[place].notes.push_back({when->at, std::string{unguardedText(text)}});
    }
    return outside_ ? std::nullopt : stageAmbient(*when, ambientHeader.value_or(*rowUnit));
}

std::optional<Refusal> Stager::stageAmbient(const Moment& when, TemperatureUnit ambientUnit) {
    const auto cell = table_.text(ambient);
    if (cell.empty()) {
        return std::nullopt;
    }
    const auto written = UnitRule::read(cell, ambientUnit);
    if (!written) {
        return table_.refuse({"ambient: " + written.error().wrong, written.error().expected}).value();
    }
    const auto column = columnOf({written->unit, when.offset, {}, table_.file()});
    staged_.rows.add(placeOf({table_.text(bin), {}}, true),
                     {when.at, column, written->tenThousandths, static_cast<std::uint32_t>(table_.line())});
    return std::nullopt;
}

std::size_t Stager::placeOf(const Where& where, bool outside) {
    if (expected_ < visited_.size() && visited_[expected_].is(where, outside)) {
        const auto place = visited_[expected_].place;
        expected_ = expected_ + 1 == visited_.size() ? 0 : expected_ + 1;
        return place;
    }
    Visited key{std::string{where.bin}, std::string{where.position}, outside};
    const auto [found, isNew] = places_.try_emplace({key.bin, key.position, outside}, visited_.size());
    if (isNew) {
        key.place = addPlace(where, outside);
        visited_.push_back(std::move(key));
    }
    expected_ = (found->second + 1) % visited_.size();
    return visited_[found->second].place;
}

std::size_t Stager::addPlace(const Where& where, bool outside) {
    const auto binName = unguardedText(withoutBlanks(where.bin));
    const auto unnamed = outside_ ? StagedWhere::Bin::wholeSite : StagedWhere::Bin::ofTheBatch;
    const auto named = unguardedText(withoutBlanks(where.position));
    staged_.places.push_back({{binName.empty() ? unnamed : StagedWhere::Bin::named, std::string{binName},
                               outside ? "" : std::string{named.empty() ? "core" : named}}});
    lastOfPlace_.resize(staged_.places.size());  // another file may have named some before
    return staged_.rows.addList();
}

std::uint32_t Stager::columnOf(const StagedColumn& column) {
    const auto [found, isNew] = columns_.try_emplace(column, static_cast<std::uint32_t>(staged_.columns.size()));
    if (isNew) {
        staged_.columns.push_back(column);
    }
    return found->second;
}

std::uint32_t Stager::columnOf(TemperatureUnit rowUnit, UtcOffset offset) {
    const auto probeName = unguardedText(withoutBlanks(table_.text(probe)));
    if (lastColumn_) {
        const auto& last = staged_.columns[*lastColumn_];
        if (last.unit == rowUnit && last.offset == offset && last.probe == probeName) {
            return *lastColumn_;
        }
    }
    lastColumn_ = columnOf({rowUnit, offset, std::string{probeName}, table_.file()});
    return *lastColumn_;
}

void Stager::stage(std::size_t place, const Moment& when, const WrittenTemperature& written) {
    staged_.rows.add(place, {when.at, columnOf(written.unit, when.offset), written.tenThousandths,
                             static_cast<std::uint32_t>(table_.line())});
}

std::optional<std::string> Stager::remark() const {
    const auto count = times_.twiceCome();
    if (count == 0) {
        return std::nullopt;
    }
    return fmt::format(
        "{}:{}: {} when the clocks went back; taken in the order of the rows. A time with its offset, such as "
        "2026-10-25T01:30:00+01:00, leaves no doubt.",
        table_.file(), times_.firstTwiceCome(),
        count == 1 ? "this time came twice" : fmt::format("this is the first of {} times that came twice", count));
}

std::optional<Refusal> readInto(const std::filesystem::path& file, const ReadingHabits& habits, bool outside,
                                StagedReadings& staged, std::vector<std::string>& remarks) {
    const auto columns = outside ? outsideSpecs : std::span<const ColumnSpec>{specs};
    auto table = CsvTable::open(file, columns, habits.room.scratchFolder);
    if (!table) {
        return std::move(table.error());
    }
    Stager stager{*table, habits, staged, outside};
    auto refusal = stager.readAll(habits);
    if (auto remark = stager.remark(); remark && !refusal) {
        remarks.push_back(std::move(*remark));
    }
    return refusal;
}

}  // namespace

std::optional<Refusal> readReadings(const std::filesystem::path& file, const ReadingHabits& habits,
                                    StagedReadings& staged, std::vector<std::string>& remarks) {
    return readInto(file, habits, false, staged, remarks);
}

std::optional<Refusal> readOutside(const std::filesystem::path& file, const ReadingHabits& habits,
                                   StagedReadings& staged, std::vector<std::string>& remarks) {
    return readInto(file, habits, true, staged, remarks);
}

}  // namespace midden
