// SPDX-License-Identifier: GPL-3.0-or-later
// What each kind of dated entry is made of, said once. Storing, reading, amending, checking, merging, exporting,
// importing and comparing go by these descriptions. Besides its fields each kind has an id, an owner, a time, a note
// and who put it in.
#pragma once

#include <array>
#include <string_view>
#include <tuple>
#include <type_traits>

#include "core/records/batch_record.h"
#include "core/records/edit.h"

namespace midden {

/// What a number must lie between, both ends included, and how to say so.
struct NumberRange {
    double least;
    double most;
    std::string_view words;  ///< "a percentage from 0 to 100"
};

/// One field of a kind of entry.
template <class E, class T>
struct EntryField {
    std::string_view column;  ///< in the table, and in an amendment
    T E::*member;
    std::string_view csv = {};    ///< its column in a file of the kind
    bool isRequired = false;      ///< a file must have the column, and a text in it
    NumberRange range{};          ///< of numbers
    std::string_view expected{};  ///< "what was added": what a text that is missing should have been
    bool isRare = false;          ///< its column is left out of a file in which nothing would stand in it
};

template <class E>
struct EntryDescription;

inline constexpr NumberRange percentage{0, 100, "a percentage from 0 to 100"};
inline constexpr NumberRange massRange{0.000'001, 1'000'000, "a mass in kg above 0, at most a million"};
inline constexpr NumberRange volumeRange{0.000'001, 1'000'000, "a volume in litres above 0, at most a million"};
inline constexpr NumberRange depthRange{0.000'001, 1'000, "a depth in cm above 0, at most 1000"};
inline constexpr NumberRange carbonNitrogenRange{0.1, 10'000, "a carbon to nitrogen ratio from 0.1 to 10000"};

template <>
struct EntryDescription<Addition> {
    static constexpr std::string_view table = "addition";
    static constexpr std::string_view owner = "batch";
    static constexpr auto ownerMember = &Addition::batch;
    static constexpr auto list = &BatchRecord::additions;
    static constexpr std::string_view file = "additions.csv";
    static constexpr std::tuple fields{
        EntryField<Addition, std::string>{.column = "material",
                                          .member = &Addition::material,
                                          .csv = "material",
                                          .isRequired = true,
                                          .expected = "what was added"},
        EntryField<Addition, double>{.column = "mass_kg",
                                     .member = &Addition::massKilograms,
                                     .csv = "mass_kg",
                                     .isRequired = true,
                                     .range = massRange},
        EntryField<Addition, std::optional<double>>{
            .column = "volume_litres", .member = &Addition::volumeLitres, .csv = "volume_l", .range = volumeRange},
        EntryField<Addition, std::optional<double>>{.column = "moisture_percent",
                                                    .member = &Addition::moisturePercent,
                                                    .csv = "moisture_percent",
                                                    .range = percentage},
        EntryField<Addition, std::optional<double>>{.column = "carbon_percent",
                                                    .member = &Addition::carbonPercent,
                                                    .csv = "carbon_percent",
                                                    .range = percentage},
        EntryField<Addition, std::optional<double>>{.column = "nitrogen_percent",
                                                    .member = &Addition::nitrogenPercent,
                                                    .csv = "nitrogen_percent",
                                                    .range = percentage},
        EntryField<Addition, std::optional<double>>{.column = "carbon_nitrogen",
                                                    .member = &Addition::carbonNitrogen,
                                                    .csv = "carbon_nitrogen",
                                                    .range = carbonNitrogenRange},
        EntryField<Addition, std::optional<bool>>{.column = "raw", .member = &Addition::raw, .csv = "raw"}};
};

template <>
struct EntryDescription<Aeration> {
    static constexpr std::string_view table = "aeration";
    static constexpr std::string_view owner = "batch";
    static constexpr auto ownerMember = &Aeration::batch;
    static constexpr auto list = &BatchRecord::aerations;
    static constexpr std::string_view file = "aerations.csv";
    static constexpr std::tuple fields{
        EntryField<Aeration, AerationKind>{
            .column = "kind", .member = &Aeration::kind, .csv = "kind", .isRequired = true},
        EntryField<Aeration, std::optional<double>>{.column = "depth_cm",
                                                    .member = &Aeration::depthCentimetres,
                                                    .csv = "depth_cm",
                                                    .range = depthRange,
                                                    .isRare = true}};
};

template <>
struct EntryDescription<Observation> {
    static constexpr std::string_view table = "observation";
    static constexpr std::string_view owner = "batch";
    static constexpr auto ownerMember = &Observation::batch;
    static constexpr auto list = &BatchRecord::observations;
    static constexpr std::string_view file = "observations.csv";
    static constexpr std::tuple fields{
        EntryField<Observation, ObservationKind>{
            .column = "kind", .member = &Observation::kind, .csv = "kind", .isRequired = true},
        EntryField<Observation, std::string>{.column = "subject", .member = &Observation::subject, .csv = "subject"},
        EntryField<Observation, std::string>{.column = "value", .member = &Observation::value, .csv = "value"}};
};

template <>
struct EntryDescription<Harvest> {
    static constexpr std::string_view table = "harvest";
    static constexpr std::string_view owner = "batch";
    static constexpr auto ownerMember = &Harvest::batch;
    static constexpr auto list = &BatchRecord::harvests;
    static constexpr std::string_view file = "harvests.csv";
    static constexpr std::tuple fields{
        EntryField<Harvest, double>{.column = "volume_litres",
                                    .member = &Harvest::volumeLitres,
                                    .csv = "volume_l",
                                    .isRequired = true,
                                    .range = volumeRange},
        EntryField<Harvest, std::optional<double>>{
            .column = "mass_kg", .member = &Harvest::massKilograms, .csv = "mass_kg", .range = massRange}};
};

/// Its file names the probe besides (core/exchange/plan/thermometer_files).
template <>
struct EntryDescription<ThermometerCheck> {
    static constexpr std::string_view table = "thermometer_check";
    static constexpr std::string_view owner = "probe";
    static constexpr auto ownerMember = &ThermometerCheck::probe;
    static constexpr std::string_view file = "checks.csv";
    static constexpr std::tuple fields{
        EntryField<ThermometerCheck, CheckKind>{.column = "kind", .member = &ThermometerCheck::kind},
        EntryField<ThermometerCheck, WrittenTemperature>{.column = "raw, unit", .member = &ThermometerCheck::read},
        EntryField<ThermometerCheck, std::optional<double>>{.column = "altitude_m",
                                                            .member = &ThermometerCheck::altitudeMetres},
        EntryField<ThermometerCheck, std::optional<double>>{.column = "pressure_hpa",
                                                            .member = &ThermometerCheck::pressureHectopascals},
        EntryField<ThermometerCheck, std::optional<Instant>>{.column = "applies_from",
                                                             .member = &ThermometerCheck::appliesFrom}};
};

template <class... E>
struct KindList {
    /// Calls `visit.operator()<E>()` for each.
    template <class Visit>
    static void each(Visit visit) {
        (visit.template operator()<E>(), ...);
    }
    static constexpr std::array kinds{entryKind<E>...};
    static constexpr std::array<std::string_view, sizeof...(E)> tables{EntryDescription<E>::table...};
};
/// The kinds that belong to a batch, in the order in which they are told.
using BatchEntries = KindList<Addition, Aeration, Observation, Harvest>;
/// All dated kinds but readings, which have tables of their own.
using DatedEntries = KindList<Addition, Aeration, Observation, Harvest, ThermometerCheck>;

/// Calls `visit(field)` for each field of a kind.
template <class E, class Visit>
constexpr void eachField(Visit visit) {
    std::apply([&](const auto&... field) { (visit(field), ...); }, EntryDescription<E>::fields);
}

/// What an entry says: its fields in order and its note, without time, owner and who put it in.
template <class E>
auto sayingOf(const E& entry) {
    return std::apply([&](const auto&... field) { return std::tie(entry.*field.member..., entry.note); },
                      EntryDescription<E>::fields);
}

/// The last value of an enumeration that a column holds.
template <class Enum>
inline constexpr Enum lastOf{};
template <>
inline constexpr AerationKind lastOf<AerationKind> = AerationKind::other;
template <>
inline constexpr ObservationKind lastOf<ObservationKind> = ObservationKind::level;
template <>
inline constexpr CheckKind lastOf<CheckKind> = CheckKind::boiling;

}  // namespace midden
