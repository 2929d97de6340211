// SPDX-License-Identifier: GPL-3.0-or-later
// The bin as one lump of material: dT/dt = q − (T − Ta)/τ.
//   T   temperature of the material, Ta of the air outside, °C
//   q   self-heating rate: how fast it would warm if it lost nothing, K/h
//   τ   how long it holds its warmth: without heating, the excess over Ta falls to 37 % in τ hours
// Left out: that the middle is hotter than the edge, steam and wind, drying and slumping (which change τ), and that
// heat-making itself depends on temperature. Published models did not predict peaks within 5 °C or the time of the
// peak within 8 h (Mason 2006, "Mathematical modelling of the composting process: a review", abstract). So: an
// explanation of what was read, never a promise of what will be.
#pragma once

#include <optional>
#include <span>
#include <vector>

#include "core/quantities/time.h"
#include "core/records/entries.h"

namespace midden {

/// Hours for a bin without heating to fall from one temperature to another: τ·ln[(from − Ta)/(to − Ta)].
/// No value when it never gets there.
std::optional<double> hoursToCool(double tauHours, double from, double to, double outside);

/// A temperature at an instant, °C.
struct HeatPoint {
    Instant at;
    double celsius = 0;
};

/// What the heat balance of a bin is a function of.
struct HeatSeries {
    std::vector<HeatPoint> bin;         ///< one point a round, in time order
    std::vector<HeatPoint> outside;     ///< in time order
    std::vector<Instant> disturbances;  ///< additions and aerations, in time order: no balance across them
};

struct HeatSettings {
    /// No balance across longer intervals between readings.
    Seconds maxGap;
    /// An outside reading speaks for this long before and after it where it has no neighbour.
    Seconds outsideReach;
    /// How far two readings of the same material differ by where and how the probe sits and by how little one outside
    /// reading says of the air of a day, one standard deviation, K. Our own choice; a stretch's own scatter is used
    /// where it is larger.
    double scatter = 1.0;
    /// A cool-down must fall this much, K, over at least this many readings. Our own choice.
    double leastFall = 5;
    std::size_t leastReadings = 4;
    /// The search for τ runs from the first to the second, h: from a bucket to a farm-size heap.
    double shortest = 4;
    double longest = 1'000;
};

/// Where a τ comes from.
enum class TauBasis {
    coolDowns,  ///< fitted to the bin's own falling stretches
    wall,       ///< reckoned from volume and insulation
    assumed     ///< nothing is known of the bin: a middling one is taken
};

/// τ with the range it may well lie in (95 % by the fit; a factor of two either way for the wall, of three when it
/// is assumed).
struct TimeConstant {
    double hours = 0;
    double low = 0;
    double high = 0;
    TauBasis basis = TauBasis::wall;
    std::size_t stretches = 0;  ///< cool-downs that were looked at
    std::size_t readings = 0;   ///< in the one it was taken from
};

/// C/(U·A + V) with C = mass·(m·4.186 + (1−m)·1.25) kJ/K, U = 1/(thickness/conductivity + 0.17) W/m²K.
/// Heat capacities and the film resistance of 0.17 m²K/W: from memory, unverified.
struct Wall {
    double areaSquareMetres = 0;
    double thicknessMetres = 0;
    double conductivity = 0;       ///< W/mK
    double airWattsPerKelvin = 0;  ///< what leaves with air, beside the U·A of the wall
};
double wallTimeConstant(const Wall& wall, double massKilograms, double moistureFraction);

/// How far a bin is from being one lump, its Biot number: the wall's U times volume over area, by the conductivity of
/// compost, 0.4 W/mK (0.12 to 0.81: Ahn and others 2009, Iowa State, abstract). Below about 0.1 the middle is as warm
/// as the edge, above 1 the edge is far colder. No value unless the bin's volume and insulation are set up; a wall with
/// no insulation needs no conductivity.
std::optional<double> biotOf(const Bin& bin);
/// Is one lump a poor picture of it: bare walls, or nearly so?
bool isPoorLump(const Bin& bin);

/// The same for a bin taken as a cube full of material of 0.5 kg/L at 60 % moisture. No value unless the bin's volume,
/// insulation thickness and conductivity are all set up.
std::optional<TimeConstant> timeConstantOfWall(const Bin& bin);

/// 48 h, taken when nothing else is known. Our own choice.
constexpr TimeConstant assumedTimeConstant{48, 16, 144, TauBasis::assumed, 0, 0};

/// Least squares over every stretch that falls without a disturbance, each with its own start, its own constant q ≥ 0
/// and its own τ; the range is that of τ whose residuals an F test at 95 % does not reject. Heat still being made, and
/// fading, only makes a bin cool more slowly: so of all stretches, and of all tails of a stretch, the one with the
/// smallest upper bound is nearest to the truth, and is taken. No value unless the readings bound τ on both sides.
std::optional<TimeConstant> timeConstantOfCoolDowns(const HeatSeries& series, const HeatSettings& settings);

/// The self-heating rate over one interval between readings, K/h, with its band (two standard deviations of the
/// readings' scatter, and the range of τ).
struct HeatRate {
    Instant from;
    Instant to;
    double rate = 0;
    double low = 0;
    double high = 0;
};
std::vector<HeatRate> heatRates(const HeatSeries& series, const TimeConstant& tau, const HeatSettings& settings);

/// The outside temperature at an instant, joined by straight lines; no value where nothing was read near enough.
std::optional<double> outsideAt(std::span<const HeatPoint> outside, Instant at, Seconds reach);

}  // namespace midden
