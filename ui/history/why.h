// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QString>

#include "core/criteria/judgement.h"
#include "core/quantities/zone.h"

namespace midden::ui {

/// Whether the hour at an instant counts towards a criterion, and why, in sentences.
QString whySentence(const Judgement& judgement, Instant at, const TimeZone& zone);
/// The criterion's own text, for whom it is written and where it is from, line by line.
QString criterionWords(const Criterion& criterion);

}  // namespace midden::ui
