// SPDX-License-Identifier: GPL-3.0-or-later
// What the picture of a fed bin's layers says in words.
#pragma once

#include <QStringList>

#include "ui/layers/layers_pointing.h"

namespace midden::ui {

/// How these words are wanted.
struct LayersTongue {
    TimeZone zone = TimeZone::utc();
    TemperatureUnit unit = TemperatureUnit::celsius;
};

/// "at least at 55 °C"
QString hotAtWords(const LayersSource& source, TemperatureUnit unit);
/// "24 to 72 h"
QString toneWords(HeatTone tone);
/// "Fed 3 March to 5 March, mixed 9 March"
QString fedWords(const LayerOrigin& origin, const TimeZone& zone);
/// The whole story of a layer at an instant: when it was fed, how much of it there is, how long it was hot.
QString layerStory(const LayersSource& source, LayerSpot spot, const LayersTongue& tongue);
/// The same in a few words, for pointing.
QString layerLine(const LayersSource& source, LayerSpot spot, const LayersTongue& tongue);
/// What a bucket from the hatch would be.
QString bucketSentence(const LayersSource& source, TemperatureUnit unit);
/// What to enter so that more can be told, one sentence each.
QStringList lackingSentences(const LayersSource& source);
/// Where one more thermometer would help; empty: nowhere.
QString gapSentence(const LayersSource& source);
/// The same beside the cut.
QString missingWords();
/// The picture for somebody who does not see it.
QString layersSummary(const LayersSource& source, const LayersTongue& tongue);

}  // namespace midden::ui
