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

/// The settings of a book, by the names they are kept under.
namespace setting {
constexpr std::string_view zone = "zone";    ///< "Europe/London"
constexpr std::string_view who = "who";      ///< who is typing
constexpr std::string_view group = "group";  ///< the group the book belongs to, as printed on certificates
constexpr std::string_view unit = "unit";    ///< "c" or "f": what a number typed without unit is
constexpr std::string_view targetTemperature = "target_celsius";  ///< as typed; 55 °C when absent
constexpr std::string_view targetHours = "target_hours";          ///< whole hours; 72 when absent
constexpr std::string_view criteria = "criteria";                 ///< the group's own: a JSON text sequence (RFC 7464)
constexpr std::string_view materials = "materials";           ///< the group's own: a table as resources/materials.csv
constexpr std::string_view inForce = "certificate_criteria";  ///< ids, parted by spaces; the target when absent
// Borders of phases, stalls and care; where they are absent, the figures of StallSettings, OutlookSettings and
// CareSettings hold. Temperatures in °C.
constexpr std::string_view hot = "hot_celsius";
constexpr std::string_view warm = "warm_celsius";
constexpr std::string_view tooHot = "too_hot_celsius";
constexpr std::string_view cured = "cured_celsius";
constexpr std::string_view heatingUp = "heating_up_days";
constexpr std::string_view stallSpan = "stall_hours";
constexpr std::string_view afterHandling = "after_handling_hours";
constexpr std::string_view recovery = "recovery_hours";
constexpr std::string_view remedy = "remedy_hours";
constexpr std::string_view round = "round_minutes";
constexpr std::string_view betweenRounds = "between_rounds_hours";
constexpr std::string_view curing = "curing_days";
constexpr std::string_view probeCheck = "probe_check_days";
}  // namespace setting

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

/// The materials that ship with the group's own in their place.
Materials materialsOf(const Logbook& book);

/// The borders of phases, stalls and care as set up in the book.
StallSettings stallSettingsOf(const Logbook& book);
OutlookSettings outlookSettingsOf(const Logbook& book);
TaskSettings taskSettingsOf(const Logbook& book);

/// A review of one of the book's batches asks this, unless told otherwise.
ReviewQuestions questionsOf(const Logbook& book);

}  // namespace midden
