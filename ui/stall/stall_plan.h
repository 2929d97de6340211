// SPDX-License-Identifier: GPL-3.0-or-later
// Everything the stall panel says, without a widget.
#pragma once

#include <QString>
#include <QStringList>
#include <vector>

#include "core/quantities/zone.h"
#include "core/review/stall.h"

namespace midden::ui {

struct CausePlan {
    QString cause;    ///< "Too dry"
    QString reasons;  ///< "the squeeze test said dry; it has been hot for 9 days"
    QString remedy;
    QString caution;  ///< may be empty
    QString source;
    std::string id;
    QString logged;  ///< what the log will say was done
    std::vector<AerationKind> acts;
    bool adds = false;
};

struct StallPlan {
    QString headline;   ///< "North has been cold since Wed 4 March 08:10: 31 h short of the target"
    QString heat;       ///< what the heat balance says; may be empty
    QString heatBasis;  ///< where its time constant comes from and what it leaves out; may be empty
    QStringList tried;  ///< remedies logged so far, each with what came of it
    std::vector<CausePlan> causes;
    bool isOver = false;
};

/// Of one stall of the batch. What is over can be looked at, but is not logged against any more.
StallPlan stallPlanOf(const BatchRecord& record, const Stall& stall, const TimeZone& zone, Moment now);

}  // namespace midden::ui
