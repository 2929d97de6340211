// SPDX-License-Identifier: GPL-3.0-or-later
// What a book itself says a review should ask: its target, its group's own criteria, its own materials.
#pragma once

#include <span>
#include <string_view>
#include <vector>

#include "core/review/review.h"
#include "core/review/tasks.h"
#include "core/store/logbook.h"

namespace midden {

/// A number of the book: what it says, else what holds otherwise; in the setting's own unit.
double settingNumber(const Logbook& book, const Setting& setting);
/// What a number typed without a unit is.
TemperatureUnit unitOf(const Logbook& book);
/// How far apart readings of one round may lie.
Seconds roundLengthOf(const Logbook& book);

/// The target as set up, else 55 °C for 72 h.
Criterion targetOf(const Logbook& book);
/// The target, the criteria that ship, and the group's own, in this order. A group's criterion that cannot be read
/// (the file was written by other hands) is left out.
std::vector<Criterion> criteriaOf(const Logbook& book);
/// The target and whatever the steward chose for the certificates.
std::vector<Criterion> criteriaInForce(const Logbook& book);
std::vector<Criterion> groupCriteriaOf(const Logbook& book);
/// The setting that says so. What cannot be read (a later Middenbook may have written it) stays after them.
std::string groupCriteriaText(const Logbook& book, std::span<const Criterion> criteria);
/// Is this how such a setting is written, each part JSON? What it says may still be beyond this Middenbook.
bool isJsonSequence(const std::string& texts);
/// In the place of those stored before.
void storeGroupCriteria(Logbook& book, std::span<const Criterion> criteria);

/// The materials that ship with the group's own in their place; for what was put in before, the list of then.
Materials materialsOf(const Logbook& book);

/// The thresholds of phases, stalls and care as set up in the book.
StallSettings stallSettingsOf(const Logbook& book);
OutlookSettings outlookSettingsOf(const Logbook& book);
TaskSettings taskSettingsOf(const Logbook& book);

/// A review of one of the book's batches asks this, unless told otherwise.
ReviewQuestions questionsOf(const Logbook& book);

}  // namespace midden
