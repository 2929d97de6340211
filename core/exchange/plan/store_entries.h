// SPDX-License-Identifier: GPL-3.0-or-later
// What an import stores besides readings. Everything here runs inside the import's transaction.
#pragma once

#include <exception>

#include "core/exchange/plan/import.h"

namespace midden {

/// Thrown to leave the transaction, caught where it was begun.
struct RefusedImport : std::exception {
    explicit RefusedImport(Refusal why) : refusal{std::move(why)} {}
    const char* what() const noexcept override { return refusal.problem.wrong.c_str(); }
    Refusal refusal;
};

[[noreturn]] inline void refuseImport(tl::unexpected<Refusal> why) {
    throw RefusedImport{std::move(why.value())};
}

template <class T>
T orRefuse(FileResult<T> result) {
    if (!result) {
        throw RefusedImport{std::move(result.error())};
    }
    return std::move(*result);
}

/// A probe the book has keeps its accuracy, or gets one if it had none; another accuracy is refused.
void storeProbes(Logbook& logbook, const ImportRequest& request, const StagedImport& staged, ImportOutcome& outcome);
void storeChecks(Logbook& logbook, const ImportRequest& request, const StagedImport& staged, ImportOutcome& outcome);

/// Additions, aerations, observations and harvests. Identical rows are kept as often as they stand in the file; those
/// the book already holds are not stored again.
void storeBatchEntries(Logbook& logbook, BatchId batch, const StagedImport& staged, ImportOutcome& outcome);

/// Only counts them; no batch = one that is still to be begun.
void countBatchEntries(const Logbook& logbook, std::optional<BatchId> batch, const StagedImport& staged,
                       ImportOutcome& outcome);

/// The probe of that name; made, without an accuracy, when there is none.
ProbeId probeNamed(Logbook& logbook, const std::string& name, ImportOutcome& outcome);

}  // namespace midden
