// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/entries/texts.h"

#include "core/quantities/utf8.h"
#include "core/records/level.h"
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

void expectLevel(const Observation& seen) {
    if (seen.kind == ObservationKind::level && !levelOf(seen)) {
        refuse("a level is " + std::string{levelRange.words});
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

template <class E>
void expectKeepable(const E& entry, const E* was) {
    eachField<E>([&](const auto& field) {
        if constexpr (std::is_same_v<std::decay_t<decltype(entry.*field.member)>, std::string>) {
            field.isRequired ? expectName(entry, was, field.member) : expectText(entry, was, field.member);
        }
    });
    expectText(entry, was, &E::note);
    if constexpr (std::is_same_v<E, Observation>) {
        expectLevel(entry);
    }
}
template void expectKeepable(const Addition& addition, const Addition* was);
template void expectKeepable(const Aeration& aeration, const Aeration* was);
template void expectKeepable(const Observation& observation, const Observation* was);
template void expectKeepable(const Harvest& harvest, const Harvest* was);
template void expectKeepable(const ThermometerCheck& check, const ThermometerCheck* was);

}  // namespace midden
