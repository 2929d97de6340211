// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/logbook/book_standing.h"

#include <algorithm>

#include "core/logbook/book_rules.h"

namespace midden {

namespace {

/// A batch finished longer ago than this is not asked after any more. Our own choice.
constexpr Seconds askedAfter = days(30);

}  // namespace

std::vector<BatchId> batchesAskedAfter(const Logbook& book, Instant now) {
    std::vector<BatchId> batches;
    for (const Bin& bin : book.bins()) {
        if (const auto batch = bin.retired ? std::nullopt : book.batchStanding(bin.id, now)) {
            batches.push_back(*batch);
        }
    }
    for (const Batch& batch : book.batches()) {
        const bool isRecent = batch.finished && batch.finished->at <= now && now - batch.finished->at <= askedAfter;
        const bool isTaken = std::find(batches.begin(), batches.end(), batch.id) != batches.end();
        if (isRecent && !isTaken && book.certificates(batch.id).empty()) {
            batches.push_back(batch.id);
        }
    }
    return batches;
}

StandingTerms standingTermsOf(const Logbook& book) {
    return {outlookSettingsOf(book), taskSettingsOf(book).care, criteriaInForce(book), materialsOf(book)};
}

BinStanding standingOf(const BatchRecord& record, BinOutlook outlook, const StandingTerms& terms) {
    return standingOf(record, std::move(outlook), judgeAll(terms.inForce, record, terms.materials), terms.care);
}

std::vector<BinStanding> standingsOf(const Logbook& book, Instant now) {
    const StandingTerms terms = standingTermsOf(book);
    std::vector<BinStanding> standings;
    for (const BatchId batch : batchesAskedAfter(book, now)) {
        const BatchRecord record = book.record(batch);
        const auto stalls = stallsOf(record, terms.outlook.stalls, terms.materials);
        standings.push_back(standingOf(record, outlookOf(record, stalls, terms.outlook, terms.materials), terms));
        standings.back().isCertified = !book.certificates(batch).empty();
    }
    return standings;
}

}  // namespace midden
