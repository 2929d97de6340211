// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/layers/layers_words.h"

#include <QCoreApplication>
#include <algorithm>

#include "ui/shared/fed_words.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

QString tr(const char* words) {
    return QCoreApplication::translate("LayersWords", words);
}

QString amount(double number) {
    return words::number(number, number > 0 && number < 9.95 ? 1 : 0);
}

/// "55 °C"; a decimal only where there is one.
QString thresholdWords(Celsius threshold, TemperatureUnit unit) {
    QString number = words::degrees(threshold, unit);
    const QString none = words::number(0, 1).mid(1);  // ".0"
    if (number.endsWith(none)) {
        number.chop(none.size());
    }
    return number + QChar{0x00A0} + words::unitName(unit);
}

QString dateWords(Instant at, const TimeZone& zone) {
    return words::text(shortDate(zone.momentAt(at)));
}

/// "At most" is never told lower than it is.
QString hoursUp(Seconds time) {
    return words::wholeHours(time + Seconds{3'599});
}

/// What became of it, where it is gone; empty where it still lies there.
QString endWords(const LayersSource& source, LayerSpot spot, const TimeZone& zone) {
    const auto& columns = source.history.columns;
    auto last = spot.column;
    while (last + 1 < columns.size() && layerOf(source, {last + 1, spot.id}) != nullptr) {
        ++last;
    }
    if (last + 1 >= columns.size()) {
        return {};
    }
    const Interval gone{columns[last].at, columns[last + 1].at};
    const auto wasMixed = std::ranges::any_of(columns[last + 1].layers, [&](const LayerThen& layer) {
        const auto& origin = source.history.origins[layer.id];
        const auto& own = source.history.origins[spot.id];
        return layer.id > spot.id && origin.since >= gone.from && origin.fedFrom <= own.fedFrom &&
               origin.fedTo >= own.fedTo;
    });
    return (wasMixed ? tr("Mixed with others %1.") : tr("Taken out %1.")).arg(dateWords(gone.to, zone));
}

QString heightWords(const LayersSource& source, const LayerThen& layer) {
    if (!source.litresPerCm) {
        return {};
    }
    const double perCm = *source.litresPerCm;
    const auto cm = [&](double litres) { return words::number(litres / perCm, 0); };
    return tr("Between %1 and %2 cm above the floor, somewhere from %3 to %4 cm.")
        .arg(cm(layer.fromLitres), cm(layer.toLitres), cm(std::max(0.0, layer.lowestLitres)), cm(layer.highestLitres));
}

QString lackingSentence(Lacking lacking, const LayersSource& source) {
    if (lacking != Lacking::positionHeight) {
        return words::lackingSentence(lacking);
    }
    QStringList names;
    for (const auto number : source.history.reckoning.positionsWithoutHeight) {
        names.append(source.positions[number].name);
    }
    return tr("Enter in Setup how high above the floor these are read: %1.").arg(names.join(tr(", ")));
}

}  // namespace

QString hotAtWords(const LayersSource& source, TemperatureUnit unit) {
    return tr("Hours so far at %1 or more, at least").arg(thresholdWords(source.threshold, unit));
}

QString toneWords(HeatTone tone) {
    switch (tone) {
        case HeatTone::none:
            return tr("none shown");
        case HeatTone::some:
            return tr("under 24 h");
        case HeatTone::day:
            return tr("24 to 72 h");
        case HeatTone::threeDays:
            return tr("72 to 168 h");
        case HeatTone::week:
            return tr("168 h and more");
        case HeatTone::notRaw:
            return tr("nothing raw");
    }
    return {};
}

QString fedWords(const LayerOrigin& origin, const TimeZone& zone) {
    const QString from = dateWords(origin.fedFrom, zone);
    const QString to = dateWords(origin.fedTo, zone);
    QString fed = from == to ? tr("Fed %1").arg(from) : tr("Fed %1 to %2").arg(from, to);
    if (origin.since > origin.fedTo) {
        fed += tr(", mixed %1").arg(dateWords(origin.since, zone));
    }
    return fed;
}

QString layerStory(const LayersSource& source, LayerSpot spot, const LayersTongue& tongue) {
    const LayerThen* layer = layerOf(source, spot);
    if (layer == nullptr) {
        return {};
    }
    const auto& origin = source.history.origins[spot.id];
    const Moment then = tongue.zone.momentAt(source.history.columns[spot.column].at);
    const Moment now = tongue.zone.momentAt(source.asOf);
    QStringList story;
    story += tr("%1: %2 L thrown in, %3 L of them left on %4.")
                 .arg(fedWords(origin, tongue.zone), amount(layer->looseLitres),
                      amount(layer->toLitres - layer->fromLitres), words::dayAndTime(then, now));
    if (!origin.raw) {
        story += tr("Nothing in it was raw.");
    } else {
        story +=
            tr("Until then at least %1 at %2 or more, at the thermometer; the longest run at least %3; at most %4.")
                .arg(words::wholeHours(layer->atLeast), thresholdWords(source.threshold, tongue.unit),
                     words::wholeHours(layer->longestRun), hoursUp(layer->atMost));
    }
    const QString height = heightWords(source, *layer);
    const QString end = endWords(source, spot, tongue.zone);
    for (const QString& more : {height, end}) {
        if (!more.isEmpty()) {
            story += more;
        }
    }
    return story.join(QLatin1Char{' '});
}

QString layerLine(const LayersSource& source, LayerSpot spot, const LayersTongue& tongue) {
    const LayerThen* layer = layerOf(source, spot);
    if (layer == nullptr) {
        return {};
    }
    const auto& origin = source.history.origins[spot.id];
    const Moment then = tongue.zone.momentAt(source.history.columns[spot.column].at);
    return tr("%1. On %2: %3 L, at least %4 so far.")
        .arg(fedWords(origin, tongue.zone), words::dayAndTime(then, tongue.zone.momentAt(source.asOf)),
             amount(layer->toLitres - layer->fromLitres), words::wholeHours(layer->atLeast));
}

QString bucketSentence(const LayersSource& source, TemperatureUnit unit) {
    const HarvestReckoning& bucket = source.bucket;
    if (source.isEmpty() || bucket.litres <= 0) {
        return {};
    }
    const TimeZone anywhere = TimeZone::utc();  // no time is told
    return tr("A bucket from the hatch now. %1")
        .arg(words::harvest(bucket, {anywhere, {}, unit, source.threshold, source.hold}));
}

QStringList lackingSentences(const LayersSource& source) {
    QStringList sentences;
    if (source.isEmpty()) {
        return {tr("Nothing was added yet. Write down what you feed it, and its layers appear here.")};
    }
    for (const Lacking lacking : source.history.reckoning.lacking) {
        sentences += lackingSentence(lacking, source);
    }
    return sentences;
}

QString gapSentence(const LayersSource& source) {
    if (!source.gap) {
        return {};
    }
    const auto cm = [](double height) { return words::number(height, 0); };
    return tr("Between %1 and %2 cm no thermometer tells anything: one more at about %3 cm would help most.")
        .arg(cm(source.gap->fromCm), cm(source.gap->toCm), cm(source.gap->helpsAtCm));
}

QString missingWords() {
    return tr("one more here?");
}

QString layersSummary(const LayersSource& source, const LayersTongue& tongue) {
    if (source.isEmpty()) {
        return lackingSentences(source).join(QLatin1Char{' '});
    }
    const auto& layers = source.now().layers;
    QStringList said;
    if (!layers.empty()) {
        const auto& oldest = source.history.origins[layers.front().id];
        said += tr("%1 layers, %2 L in all; the oldest was fed %3.")
                    .arg(QString::number(layers.size()), amount(source.now().surfaceLitres()),
                         dateWords(oldest.fedFrom, tongue.zone));
    } else {
        said += tr("Nothing is left in the bin.");
    }
    said +=
        tr("Left and right: earlier and later. Up and down: from layer to layer. Enter: its whole story. Escape: "
           "none. Home and End: the first and the last moment.");
    return said.join(QLatin1Char{' '});
}

}  // namespace midden::ui
