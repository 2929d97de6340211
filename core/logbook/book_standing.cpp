// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/logbook/book_standing.h"

#include <set>

#include "core/logbook/book_rules.h"

namespace midden {

namespace {

/// A batch finished longer ago than this is not asked after any more. Our own choice.
constexpr Seconds askedAfter = days(30);

class Reader {
  public:
    explicit Reader(const Logbook& book)
        : book_{book},
          outlook_{outlookSettingsOf(book)},
          care_{taskSettingsOf(book).care},
          inForce_{criteriaInForce(book)},
          materials_{materialsOf(book)} {}

    BinStanding standing(BatchId batch) const {
        const BatchRecord record = book_.record(batch);
        const auto stalls = stallsOf(record, outlook_.stalls, materials_);
        auto standing = standingOf(record, outlookOf(record, stalls, outlook_, materials_),
                                   judgeAll(inForce_, record, materials_), care_);
        standing.isCertified = !book_.certificates(batch).empty();
        return standing;
    }

  private:
    const Logbook& book_;
    OutlookSettings outlook_;
    CareSettings care_;
    std::vector<Criterion> inForce_;
    Materials materials_;
};

}  // namespace

std::vector<BinStanding> standingsOf(const Logbook& book, Instant now) {
    const Reader reader{book};
    std::vector<BinStanding> standings;
    std::set<BatchId> taken;
    for (const Bin& bin : book.bins()) {
        const auto batch = bin.retired ? std::nullopt : book.batchStanding(bin.id, now);
        if (batch) {
            standings.push_back(reader.standing(*batch));
            taken.insert(*batch);
        }
    }
    for (const Batch& batch : book.batches()) {
        const bool isRecent = batch.finished && batch.finished->at <= now && now - batch.finished->at <= askedAfter;
        if (isRecent && !taken.contains(batch.id) && book.certificates(batch.id).empty()) {
            standings.push_back(reader.standing(batch.id));
        }
    }
    return standings;
}

}  // namespace midden
