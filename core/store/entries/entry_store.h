// SPDX-License-Identifier: GPL-3.0-or-later
// One shelf for each kind of entry: how it is found, put, amended and withdrawn in the file.
#pragma once

#include "core/store/state.h"

namespace midden {

/// All four run inside a transaction, and refuse with a LogbookError what contradicts the book.
template <class E>
struct EntryStore {
    using Id = typename IdOf<E>::type;

    static std::optional<E> find(Logbook::State& state, const Id& id);
    static Id put(Logbook::State& state, const E& given);
    /// `was` is what find() gave for `id`.
    static Id amend(Logbook::State& state, const E& was, const E& given);
    static void withdraw(Logbook::State& state, const Id& id);
    /// "the addition", for sentences.
    static const char* const noun;
};

// Each is defined beside its shelf.
template <>
const char* const EntryStore<Reading>::noun;
template <>
const char* const EntryStore<Addition>::noun;
template <>
const char* const EntryStore<Aeration>::noun;
template <>
const char* const EntryStore<Observation>::noun;
template <>
const char* const EntryStore<ThermometerCheck>::noun;
template <>
const char* const EntryStore<Bin>::noun;
template <>
const char* const EntryStore<Probe>::noun;
template <>
const char* const EntryStore<Batch>::noun;
template <>
const char* const EntryStore<PlaceSetting>::noun;

/// Fills in who and when, where the entry does not say and the book knows.
void sign(const Logbook::State& state, Provenance& provenance);

}  // namespace midden
