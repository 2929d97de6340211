// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <utility>

#include "core/exchange/csv/cells.h"
#include "core/exchange/csv/csv_table.h"
#include "core/exchange/plan/entry_files.h"
#include "core/exchange/times/time_column.h"

namespace midden {

/// Takes the fields of one row one after the other and remembers the first that was refused.
class RowReader {
  public:
    explicit RowReader(const CsvTable& table, std::span<const ColumnSpec> specs) : table_{table}, specs_{specs} {}

    void time(TimeColumn& times, std::optional<Instant>& previous, Moment& into) {
        auto when = times.read(table_, previous);
        if (when) {
            into = *when;
            previous = when->at;
        } else if (!refusal_) {
            refusal_ = std::move(when.error());
        }
    }
    template <class Value, class Read>
    void take(std::size_t column, Value& into, Read read) {
        auto value = read(table_.text(column));
        if (value) {
            into = *value;
        } else if (!refusal_) {
            refusal_ =
                table_.refuse({std::string{specs_[column].name} + ": " + value.error().wrong, value.error().expected})
                    .value();
        }
    }
    void number(std::size_t column, std::optional<double>& into, const NumberRange& range) {
        take(column, into, [&](std::string_view cell) { return parseOptional(cell, range); });
    }
    /// A text that must be there.
    void name(std::size_t column, std::string& into, std::string_view expected) {
        take(column, into, [&](std::string_view cell) -> Result<std::string> {
            const auto text = unguardedText(withoutBlanks(cell));
            return text.empty() ? Result<std::string>{refused("nothing is written there", std::string{expected})}
                                : std::string{text};
        });
    }
    std::string text(std::size_t column) const { return std::string{unguardedText(table_.text(column))}; }
    void refuse(Problem problem) {
        if (!refusal_) {
            refusal_ = table_.refuse(std::move(problem)).value();
        }
    }
    std::optional<Refusal>& refusal() { return refusal_; }

  private:
    const CsvTable& table_;
    std::span<const ColumnSpec> specs_;
    std::optional<Refusal> refusal_;
};

/// Every row of a file through `readRow(RowReader&, Row&)`.
template <class Row, class ReadRow>
FileResult<std::vector<Lined<Row>>> readRows(CsvTable& table, std::span<const ColumnSpec> specs, ReadRow readRow) {
    std::vector<Lined<Row>> rows;
    for (;;) {
        auto more = table.next();
        if (!more) {
            return tl::unexpected{std::move(more.error())};
        }
        if (!*more) {
            return rows;
        }
        RowReader reader{table, specs};
        Lined<Row> lined{{}, table.line()};
        readRow(reader, lined.row);
        if (reader.refusal()) {
            return tl::unexpected{std::move(*reader.refusal())};
        }
        rows.push_back(std::move(lined));
    }
}

}  // namespace midden
