// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/csv_table.h"

#include <fmt/format.h>

#include <algorithm>

namespace midden {

namespace {

std::string lowered(std::string_view text) {
    std::string low{text};
    std::transform(low.begin(), low.end(), low.begin(),
                   [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
    return low;
}

void drop(std::string& text, std::string_view part) {
    if (const auto at = text.find(part); at != std::string::npos) {
        text.erase(at, part.size());
    }
}

/// "_f", " (°F)", "[c]" … behind the name of a temperature column.
std::optional<TemperatureUnit> unitBehind(std::string rest) {
    for (const std::string_view decoration : {"_", "(", ")", "[", "]", "°", "º"}) {
        drop(rest, decoration);
    }
    std::erase(rest, ' ');
    if (rest == "f" || rest == "fahrenheit") {
        return TemperatureUnit::fahrenheit;
    }
    if (rest == "c" || rest == "celsius") {
        return TemperatureUnit::celsius;
    }
    return std::nullopt;
}

std::string knownColumns(std::span<const ColumnSpec> specs) {
    std::string known;
    for (const auto& spec : specs) {
        known += fmt::format("{}{}", known.empty() ? "" : ", ", spec.name);
    }
    return known;
}

bool looksLikeUtf16(std::string_view text) {
    return text.starts_with("\xFF\xFE") || text.starts_with("\xFE\xFF");
}

std::string fields(std::size_t count) {
    return fmt::format("{} {}", count, count == 1 ? "field" : "fields");
}

}  // namespace

CsvTable::CsvTable(std::string file, std::string_view text, std::span<const ColumnSpec> specs)
    : file_{std::move(file)},
      specs_{specs},
      reader_{withoutByteOrderMark(text), separatorOf(withoutByteOrderMark(text))},
      firstRow_{reader_},
      places_(specs.size()),
      units_(specs.size()) {}

CsvTable::CsvTable(const CsvTable& other, FromFirstRow)
    : file_{other.file_},
      specs_{other.specs_},
      reader_{other.firstRow_},
      firstRow_{other.firstRow_},
      width_{other.width_},
      places_{other.places_},
      units_{other.units_} {}

FileResult<CsvTable> CsvTable::open(const std::filesystem::path& file, std::span<const ColumnSpec> specs) {
    auto source = FileText::open(file);
    if (!source) {
        return tl::unexpected{std::move(source.error())};
    }
    const auto kept = std::make_shared<const FileText>(std::move(*source));
    auto table = ofText(file.string(), kept->text(), specs);
    if (table) {
        table->source_ = kept;
    }
    return table;
}

FileResult<CsvTable> CsvTable::ofText(std::string file, std::string_view text, std::span<const ColumnSpec> specs) {
    CsvTable table{std::move(file), text, specs};
    if (looksLikeUtf16(text)) {
        return table.refuseAt(1, {"the text is UTF-16", "a file saved as UTF-8"});
    }
    if (auto refusal = table.readHeader()) {
        return tl::unexpected{std::move(*refusal)};
    }
    return table;
}

std::optional<Refusal> CsvTable::readHeader() {
    auto found = reader_.next(row_);
    if (!found) {
        found.error().file = file_;
        return std::move(found.error());
    }
    if (!*found) {
        return Refusal{file_, 1, {"the file is empty", "a header row with the columns " + knownColumns(specs_)}};
    }
    width_ = row_.cells.size();
    for (std::size_t place = 0; place < width_; ++place) {
        if (auto problem = assign(place, row_.cells[place].text)) {
            return Refusal{file_, row_.line, std::move(*problem)};
        }
    }
    if (auto problem = missing()) {
        return Refusal{file_, row_.line, std::move(*problem)};
    }
    firstRow_ = reader_;
    return std::nullopt;
}

std::optional<Problem> CsvTable::assign(std::size_t place, std::string_view header) {
    const auto low = lowered(header);
    std::optional<TemperatureUnit> unit;
    const auto isMeant = [&](const ColumnSpec& spec) {
        if (low == spec.name) {
            return true;
        }
        unit = spec.temperature && low.starts_with(spec.name) ? unitBehind(low.substr(spec.name.size())) : std::nullopt;
        return unit.has_value();
    };
    const auto spec = std::find_if(specs_.begin(), specs_.end(), isMeant);
    if (spec == specs_.end()) {
        return Problem{header.empty() ? fmt::format("column {} has no name", place + 1)
                                      : fmt::format("there is no use for a column \"{}\"", header),
                       "the columns " + knownColumns(specs_)};
    }
    const auto column = static_cast<std::size_t>(spec - specs_.begin());
    if (places_[column]) {
        return Problem{fmt::format("the column \"{}\" is there twice", spec->name), "each column once"};
    }
    places_[column] = place;
    units_[column] = unit;
    return std::nullopt;
}

std::optional<Problem> CsvTable::missing() const {
    for (std::size_t column = 0; column < specs_.size(); ++column) {
        if (specs_[column].required && !places_[column]) {
            return Problem{fmt::format("the column \"{}\" is missing", specs_[column].name),
                           "a header row with at least " + knownColumns(specs_.first(column + 1))};
        }
    }
    return std::nullopt;
}

FileResult<bool> CsvTable::next() {
    auto found = reader_.next(row_);
    if (!found) {
        found.error().file = file_;
        return found;
    }
    if (!*found && !anyRow_) {
        return refuseAt(row_.line, {"there are no rows below the header", "at least one row"});
    }
    anyRow_ = true;
    if (*found && row_.cells.size() != width_) {
        return refuse(wrongLength());
    }
    return found;
}

Problem CsvTable::wrongLength() const {
    const bool more = row_.cells.size() > width_;
    return {fmt::format("the row has {}", fields(row_.cells.size())),
            fmt::format("{} as in the header{}", fields(width_),
                        more ? ", and quotes around a text or number that holds the separator" : "")};
}

}  // namespace midden
