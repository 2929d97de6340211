// SPDX-License-Identifier: GPL-3.0-or-later
// What the record of a harvest will say, before it is saved.
#pragma once

#include <QObject>
#include <QString>
#include <memory>

#include "core/layers/reckoning.h"
#include "core/recipe/material.h"
#include "core/review/stall.h"
#include "ui/round/batch_forms.h"
#include "ui/shared/background_task.h"

namespace midden::ui {

/// The layers as they stand when the harvest is taken, worked out once, beside the window where the batch is long.
class HarvestPreview : public QObject {
    Q_OBJECT

  public:
    explicit HarvestPreview(FormTarget target, QObject* parent = nullptr);
    /// Of so many litres.
    QString words(double litres) const;

  signals:
    void known();

  private:
    struct Standing {
        std::vector<StandingLayer> layers;
        HarvestTerms terms;
        std::vector<Lacking> lacking;
        Celsius threshold;
    };
    static Standing standing(const BatchRecord& record, const HoldTarget& target, const Materials& materials,
                             Instant at);

    FormTarget target_;
    std::shared_ptr<const Standing> standing_;  ///< null while it is being worked out
    QString trouble_;
    BackgroundTask task_;
};

/// Was anything put into it by then?
bool hasFeedBy(const Logbook& logbook, BatchId batch, Instant at);

}  // namespace midden::ui
