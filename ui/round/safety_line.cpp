// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/round/safety_line.h"

#include <QCoreApplication>

namespace midden::ui {

namespace {

QString tr(const char* source) {
    return QCoreApplication::translate("cautions", source);
}

}  // namespace

SafetyLine safetyLineFor(Act act) {
    switch (act) {
        case Act::reading:
            return {tr("Hot material, steam and the probe's shaft can scald: open the lid away from your face."),
                    tr("From memory, unverified.")};
        case Act::turning:
            return {
                tr("Turning releases spores and dust: damp the heap, stand upwind, wear a mask; with asthma or weak "
                   "immunity leave it to somebody else."),
                tr("Recycle Now, home composting questions; Royal Horticultural Society, Minimising health risks in "
                   "the garden; Health and Safety Executive, Composting.")};
        case Act::opening:
            return {tr("Gases can gather in a deep or closed bin: never put your head or body inside. Steam scalds."),
                    tr("US Composting Council, on confined spaces. Steam: from memory, unverified.")};
        case Act::adding:
            return {
                tr("Wear gloves, and wash your hands with soap before you eat or smoke."),
                tr("NSW Health, 14 December 2018, on Legionella longbeachae; Royal Horticultural Society, Minimising "
                   "health risks in the garden.")};
        case Act::takingOut:
            return {tr("Before it is spread: keep farm animals, pet hens among them, off that ground. Damp it if it is "
                       "dusty. "
                       "Wear gloves, pick out glass, and wash your hands."),
                    tr("Farm animals: Using animal material in home, work or community compost heaps, Animal and Plant "
                       "Health Agency, as copied at fly1.wordsworth.site/guidance. Dust and hands: Royal Horticultural "
                       "Society, Minimising health risks in the garden; NSW Health, 14 December 2018, on Legionella "
                       "longbeachae. Glass: common practice, no source.")};
        case Act::settingUp:
            return {
                tr("In a shed, greenhouse or cellar gases can gather around a bin, too: choose a place that is aired."),
                tr("US Composting Council, on confined spaces. That it holds for sheds: common practice, no source.")};
    }
    return {};
}

}  // namespace midden::ui
