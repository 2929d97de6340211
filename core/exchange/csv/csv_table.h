// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "core/exchange/csv/csv_reader.h"
#include "core/exchange/csv/scratch_file.h"
#include "core/exchange/csv/text_source.h"
#include "core/quantities/temperature.h"

namespace midden {

/// A column a table may have.
struct ColumnSpec {
    std::string_view name;
    bool required = false;
    bool temperature = false;  ///< its header may carry the unit: "temperature_f", "temperature (°F)"
};

/// A CSV file with a header row of known columns; columns are asked for by their place in the specs.
class CsvTable {
  public:
    /// Reads the header. Refused: an empty file, an unknown, repeated or missing column.
    static FileResult<CsvTable> open(const std::filesystem::path& file, std::span<const ColumnSpec> specs,
                                     const std::filesystem::path& scratchFolder = usualScratchFolder);
    /// The same for a text that lives as long as the table.
    static FileResult<CsvTable> ofText(std::string file, std::string_view text, std::span<const ColumnSpec> specs,
                                       CsvSlices slices = {});

    /// Moves to the next row; false at the end. Refused: a row of another length than the header, a file without rows,
    /// a file that another program changed while it was read.
    FileResult<bool> next();

    bool has(std::size_t column) const { return places_[column].has_value(); }
    /// Empty when the file has no such column.
    std::string_view text(std::size_t column) const {
        return places_[column] ? row_.cells[*places_[column]].text : std::string_view{};
    }
    /// The unit the header gives the column, if it does.
    std::optional<TemperatureUnit> unitOf(std::size_t column) const { return units_[column]; }
    std::uint64_t line() const { return row_.line; }
    /// How much of the text lies behind, 0 to 1; 0 for a pipe, whose length nobody knows.
    double share() const {
        const auto size = source_->size();
        return size > 0 ? static_cast<double>(reader_.place().offset) / static_cast<double>(size) : 0;
    }
    const std::string& file() const { return file_; }

    /// Every text of one column from the first row on, as far as the rows can be read.
    template <class Visit>
    void visitColumn(std::size_t column, Visit visit) const {
        CsvTable again{*this, FromFirstRow{}};
        for (auto row = again.next(); row && *row; row = again.next()) {
            visit(again.text(column), again.line());
        }
    }

    tl::unexpected<Refusal> refuse(Problem problem) const { return refuseAt(line(), std::move(problem)); }
    tl::unexpected<Refusal> refuseAt(std::uint64_t line, Problem problem) const {
        return tl::unexpected{Refusal{file_, line, std::move(problem)}};
    }

  private:
    struct FromFirstRow {};
    /// What is known of a text before its first row is read.
    struct Opened {
        std::string file;
        std::shared_ptr<TextSource> source;
        CsvSlices slices;
        std::string head;
    };
    CsvTable(Opened opened, std::span<const ColumnSpec> specs);
    CsvTable(const CsvTable& other, FromFirstRow);
    static FileResult<CsvTable> of(Opened opened, std::span<const ColumnSpec> specs);
    std::optional<Refusal> readHeader();
    std::optional<Problem> assign(std::size_t place, std::string_view header);
    std::optional<Problem> missing() const;
    Problem wrongLength() const;

    std::string file_;
    std::span<const ColumnSpec> specs_;
    std::shared_ptr<TextSource> source_;
    CsvSlices slices_;
    char separator_;
    CsvReader reader_;
    CsvPlace firstRow_;  ///< behind the header
    CsvRow row_;
    std::size_t width_ = 0;
    bool anyRow_ = false;
    std::vector<std::optional<std::size_t>> places_;
    std::vector<std::optional<TemperatureUnit>> units_;
};

}  // namespace midden
