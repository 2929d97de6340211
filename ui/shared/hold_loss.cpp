// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shared/hold_loss.h"

#include <QCoreApplication>
#include <QStringList>
#include <algorithm>

#include "core/store/read/bin_statuses.h"
#include "core/store/read/book_rules.h"
#include "ui/shared/batch_status_cache.h"
#include "ui/shared/bin_summary.h"
#include "ui/shared/book.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

QString tr(const char* source) {
    return QCoreApplication::translate("hold", source);
}

/// As a card counts it.
Seconds creditedOf(const BinOutlook& outlook) {
    return outlook.hold ? outlook.hold->credited : outlook.credited;
}

BinOutlook outlookWith(BatchRecord record, std::span<const Addition> additions, const StatusTerms& terms) {
    record.additions.insert(record.additions.end(), additions.begin(), additions.end());
    std::ranges::stable_sort(record.additions, {}, [](const Addition& one) { return one.when.at; });
    return outlookOf(record, stallsOf(record, terms.outlook.stalls, terms.materials), terms.outlook, terms.materials);
}

QString inWords(const BinOutlook& before, const BinOutlook& after, const HoldTarget& target, TemperatureUnit unit) {
    const QString threshold = words::withUnit(target.threshold, unit);
    if (before.targetShown) {
        return after.targetShown ? QString{}
                                 : tr("%1 at %2, shown already, would have to be shown again from the start.")
                                       .arg(words::wholeHours(target.hold), threshold);
    }
    const QString credited = words::wholeHours(creditedOf(before));
    const QString left = words::wholeHours(creditedOf(after));
    if (creditedOf(after) >= creditedOf(before) || credited == left) {
        return {};
    }
    const QString hours = words::hoursOf(creditedOf(before), target.hold);
    return creditedOf(after).count == 0 ? tr("%1 at %2 would start again at 0.").arg(hours, threshold)
                                        : tr("%1 at %2 would go back to %3.").arg(hours, threshold, left);
}

QStringList rawOnes(std::span<const Addition> additions, const Materials& materials) {
    QStringList names;
    for (const Addition& addition : additions) {
        if (isRaw(addition, materials)) {
            names << words::text(addition.material);
        }
    }
    names.removeDuplicates();
    return names;
}

}  // namespace

QString holdLoss(const Book& book, BatchId batch, std::span<const Addition> additions) {
    const StatusTerms terms = statusTermsOf(book.log());
    const auto kept = book.log().batch(batch);
    if (rawOnes(additions, terms.materials).isEmpty() || (kept && kept->fed)) {
        return {};
    }
    const BatchStatus* status = book.statusCache().of(batch);
    if (status == nullptr) {
        return tr("The hold would start again at 0. How much there is to lose is still being worked out.");
    }
    return inWords(status->outlook, outlookWith(status->record, additions, terms), terms.outlook.stalls.target,
                   unitOf(book.log()));
}

Question holdLossQuestion(const Book& book, BatchId batch, std::span<const Addition> additions) {
    const QString loss = holdLoss(book, batch, additions);
    if (loss.isEmpty()) {
        return {};
    }
    const QStringList raw = rawOnes(additions, materialsOf(book.log()));
    const QString what = raw.size() == 1 ? tr("%1 is raw material.").arg(raw.front())
                                         : tr("%1 are raw materials.").arg(raw.join(tr(", ")));
    return {tr("%1 %2 Add it all the same?").arg(what, loss), tr("Add it and lose the hold"), tr("Keep the hold")};
}

}  // namespace midden::ui
