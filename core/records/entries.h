// SPDX-License-Identifier: GPL-3.0-or-later
// What people write down. Plain values: no rules, no storage.
#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/quantities/temperature.h"
#include "core/quantities/time.h"

namespace midden {

enum class BinId : std::int64_t {};
enum class ProbeId : std::int64_t {};
enum class BatchId : std::int64_t {};

/// The lasting name of an addition, aeration, observation, harvest or thermometer check: 32 random hexadecimal digits,
/// the same in every copy of a book. Empty until the logbook has stored the entry.
struct EntryId {
    std::string digits;
    auto operator<=>(const EntryId&) const = default;
};

/// A container the heap stands in.
struct Bin {
    BinId id{};
    std::string name;
    std::optional<double> volumeLitres;
    std::optional<double> insulationMillimetres;            ///< thickness of the insulating wall
    std::optional<double> conductivityWattsPerMetreKelvin;  ///< of that wall
    std::string note;
    bool retired = false;                           ///< no longer in use; kept because old batches stood in it
    std::optional<double> heightCentimetres{};      ///< inside, from the floor to the rim
    std::optional<double> hatchTopCentimetres{};    ///< of the opening at the base, its upper edge above the floor
    std::optional<double> ventSquareCentimetres{};  ///< free area of the smaller of two openings for air
    std::optional<double> ventRiseCentimetres{};    ///< from the lower opening up to the upper
    std::optional<double> airChangesPerHour{};      ///< how often an hour the bin's volume of air is changed
};

/// A thermometer.
struct Probe {
    ProbeId id{};
    std::string name;
    /// Stated accuracy, ± this much; no value = unknown, and ±1.0 °C is assumed.
    std::optional<Kelvins> accuracy;
    std::string note;
};
constexpr Kelvins unknownAccuracy = Kelvins::ofTenThousandths(10'000);

/// Where a temperature is taken: a named position inside a bin ("core", "side" …), or, with an empty position,
/// the air outside. Outside air without a bin is that of the whole site.
struct Place {
    std::optional<BinId> bin;
    std::string position;

    bool isOutside() const { return position.empty(); }
    auto operator<=>(const Place&) const = default;
};

/// A place as the steward set it up.
struct PlaceSetting {
    Place place;
    bool spotCheck = false;                     ///< read now and then; does not take part in "every position"
    std::optional<double> heightCentimetres{};  ///< above the bin's floor; no value = not said
};

enum class Source : std::uint8_t { typed = 0, imported = 1, merged = 2 };

/// Who put an entry into the book, how and when.
struct Provenance {
    Source source = Source::typed;
    std::string who;                 ///< empty = not said
    std::optional<Instant> entered;  ///< when it was typed; not kept for imported readings
};

/// A reading is known by its place and instant: one thermometer number per position and second.
struct ReadingId {
    Place place;
    Instant at;
    auto operator<=>(const ReadingId&) const = default;
};

struct Reading {
    Place place;
    Moment when;
    WrittenTemperature written;
    std::optional<ProbeId> probe;
    std::string note;
    Provenance provenance;

    ReadingId id() const { return {place, when.at}; }
};

/// Something put into a batch.
struct Addition {
    EntryId id;
    BatchId batch{};
    Moment when;
    std::string material;
    double massKilograms = 0;
    std::optional<double> volumeLitres;
    std::optional<double> moisturePercent;  ///< of the wet mass
    std::optional<double> carbonPercent;    ///< of the dry mass
    std::optional<double> nitrogenPercent;  ///< of the dry mass
    std::optional<double> carbonNitrogen;   ///< C:N, by mass
    std::optional<bool> raw;                ///< no value = as the material's own entry says; unknown material = raw
    std::string note;
    Provenance provenance;
};

enum class AerationKind : std::uint8_t { turned = 0, forked = 1, poked = 2, opened = 3, watered = 4, other = 5 };

/// Air or water given to a batch. Only `turned` is a turning in the sense of a rule.
struct Aeration {
    EntryId id;
    BatchId batch{};
    Moment when;
    AerationKind kind = AerationKind::turned;
    std::optional<double> depthCentimetres{};  ///< how deep it went from the surface; no value = through all of it
    std::string note;
    Provenance provenance;
};

/// Anything else worth a dated line: a squeeze test ("dry", "right", "wet"), a smell, the fill height,
/// a remedy tried, the start of curing, a maturity test, the level of the surface, a plain note.
enum class ObservationKind : std::uint8_t {
    note = 0,
    squeeze = 1,
    smell = 2,
    volume = 3,
    remedy = 4,
    curing = 5,
    selfHeating = 6,
    seedTest = 7,
    screening = 8,
    condition = 9,
    level = 10  ///< value: how far above the floor the surface stands, cm (levelOf)
};
struct Observation {
    EntryId id;
    BatchId batch{};
    Moment when;
    ObservationKind kind = ObservationKind::note;
    std::string subject;  ///< which remedy, which condition; empty where the kind says it all
    std::string value;
    std::string note;
    Provenance provenance;
};

/// Taken out of a batch at the base.
struct Harvest {
    EntryId id;
    BatchId batch{};
    Moment when;
    double volumeLitres = 0;
    std::optional<double> massKilograms;
    std::string note;
    Provenance provenance;
};

enum class CheckKind : std::uint8_t { ice = 0, boiling = 1 };

/// A thermometer held in melting ice or boiling water.
struct ThermometerCheck {
    EntryId id;
    ProbeId probe{};
    Moment when;
    CheckKind kind = CheckKind::ice;
    WrittenTemperature read;
    std::optional<double> altitudeMetres;        ///< boiling only; one of the two is there
    std::optional<double> pressureHectopascals;  ///< boiling only: station pressure, not reduced to sea level
    /// Set when the steward says that this check also holds for readings before it, back to this instant.
    std::optional<Instant> appliesFrom;
    std::string note;
    Provenance provenance;
};

/// From `since` on the batch stands in `bin`, until its next stay, its finish, or another batch takes the bin.
struct Stay {
    Instant since;
    BinId bin{};
};

/// What is in a bin between a start and a finish.
struct Batch {
    BatchId id{};
    std::string name;
    Moment started;
    /// The start was given by a person; otherwise it is the earliest entry and moves with it.
    bool startGiven = true;
    std::optional<Moment> finished;
    std::vector<Stay> stays;  ///< in time order; the first is at the start
    std::string note;
    bool fed = false;  ///< fed on top and emptied at the base, and reckoned by layers; else filled once
};

/// A reading of a bulk import: its instant and its ten-thousandths of a degree in the column's unit.
struct RawReading {
    Instant at;
    std::int32_t tenThousandths = 0;
};

/// What kinds of entry there are, as an amendment names them.
enum class EntryKind : std::uint8_t {
    reading = 0,
    addition = 1,
    aeration = 2,
    observation = 3,
    check = 4,
    batch = 5,
    bin = 6,
    probe = 7,
    place = 8,
    harvest = 9
};
constexpr EntryKind lastEntryKind = EntryKind::harvest;

/// A corrected or withdrawn entry: the old value stays, struck through.
struct Amendment {
    EntryKind kind{};
    EntryId entry;                       ///< of one of the dated kinds but readings; else empty
    std::optional<ReadingId> reading;    ///< of a reading, as it was known before
    std::optional<ReadingId> readingIs;  ///< of a reading, as it was known after; no value when it was withdrawn
    std::optional<BatchId> batch;
    Instant at;           ///< of the entry as it stood before
    std::string subject;  ///< what was amended, in words: "core, North"
    std::string was;      ///< old value in words; empty when an entry withdrawn before was put back
    std::string became;   ///< new value in words; empty when the entry was withdrawn
    Instant amended;
    std::string who;
    std::string why;
};

}  // namespace midden
