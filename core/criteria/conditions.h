// SPDX-License-Identifier: GPL-3.0-or-later
// What a rule asks beside temperature and time, as far as the record can say.
#pragma once

#include "core/criteria/judgement.h"

namespace midden {

/// The stretch turnings must lie in, ends included: the longest run; for a rule that adds up, from the first credited
/// instant to the last. No value when nothing is credited.
std::optional<Interval> judgedRun(const Step& step, const IntervalSet& runs);

/// The most turnings inside `run`, each at least the spacing after the one before.
int turningsInside(std::span<const Aeration> aerations, std::optional<Interval> run,
                   std::optional<Seconds> minimumSpacing);

/// The turnings asked by the alternative's steps, then its own conditions, then the criterion's. `runs` are those of
/// the alternative's steps.
std::vector<ConditionFigures> conditionsOf(const Criterion& criterion, const Alternative& alternative,
                                           const std::vector<IntervalSet>& runs, const BatchRecord& record,
                                           const Materials& materials);

}  // namespace midden
