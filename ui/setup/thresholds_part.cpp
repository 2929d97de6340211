// SPDX-License-Identifier: GPL-3.0-or-later
// The thresholds of phases, stalls and care. None of them is a published standard, so each can be set.
#include "core/recipe/fact.h"
#include "ui/setup/settings_part.h"
#include "ui/shared/words.h"

namespace midden::ui {

SettingsPart* makeThresholdsPart(Book& book, QWidget* parent) {
    auto* part = new SettingsPart{
        book, SettingsPart::tr("Phases, stalls and what falls due"),
        SettingsPart::tr(
            "Handbooks differ, and no standard defines a stall. Hot from 40 or 45 °C, cooled below 40 °C, a month of "
            "curing, and hot again within 24 to 72 h of turning: common practice, no source. Below about "
            "65 °C: Cornell Waste Management Institute, Compost Physics, which also gives 3 to 5 days to heat up. A "
            "round a day while it is hot: 14 CCR 17868.3 (California). The others are common practice, no source.") +
            QLatin1Char{' '} + words::text(tradeFact("cold-hot").words + " " + tradeFact("cold-hot").limits) +
            SettingsPart::tr(" Common practice, no source."),
        parent};
    part->add({setting::hot, SettingsPart::tr("Hot from")});
    part->add({setting::warm, SettingsPart::tr("Very warm from")});
    part->add({setting::tooHot, SettingsPart::tr("Too hot from")});
    part->add({setting::cured, SettingsPart::tr("Cooled for good below")});
    part->add({setting::heatingUp, SettingsPart::tr("Has not heated after")});
    part->add({setting::stallSpan, SettingsPart::tr("Stalled when cold for")});
    part->add({setting::afterHandling, SettingsPart::tr("Handling explains a dip within")});
    part->add({setting::recovery, SettingsPart::tr("if it is hot again within")});
    part->add({setting::remedy, SettingsPart::tr("A remedy worked if hot again within")});
    part->add({setting::round, SettingsPart::tr("Readings of one round lie within")});
    part->add({setting::betweenRounds, SettingsPart::tr("A round every")});
    part->add({setting::curing, SettingsPart::tr("Tests after curing for")});
    part->add({setting::probeCheck, SettingsPart::tr("Check thermometers every")});
    return part;
}

}  // namespace midden::ui
