// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/csv/csv_table.h"

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

/// The bytes of the mark that some programs put before UTF-8.
std::uint64_t byteOrderMarkIn(std::string_view text) {
    constexpr std::string_view mark = "\xEF\xBB\xBF";
    return text.starts_with(mark) ? mark.size() : 0;
}

std::string fields(std::size_t count) {
    return fmt::format("{} {}", count, count == 1 ? "field" : "fields");
}

}  // namespace

CsvTable::CsvTable(Opened opened, std::span<const ColumnSpec> specs)
    : file_{std::move(opened.file)},
      specs_{specs},
      source_{std::move(opened.source)},
      slices_{opened.slices},
      separator_{separatorOf(std::string_view{opened.head}.substr(byteOrderMarkIn(opened.head)))},
      reader_{source_, separator_, {byteOrderMarkIn(opened.head)}, slices_},
      places_(specs.size()),
      units_(specs.size()) {}

CsvTable::CsvTable(const CsvTable& other, FromFirstRow)
    : file_{other.file_},
      specs_{other.specs_},
      source_{other.source_},
      slices_{other.slices_},
      separator_{other.separator_},
      reader_{source_, separator_, other.firstRow_, slices_},
      firstRow_{other.firstRow_},
      width_{other.width_},
      places_{other.places_},
      units_{other.units_} {}

FileResult<CsvTable> CsvTable::open(const std::filesystem::path& file, std::span<const ColumnSpec> specs,
                                    const std::filesystem::path& scratchFolder) {
    auto source = TextSource::open(file, scratchFolder);
    return source ? of({file.string(), std::move(*source), {}, {}}, specs) : tl::unexpected{std::move(source.error())};
}

FileResult<CsvTable> CsvTable::ofText(std::string file, std::string_view text, std::span<const ColumnSpec> specs,
                                      CsvSlices slices) {
    return of({std::move(file), TextSource::ofText(text), slices, {}}, specs);
}

FileResult<CsvTable> CsvTable::of(Opened opened, std::span<const ColumnSpec> specs) {
    opened.head.resize(opened.slices.longestRow);
    const auto got = opened.source->read(0, opened.head);
    if (!got) {
        return tl::unexpected{got.error()};
    }
    opened.head.resize(*got);
    const bool isUtf16 = looksLikeUtf16(opened.head);
    CsvTable table{std::move(opened), specs};
    if (isUtf16) {
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
    firstRow_ = reader_.place();
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
    if (!*found) {
        if (auto changed = source_->changed()) {
            return refuseAt(0, std::move(*changed));
        }
        if (!anyRow_) {
            return refuseAt(row_.line, {"there are no rows below the header", "at least one row"});
        }
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
