// SPDX-License-Identifier: GPL-3.0-or-later
// Every setting of a book, in one table. A setting is named nowhere else: whoever reads or writes one does it by its
// row here.
#pragma once

#include <span>
#include <string_view>

namespace midden {

enum class SettingKind {
    text,    ///< a name that people write
    zone,    ///< of the IANA time zone database
    choice,  ///< one of a few words
    number,  ///< with a decimal point
    list,    ///< ids, parted by spaces
    data     ///< what the program writes for itself
};

enum class SettingUnit { none, celsius, kelvins, litres, minutes, hours, days };

/// Where the figure that holds unless a steward sets another comes from.
enum class SettingSource {
    noFigure,               ///< there is none
    commonPractice,         ///< no source
    cornellCompostPhysics,  ///< Cornell Waste Management Institute, "Compost Physics"
    california17868_3,      ///< 14 CCR 17868.3
    merseyside              ///< Merseyside Recycling and Waste Authority, "Volume to kgs" (merseysidewda.gov.uk)
};

/// One row of the table.
struct Setting {
    std::string_view name;  ///< what it is kept under in the file; never changed
    SettingKind kind = SettingKind::text;
    std::string_view otherwise = {};  ///< what holds where the book says nothing
    /// Numbers: what may be typed. A figure that other hands wrote into the file is taken as it is, where it is above
    /// 0 (or 0, where that may be typed) and below a million.
    double least = 0;
    double most = 0;
    SettingUnit unit = SettingUnit::none;
    SettingSource source = SettingSource::noFigure;
    bool restatesBatches = false;  ///< a change of it has every batch's status worked out anew
};

namespace setting {

inline constexpr Setting zone{.name = "zone", .kind = SettingKind::zone};
inline constexpr Setting who{.name = "who"};      ///< who is typing
inline constexpr Setting group{.name = "group"};  ///< the group the book belongs to, as printed on certificates
/// "c" or "f": what a number typed without a unit is.
inline constexpr Setting unit{.name = "unit", .kind = SettingKind::choice, .otherwise = "c"};
/// "a4", "letter"; empty = what is usual in the country.
inline constexpr Setting paper{.name = "paper", .kind = SettingKind::choice};

inline constexpr Setting targetTemperature{.name = "target_celsius",
                                           .kind = SettingKind::number,
                                           .otherwise = "55",
                                           .least = 30,
                                           .most = 90,
                                           .unit = SettingUnit::celsius,
                                           .source = SettingSource::commonPractice,
                                           .restatesBatches = true};
/// Whole hours, at most 10,000.
inline constexpr Setting targetHours{.name = "target_hours",
                                     .kind = SettingKind::number,
                                     .otherwise = "72",
                                     .least = 1,
                                     .most = 2'000,
                                     .unit = SettingUnit::hours,
                                     .source = SettingSource::commonPractice,
                                     .restatesBatches = true};
/// The group's own criteria: a JSON text sequence (RFC 7464).
inline constexpr Setting criteria{.name = "criteria", .kind = SettingKind::data, .restatesBatches = true};
/// The group's own materials: a table as resources/materials.csv.
inline constexpr Setting materials{.name = "materials", .kind = SettingKind::data, .restatesBatches = true};
/// Ids of the criteria that certificates are drawn up for.
inline constexpr Setting inForce{
    .name = "certificate_criteria", .kind = SettingKind::list, .otherwise = "target", .restatesBatches = true};

/// Additions before this instant, in seconds since 1970, were written with the list of materials that came before the
/// present one, and are read with it. Absent: all of them. Written with the first addition a book gets from now on.
inline constexpr Setting materialsSince{.name = "materials_since", .kind = SettingKind::data, .restatesBatches = true};
inline constexpr Setting recipeOffered{.name = "recipe_offered",
                                       .kind = SettingKind::list,
                                       .otherwise =
                                           "leaves straw cardboard shrub-trimmings wood-chips sawdust "
                                           "grass-clippings vegetable-scraps water"};
inline constexpr Setting recipeToHand{
    .name = "recipe_to_hand", .kind = SettingKind::list, .otherwise = "leaves cardboard shrub-trimmings water"};

inline constexpr Setting bucket{.name = "bucket_litres",
                                .kind = SettingKind::number,
                                .otherwise = "10",
                                .least = 1,
                                .most = 100,
                                .unit = SettingUnit::litres,
                                .source = SettingSource::commonPractice};
inline constexpr Setting barrow{.name = "barrow_litres",
                                .kind = SettingKind::number,
                                .otherwise = "85",
                                .least = 10,
                                .most = 500,
                                .unit = SettingUnit::litres,
                                .source = SettingSource::commonPractice};

inline constexpr Setting caddy{.name = "caddy_litres",
                               .kind = SettingKind::number,
                               .otherwise = "5",
                               .least = 1,
                               .most = 50,
                               .unit = SettingUnit::litres,
                               .source = SettingSource::merseyside};
inline constexpr Setting sack{.name = "sack_litres",
                              .kind = SettingKind::number,
                              .otherwise = "60",
                              .least = 5,
                              .most = 500,
                              .unit = SettingUnit::litres,
                              .source = SettingSource::merseyside};

// Beyond these a number is saved all the same, and asked about.
inline constexpr Setting unlikelyJump{.name = "unlikely_jump",
                                      .kind = SettingKind::number,
                                      .otherwise = "25",
                                      .least = 1,
                                      .most = 100,
                                      .unit = SettingUnit::kelvins,
                                      .source = SettingSource::commonPractice};
inline constexpr Setting unlikelyBelowOutside{.name = "unlikely_below_outside",
                                              .kind = SettingKind::number,
                                              .otherwise = "5",
                                              .least = 0,
                                              .most = 50,
                                              .unit = SettingUnit::kelvins,
                                              .source = SettingSource::commonPractice};
inline constexpr Setting unlikelyAbove{.name = "unlikely_above",
                                       .kind = SettingKind::number,
                                       .otherwise = "80",
                                       .least = 40,
                                       .most = 150,
                                       .unit = SettingUnit::celsius,
                                       .source = SettingSource::commonPractice};

// Thresholds of phases, stalls and care.
inline constexpr Setting hot{.name = "hot_celsius",
                             .kind = SettingKind::number,
                             .otherwise = "45",
                             .least = 30,
                             .most = 60,
                             .unit = SettingUnit::celsius,
                             .source = SettingSource::commonPractice,
                             .restatesBatches = true};
inline constexpr Setting warm{.name = "warm_celsius",
                              .kind = SettingKind::number,
                              .otherwise = "65",
                              .least = 50,
                              .most = 80,
                              .unit = SettingUnit::celsius,
                              .source = SettingSource::cornellCompostPhysics,
                              .restatesBatches = true};
inline constexpr Setting tooHot{.name = "too_hot_celsius",
                                .kind = SettingKind::number,
                                .otherwise = "70",
                                .least = 55,
                                .most = 90,
                                .unit = SettingUnit::celsius,
                                .source = SettingSource::commonPractice,
                                .restatesBatches = true};
inline constexpr Setting cured{.name = "cured_celsius",
                               .kind = SettingKind::number,
                               .otherwise = "40",
                               .least = 20,
                               .most = 50,
                               .unit = SettingUnit::celsius,
                               .source = SettingSource::commonPractice,
                               .restatesBatches = true};
inline constexpr Setting heatingUp{.name = "heating_up_days",
                                   .kind = SettingKind::number,
                                   .otherwise = "5",
                                   .least = 1,
                                   .most = 30,
                                   .unit = SettingUnit::days,
                                   .source = SettingSource::cornellCompostPhysics,
                                   .restatesBatches = true};
inline constexpr Setting stallSpan{.name = "stall_hours",
                                   .kind = SettingKind::number,
                                   .otherwise = "24",
                                   .least = 1,
                                   .most = 240,
                                   .unit = SettingUnit::hours,
                                   .source = SettingSource::commonPractice,
                                   .restatesBatches = true};
inline constexpr Setting afterHandling{.name = "after_handling_hours",
                                       .kind = SettingKind::number,
                                       .otherwise = "24",
                                       .least = 1,
                                       .most = 120,
                                       .unit = SettingUnit::hours,
                                       .source = SettingSource::commonPractice,
                                       .restatesBatches = true};
inline constexpr Setting recovery{.name = "recovery_hours",
                                  .kind = SettingKind::number,
                                  .otherwise = "48",
                                  .least = 1,
                                  .most = 240,
                                  .unit = SettingUnit::hours,
                                  .source = SettingSource::commonPractice,
                                  .restatesBatches = true};
inline constexpr Setting remedy{.name = "remedy_hours",
                                .kind = SettingKind::number,
                                .otherwise = "72",
                                .least = 1,
                                .most = 480,
                                .unit = SettingUnit::hours,
                                .source = SettingSource::commonPractice,
                                .restatesBatches = true};
inline constexpr Setting round{.name = "round_minutes",
                               .kind = SettingKind::number,
                               .otherwise = "60",
                               .least = 1,
                               .most = 720,
                               .unit = SettingUnit::minutes,
                               .source = SettingSource::commonPractice,
                               .restatesBatches = true};
inline constexpr Setting betweenRounds{.name = "between_rounds_hours",
                                       .kind = SettingKind::number,
                                       .otherwise = "24",
                                       .least = 1,
                                       .most = 168,
                                       .unit = SettingUnit::hours,
                                       .source = SettingSource::california17868_3,
                                       .restatesBatches = true};
inline constexpr Setting curing{.name = "curing_days",
                                .kind = SettingKind::number,
                                .otherwise = "30",
                                .least = 1,
                                .most = 730,
                                .unit = SettingUnit::days,
                                .source = SettingSource::commonPractice,
                                .restatesBatches = true};
inline constexpr Setting probeCheck{.name = "probe_check_days",
                                    .kind = SettingKind::number,
                                    .otherwise = "90",
                                    .least = 1,
                                    .most = 1'000,
                                    .unit = SettingUnit::days,
                                    .source = SettingSource::commonPractice,
                                    .restatesBatches = true};

}  // namespace setting

/// All of them, in the order above.
std::span<const Setting* const> allSettings();

/// What a number in force is: `stored` where it is one that can be taken, else what holds otherwise.
double numberOf(const Setting& setting, std::string_view stored);

}  // namespace midden
