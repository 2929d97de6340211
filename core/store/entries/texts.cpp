// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/entries/texts.h"

#include "core/quantities/utf8.h"
#include "core/store/state.h"

namespace midden {

namespace {

constexpr std::size_t longestName = 1'000;  // bytes

template <class Entry>
void expectName(const Entry& entry, const Entry* was, std::string Entry::*name) {
    if (was == nullptr || was->*name != entry.*name) {
        expectKeepableName(entry.*name);
    }
}

template <class Entry>
void expectText(const Entry& entry, const Entry* was, std::string Entry::*text) {
    if (was == nullptr || was->*text != entry.*text) {
        expectPlain(entry.*text);
    }
}

template <class Entry>
void expectPlace(const Entry& entry, const Entry* was) {
    if (was == nullptr || was->place.position != entry.place.position) {
        expectKeepableName(entry.place.position);
    }
}

}  // namespace

void expectPlain(std::string_view text) {
    if (firstNotUtf8(text)) {
        refuse("a text is not UTF-8, so no other program could read it");
    }
    if (firstControl(text)) {
        refuse("a text holds a control character, which cannot be shown or exported");
    }
}

void expectKeepableName(std::string_view name) {
    expectPlain(name);
    if (name.size() > longestName) {
        refuse("a name is longer than 1,000 letters");
    }
}

void expectKeepable(const Bin& bin, const Bin* was) {
    expectName(bin, was, &Bin::name);
    expectText(bin, was, &Bin::note);
}

void expectKeepable(const Probe& probe, const Probe* was) {
    expectName(probe, was, &Probe::name);
    expectText(probe, was, &Probe::note);
}

void expectKeepable(const PlaceSetting& setting, const PlaceSetting* was) {
    expectPlace(setting, was);
}

void expectKeepable(const Batch& batch, const Batch* was) {
    expectName(batch, was, &Batch::name);
    expectText(batch, was, &Batch::note);
}

void expectKeepable(const Reading& reading, const Reading* was) {
    expectPlace(reading, was);
    expectText(reading, was, &Reading::note);
}

void expectKeepable(const Addition& addition, const Addition* was) {
    expectName(addition, was, &Addition::material);
    expectText(addition, was, &Addition::note);
}

void expectKeepable(const Aeration& aeration, const Aeration* was) {
    expectText(aeration, was, &Aeration::note);
}

void expectKeepable(const Observation& observation, const Observation* was) {
    expectText(observation, was, &Observation::subject);
    expectText(observation, was, &Observation::value);
    expectText(observation, was, &Observation::note);
}

void expectKeepable(const ThermometerCheck& check, const ThermometerCheck* was) {
    expectText(check, was, &ThermometerCheck::note);
}

}  // namespace midden
