// SPDX-License-Identifier: GPL-3.0-or-later
#include <array>

#include "core/exchange/plan/entry_files.h"
#include "core/exchange/plan/row_reader.h"

namespace midden {

namespace {

constexpr NumberRange volume{0.000'001, 1'000'000, "a volume in litres above 0, at most a million"};
constexpr NumberRange thickness{0, 10'000, "a thickness in millimetres from 0 to 10000"};
/// From below any insulation to above any metal a bin is made of.
constexpr NumberRange conductivity{0.000'1, 500, "a conductivity in W/(m K) from 0.0001 to 500"};

namespace bin {
enum Column : std::size_t { name, volumeL, insulation, conductivityWmk, retired, note };
constexpr std::array<ColumnSpec, 6> specs{
    {{"bin", true}, {"volume_l"}, {"insulation_mm"}, {"conductivity_w_mk"}, {"retired"}, {"note"}}};
}  // namespace bin

namespace place {
enum Column : std::size_t { bin, position, spotCheck };
constexpr std::array<ColumnSpec, 3> specs{{{"bin", true}, {"position", true}, {"spot_check", true}}};
}  // namespace place

}  // namespace

FileResult<std::vector<Lined<Bin>>> readBins(const std::filesystem::path& file) {
    auto table = CsvTable::open(file, bin::specs);
    if (!table) {
        return tl::unexpected{std::move(table.error())};
    }
    return readRows<Bin>(*table, bin::specs, [](RowReader& row, Bin& into) {
        std::optional<bool> isRetired;
        row.name(bin::name, into.name, "the bin's name");
        row.number(bin::volumeL, into.volumeLitres, volume);
        row.number(bin::insulation, into.insulationMillimetres, thickness);
        row.number(bin::conductivityWmk, into.conductivityWattsPerMetreKelvin, conductivity);
        row.take(bin::retired, isRetired, parseYesNo);
        into.retired = isRetired.value_or(false);
        into.note = row.text(bin::note);
    });
}

FileResult<std::vector<Lined<StagedPosition>>> readPositions(const std::filesystem::path& file) {
    auto table = CsvTable::open(file, place::specs);
    if (!table) {
        return tl::unexpected{std::move(table.error())};
    }
    return readRows<StagedPosition>(*table, place::specs, [](RowReader& row, StagedPosition& into) {
        std::optional<bool> spotCheck;
        row.name(place::bin, into.bin, "the bin's name");
        row.name(place::position, into.position, "the position's name");
        row.take(place::spotCheck, spotCheck, parseYesNo);
        into.spotCheck = spotCheck.value_or(false);
    });
}

}  // namespace midden
