// SPDX-License-Identifier: GPL-3.0-or-later
// Every change of a logbook is an Edit; applying one gives the edit that undoes it.
#pragma once

#include <string>
#include <variant>

#include "core/records/entries.h"

namespace midden {

/// What names an entry of type E.
template <class E>
struct IdOf {
    using type = decltype(E::id);
};
template <>
struct IdOf<Reading> {
    using type = ReadingId;
};
template <>
struct IdOf<PlaceSetting> {
    using type = Place;
};

/// The kind of an entry of type E.
template <class E>
inline constexpr EntryKind entryKind{};
template <>
inline constexpr EntryKind entryKind<Reading> = EntryKind::reading;
template <>
inline constexpr EntryKind entryKind<Addition> = EntryKind::addition;
template <>
inline constexpr EntryKind entryKind<Aeration> = EntryKind::aeration;
template <>
inline constexpr EntryKind entryKind<Observation> = EntryKind::observation;
template <>
inline constexpr EntryKind entryKind<Harvest> = EntryKind::harvest;
template <>
inline constexpr EntryKind entryKind<ThermometerCheck> = EntryKind::check;
template <>
inline constexpr EntryKind entryKind<Batch> = EntryKind::batch;
template <>
inline constexpr EntryKind entryKind<Bin> = EntryKind::bin;
template <>
inline constexpr EntryKind entryKind<Probe> = EntryKind::probe;
template <>
inline constexpr EntryKind entryKind<PlaceSetting> = EntryKind::place;

/// A new entry. An empty or zero id is filled in when it is stored.
template <class E>
struct Put {
    E entry;
    bool undoing = false;  ///< set in inverses: it restores what stood before
};

/// An entry as it should have been. The value before stays in the book as an amendment.
template <class E>
struct Amend {
    typename IdOf<E>::type id;  ///< as it stands now; the entry may carry another (a reading's time corrected)
    E entry;
    std::string why;
    bool undoing = false;  ///< set in inverses: it restores what stood before
};

/// An entry taken back. It stays in the book as an amendment.
template <class E>
struct Withdraw {
    typename IdOf<E>::type id;
    std::string why;
};

using Edit = std::variant<Put<Reading>, Amend<Reading>, Withdraw<Reading>,                             //
                          Put<Addition>, Amend<Addition>, Withdraw<Addition>,                          //
                          Put<Aeration>, Amend<Aeration>, Withdraw<Aeration>,                          //
                          Put<Observation>, Amend<Observation>, Withdraw<Observation>,                 //
                          Put<Harvest>, Amend<Harvest>, Withdraw<Harvest>,                             //
                          Put<ThermometerCheck>, Amend<ThermometerCheck>, Withdraw<ThermometerCheck>,  //
                          Put<Bin>, Amend<Bin>, Withdraw<Bin>,                                         //
                          Put<Probe>, Amend<Probe>, Withdraw<Probe>,                                   //
                          Put<Batch>, Amend<Batch>, Withdraw<Batch>,                                   //
                          Put<PlaceSetting>, Amend<PlaceSetting>, Withdraw<PlaceSetting>>;

/// What became of an edit.
struct Applied {
    Edit inverse;
    /// The entry's name after the edit, for the kinds whose name the book gives out.
    std::variant<std::monostate, ReadingId, EntryId, BinId, ProbeId, BatchId, Place> id;
};

}  // namespace midden
