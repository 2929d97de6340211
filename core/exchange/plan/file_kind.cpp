// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/plan/file_kind.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <optional>
#include <string>
#include <vector>

#include "core/exchange/csv/csv_table.h"
#include "core/exchange/times/written_time.h"

namespace midden {

namespace {

constexpr std::string_view temperatureName = "temperature";
constexpr std::string_view byteOrderMark = "\xEF\xBB\xBF";
constexpr int rowsToLookAt = 1'000;

std::string lowered(std::string_view text) {
    std::string low{text};
    std::transform(low.begin(), low.end(), low.begin(),
                   [](char c) { return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c; });
    return low;
}

/// The names in a header row.
class Header {
  public:
    explicit Header(const CsvRow& row) {
        for (const auto& cell : row.cells) {
            names_.push_back(lowered(cell.text));
        }
    }

    std::optional<std::size_t> find(std::string_view name) const {
        const auto found = std::find(names_.begin(), names_.end(), name);
        return found == names_.end() ? std::nullopt : std::optional{static_cast<std::size_t>(found - names_.begin())};
    }
    bool has(std::string_view name) const { return find(name).has_value(); }
    /// The whole name of the column of temperatures, which may carry the unit.
    std::optional<std::string> temperature() const {
        const auto found = std::find_if(names_.begin(), names_.end(),
                                        [](const std::string& name) { return name.starts_with(temperatureName); });
        return found == names_.end() ? std::nullopt : std::optional{*found};
    }
    std::optional<FileKind> kind() const {
        if (!has("time")) {
            return std::nullopt;
        }
        if (temperature()) {
            return FileKind::readings;
        }
        if (has("material")) {
            return FileKind::additions;
        }
        if (has("volume_l") && !has("kind")) {
            return FileKind::harvests;
        }
        if (!has("kind") || has("probe")) {
            return std::nullopt;
        }
        return has("subject") || has("value") ? FileKind::observations : FileKind::aerations;
    }
    std::string inWords() const {
        return fmt::format("the first row names the columns {}, which together fit nothing that is kept here",
                           fmt::join(names_, ", "));
    }

  private:
    std::vector<std::string> names_;
};

bool hasLocalTimes(CsvReader& reader, std::size_t time) {
    CsvRow row;
    for (int rows = 0; rows < rowsToLookAt; ++rows) {
        const auto more = reader.next(row);
        if (!more || !*more || row.cells.size() <= time) {
            return false;  // whoever reads the whole file says what is wrong with it
        }
        const auto written = parseWrittenTime(row.cells[time].text);
        if (written && !written->hasOffset) {
            return true;
        }
    }
    return false;
}

/// Why a file without a header that can be read is refused.
tl::unexpected<Refusal> withoutHeader(const std::filesystem::path& file, const std::filesystem::path& scratchFolder) {
    static constexpr std::array<ColumnSpec, 2> leastOfAll{{{"time", true}, {"temperature", true}}};
    auto table = CsvTable::open(file, leastOfAll, scratchFolder);
    return tl::unexpected{table ? Refusal{file.string(), 0, {"it was changed meanwhile", "a file that stays as it is"}}
                                : std::move(table.error())};
}

}  // namespace

FileResult<FileHead> sniffHeader(const std::filesystem::path& file, const std::filesystem::path& scratchFolder) {
    auto source = TextSource::open(file, scratchFolder);
    if (!source) {
        return tl::unexpected{std::move(source.error())};
    }
    std::string head(CsvSlices{}.longestRow, '\0');
    const auto got = (*source)->read(0, head);
    head.resize(got.value_or(0));
    const auto begin = head.starts_with(byteOrderMark) ? byteOrderMark.size() : 0;
    CsvReader reader{*source, separatorOf(std::string_view{head}.substr(begin)), {begin}};
    CsvRow row;
    const auto found = reader.next(row);
    if (!found || !*found) {
        return withoutHeader(file, scratchFolder);
    }
    const Header header{row};
    const auto kind = header.kind();
    if (!kind) {
        return tl::unexpected{
            Refusal{file.string(),
                    row.line,
                    {header.inWords(),
                     "time and temperature for readings; time, material and mass_kg for additions; "
                     "time and kind for aerations and observations; time and volume_l for harvests"}}};
    }
    const auto temperature = header.temperature();
    return FileHead{*kind, hasLocalTimes(reader, *header.find("time")),
                    temperature && temperature->size() > temperatureName.size()};
}

}  // namespace midden
