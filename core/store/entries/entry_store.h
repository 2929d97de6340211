// SPDX-License-Identifier: GPL-3.0-or-later
// For each kind of entry: how it is found, put, amended and withdrawn in the file.
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
};

/// Fills in who and when, where the entry does not say and the book knows.
void sign(const Logbook::State& state, Provenance& provenance);

}  // namespace midden
