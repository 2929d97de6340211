// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/round/harvest_preview.h"

#include <algorithm>

#include "core/review/fed_review.h"
#include "core/store/read/book_rules.h"
#include "ui/shared/batch_status_cache.h"
#include "ui/shared/fed_words.h"
#include "ui/shared/words.h"

namespace midden::ui {

HarvestPreview::HarvestPreview(FormTarget target, QObject* parent) : QObject{parent}, target_{std::move(target)} {
    const Logbook& logbook = target_.book.log();
    const BatchId batch = target_.batch->id;
    const HoldTarget hold = outlookSettingsOf(logbook).stalls.target;
    const Materials materials = materialsOf(logbook);
    const Instant at = target_.when.at;
    try {
        if (logbook.file().empty() || !logbook.isLongerThan(batch, BatchStatusCache::mostAtOnce)) {
            standing_ = std::make_shared<const Standing>(standing(logbook.record(batch), hold, materials, at));
            return;
        }
    } catch (const LogbookError& error) {
        trouble_ = QString::fromUtf8(error.what());
        return;
    }
    task_.start([this, file = logbook.file(), batch, hold, materials,
                 at](const BackgroundTask::TaskProgress& progress) -> BackgroundTask::Delivery {
        try {
            const Logbook book = Logbook::open(file, Logbook::Mode::readOnly);
            const auto record = book.record(batch, progress);
            if (!record) {
                return [] {};
            }
            return [this, found = std::make_shared<const Standing>(standing(*record, hold, materials, at))] {
                standing_ = found;
                emit known();
            };
        } catch (const std::exception& error) {
            return [this, sentence = QString::fromUtf8(error.what())] {
                trouble_ = sentence;
                emit known();
            };
        }
    });
}

HarvestPreview::Standing HarvestPreview::standing(const BatchRecord& record, const HoldTarget& target,
                                                  const Materials& materials, Instant at) {
    FedRecord fed = fedRecordOf(record, target, materials);
    fed.asOf = at;
    FedReckoning reckoning = reckonFed(fed);
    return {std::move(reckoning.layers), {fed.hold, fed.hatchTopCm}, std::move(reckoning.lacking), fed.threshold};
}

QString HarvestPreview::words(double litres) const {
    if (!trouble_.isEmpty()) {
        return trouble_;
    }
    if (!standing_) {
        return tr("What it went through is being worked out …");
    }
    const HarvestReckoning harvest =
        harvestOf(litres, target_.when.at, standing_->layers, standing_->terms, LayerRules{});
    const words::FedContext context{target_.book.zone(), target_.book.now(), unitOf(target_.book.log()),
                                    standing_->threshold, standing_->terms.hold};
    const QString lacking = words::lacking(standing_->lacking);
    const QString told = words::harvest(harvest, context);
    return lacking.isEmpty() ? told : told + QLatin1Char{' '} + lacking;
}

bool hasFeedBy(const Logbook& logbook, BatchId batch, Instant at) {
    const auto additions = logbook.additions(batch);
    return std::ranges::any_of(additions, [&](const Addition& one) { return one.when.at <= at; });
}

}  // namespace midden::ui
