// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/stall/stall_plan.h"

#include <QCoreApplication>

#include "core/review/bin_heat.h"
#include "ui/shared/bin_summary.h"
#include "ui/shared/elided_label.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

QString tr(const char* source) {
    return QCoreApplication::translate("stall", source);
}

QString headlineOf(const BatchRecord& record, const Stall& stall, const QString& since) {
    const QString bin = shortened(words::text(record.binName));
    const QString missing = words::shortBy(stall);
    return stall.kind == StallKind::neverHeated
               ? tr("%1 has not heated since %2: %3 of the target").arg(bin, since, missing)
               : tr("%1 has been cold since %2: %3 of the target").arg(bin, since, missing);
}

QString pastHeadlineOf(const BatchRecord& record, const Stall& stall, const QString& from, const QString& to) {
    const QString bin = shortened(words::text(record.binName));
    switch (stall.kind) {
        case StallKind::neverHeated:
            return tr("%1 did not heat from %2 to %3").arg(bin, from, to);
        case StallKind::earlyCooling:
            return tr("%1 was cold from %2 to %3").arg(bin, from, to);
        case StallKind::handlingDip:
            return tr("%1 dipped after it was handled, from %2 to %3").arg(bin, from, to);
    }
    return {};
}

CausePlan planOf(const LikelyCause& cause) {
    QStringList reasons;
    for (const auto& reason : cause.reasons) {
        reasons << words::text(reason);
    }
    return {words::text(cause.cause),
            reasons.join(QStringLiteral("; ")),
            words::text(cause.remedy),
            words::text(cause.caution),
            words::text(cause.source),
            cause.id,
            words::text(cause.logged),
            cause.acts,
            cause.adds};
}

}  // namespace

StallPlan stallPlanOf(const BatchRecord& record, const Stall& stall, const TimeZone& zone, Moment now) {
    const auto when = [&](Instant at) { return words::dayAndTime(zone.momentAt(at), now); };
    StallPlan plan;
    plan.isOver = stall.to.has_value();
    plan.headline = plan.isOver ? pastHeadlineOf(record, stall, when(stall.from), when(*stall.to))
                                : headlineOf(record, stall, when(stall.from));
    plan.heat = words::text(stall.heat.sentence);
    if (!stall.heat.sentence.empty() && stall.heat.tau) {
        plan.heatBasis = tr("The bin holds its warmth for %1. %2")
                             .arg(words::text(wordsOf(*stall.heat.tau)),
                                  words::text(heatBalanceLimits(record.bin, stall.heat.tau->basis)));
    }
    for (const auto& remedy : stall.remedies) {
        plan.tried << tr("%1: %2. %3").arg(when(remedy.at), words::text(remedy.remedy), words::text(remedy.sentence));
    }
    for (const auto& cause : stall.causes) {
        plan.causes.push_back(planOf(cause));
    }
    return plan;
}

}  // namespace midden::ui
