// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/read/bin_statuses.h"

#include <algorithm>

#include "core/review/fed_review.h"
#include "core/store/read/book_rules.h"

namespace midden {

namespace {

/// A batch finished longer ago than this is not asked after any more. Our own choice.
constexpr Seconds askedAfter = days(30);

}  // namespace

std::vector<BatchId> batchesAskedAfter(const Logbook& book, Instant now) {
    std::vector<BatchId> batches;
    for (const Bin& bin : book.bins()) {
        if (const auto batch = bin.retired ? std::nullopt : book.occupant(bin.id, now)) {
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

StatusTerms statusTermsOf(const Logbook& book) {
    return {outlookSettingsOf(book), taskSettingsOf(book).care, criteriaInForce(book), materialsOf(book)};
}

BinStatus statusOf(const BatchRecord& record, BinOutlook outlook, const StatusTerms& terms) {
    BinStatus status =
        statusOf(record, std::move(outlook), judgeAll(terms.inForce, record, terms.materials), terms.care);
    if (record.batch.fed) {
        const FedRecord fed = fedRecordOf(record, terms.outlook.stalls.target, terms.materials);
        status.fed = fedStatusOf(record, fed, reckonFed(fed), terms.outlook.stalls.target);
    }
    return status;
}

std::vector<BinStatus> statusesOf(const Logbook& book, Instant now) {
    const StatusTerms terms = statusTermsOf(book);
    std::vector<BinStatus> statuses;
    for (const BatchId batch : batchesAskedAfter(book, now)) {
        const BatchRecord record = book.record(batch);
        const auto stalls = stallsOf(record, terms.outlook.stalls, terms.materials);
        statuses.push_back(statusOf(record, outlookOf(record, stalls, terms.outlook, terms.materials), terms));
        statuses.back().isCertified = !book.certificates(batch).empty();
    }
    return statuses;
}

}  // namespace midden
