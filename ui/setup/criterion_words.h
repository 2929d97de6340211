// SPDX-License-Identifier: GPL-3.0-or-later
// A criterion in full, as a page of rich text.
#pragma once

#include <QString>

#include "core/criteria/information.h"

namespace midden::ui {

struct Palette;

/// "72 h (3 days)", "4 h"
QString holdWords(Seconds hold);
/// One step as sentences, without markup: "At or above 55 °C for 72 h (3 days) without a break. …"
QString stepWords(const Step& step);
/// Who wrote it: a jurisdiction, or that it is this group's own.
QString originWords(const Criterion& criterion);
/// A rule that is told and not judged, as rich text.
QString informationPage(const Information& row, const Palette& look);
QString criterionPage(const Criterion& criterion, const Palette& look);

}  // namespace midden::ui
