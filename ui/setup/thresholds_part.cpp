// SPDX-License-Identifier: GPL-3.0-or-later
// The borders of phases, stalls and care. None of them is a published standard, so each can be set.
#include "core/store/read/book_rules.h"
#include "ui/setup/settings_part.h"

namespace midden::ui {

namespace {

/// A line for one border: what it is, what it is unless set, and between what it may lie.
struct Border {
    std::string_view name;
    QString label;
    double otherwise = 0;
    QString unit;
    double least = 0;
    double most = 0;
};

SettingLine lineOf(const Border& border) {
    const QString otherwise = QString::number(border.otherwise);
    const QString range = SettingsPart::tr("%1 to %2 %3").arg(border.least).arg(border.most).arg(border.unit);
    return {border.name.data(), border.label, 8,
            otherwise,          border.unit,  numberBetween(border.least, border.most, range)};
}

}  // namespace

SettingsPart* makeThresholdsPart(Book& book, QWidget* parent) {
    auto* part = new SettingsPart{
        book, SettingsPart::tr("Phases, stalls and what falls due"),
        SettingsPart::tr(
            "Handbooks differ, and no standard defines a stall. Hot from 40 or 45 °C, cooled below 40 °C, a month of "
            "curing, and hot again within 24 to 72 h of turning: by handbook, from memory, unverified. Below about "
            "65 °C: Cornell Waste Management Institute, Compost Physics, which also gives 3 to 5 days to heat up. A "
            "round a day while it is hot: 14 CCR 17868.3 (California). The others are common practice, no source."),
        parent};
    const QString celsius = QStringLiteral("°C");
    const QString hours = QStringLiteral("h");
    const QString days = SettingsPart::tr("days");
    for (const Border& border : {
             Border{setting::hot, SettingsPart::tr("Hot from"), 45, celsius, 30, 60},
             Border{setting::warm, SettingsPart::tr("Very warm from"), 65, celsius, 50, 80},
             Border{setting::tooHot, SettingsPart::tr("Too hot from"), 70, celsius, 55, 90},
             Border{setting::cured, SettingsPart::tr("Cooled for good below"), 40, celsius, 20, 50},
             Border{setting::heatingUp, SettingsPart::tr("Has not heated after"), 5, days, 1, 30},
             Border{setting::stallSpan, SettingsPart::tr("Stalled when cold for"), 24, hours, 1, 240},
             Border{setting::afterHandling, SettingsPart::tr("Handling explains a dip within"), 24, hours, 1, 120},
             Border{setting::recovery, SettingsPart::tr("if it is hot again within"), 48, hours, 1, 240},
             Border{setting::remedy, SettingsPart::tr("A remedy worked if hot again within"), 72, hours, 1, 480},
             Border{setting::round, SettingsPart::tr("Readings of one round lie within"), 60, SettingsPart::tr("min"),
                    1, 720},
             Border{setting::betweenRounds, SettingsPart::tr("A round every"), 24, hours, 1, 168},
             Border{setting::curing, SettingsPart::tr("Tests after curing for"), 30, days, 1, 730},
             Border{setting::probeCheck, SettingsPart::tr("Check thermometers every"), 90, days, 1, 1'000},
         }) {
        part->add(lineOf(border));
    }
    return part;
}

}  // namespace midden::ui
