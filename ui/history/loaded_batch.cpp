// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/history/loaded_batch.h"

#include <QCoreApplication>
#include <algorithm>

#include "core/store/read/book_rules.h"
#include "ui/chart/entry_words.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

QString say(const char* words) {
    return QCoreApplication::translate("History", words);
}

std::size_t firstAtOrAfter(const Track& track, Instant at) {
    const auto found = std::ranges::lower_bound(track.samples, at, {}, [](const Sample& sample) { return sample.at; });
    return static_cast<std::size_t>(found - track.samples.begin());
}

/// Of one track, the reading that comes just before or after (instant, track) in the order of all readings.
std::optional<ReadingSpot> candidate(const LoadedBatch& batch, ReadingSpot from, std::size_t track, bool later) {
    const Track& other = batch.record.tracks[track];
    const Instant at = sampleOf(batch, from).at;
    const bool sameInstantCounts = later ? track > from.track : track < from.track;
    const std::size_t edge = firstAtOrAfter(other, sameInstantCounts == later ? at : at + Seconds{1});
    if (later) {
        return edge < other.samples.size() ? std::optional{ReadingSpot{track, edge}} : std::nullopt;
    }
    return edge > 0 ? std::optional{ReadingSpot{track, edge - 1}} : std::nullopt;
}

Interval withProjection(const BatchRecord& record, const BinOutlook& outlook) {
    constexpr Seconds air = hours(2);
    Interval whole = wholeBatch(record);
    if (outlook.projection && !record.finished) {
        whole.to = std::max(whole.to, outlook.projection->at + air);
    }
    return whole;
}

LayersPtr layersOf(const BatchRecord& record, const ReviewQuestions& questions) {
    if (!record.batch.fed) {
        return {};
    }
    std::vector<QString> names;
    for (const Track& track : record.tracks) {
        names.push_back(words::text(track.position));
    }
    return layersSource(fedRecordOf(record, questions.stalls.target, questions.materials), names);
}

std::optional<FedStatus> fedOf(const BatchRecord& record, const BatchReview& review, const ReviewQuestions& questions) {
    if (!review.fed) {
        return std::nullopt;
    }
    const HoldTarget& target = questions.stalls.target;
    return fedStatusOf(record, fedRecordOf(record, target, questions.materials), review.fed->reckoning, target);
}

QString typedWords(const Reading& typed, const Sample& sample, TemperatureUnit unit) {
    const Celsius asRead = toCelsius(typed.written);
    if (asRead == sample.temperature() && typed.written.unit == unit) {
        return {};
    }
    const QString written = words::written(typed.written);
    if (asRead == sample.temperature()) {
        return say(" Typed %1.").arg(written);
    }
    return say(" Typed %1, corrected by %2 for the thermometer.")
        .arg(written, words::change(sample.temperature() - asRead, unit));
}

}  // namespace

const Sample& sampleOf(const LoadedBatch& batch, ReadingSpot spot) {
    return batch.record.tracks[spot.track].samples[spot.sample];
}

LoadedBatch::LoadedBatch(BatchRecord batchRecord, BatchReview batchReview, BinOutlook batchOutlook,
                         LayersPtr batchLayers, std::optional<FedStatus> fedStatus)
    : record{std::move(batchRecord)},
      review{std::move(batchReview)},
      outlook{std::move(batchOutlook)},
      whole{withProjection(record, outlook)},
      source{record, review},
      layers{std::move(batchLayers)},
      fed{std::move(fedStatus)} {}

LoadedPtr loadBatch(const Logbook& logbook, BatchId batch, const ProgressCallback& onProgress) {
    const ReviewQuestions questions = questionsOf(logbook);
    auto record = logbook.record(batch, onProgress);
    if (!record || !onProgress(1)) {
        return nullptr;
    }
    BatchReview review = reviewOf(*record, questions);
    if (!onProgress(1)) {
        return nullptr;
    }
    BinOutlook outlook = outlookOf(*record, review.stalls, outlookSettingsOf(logbook), questions.materials);
    LayersPtr layers = layersOf(*record, questions);
    std::optional<FedStatus> fed = fedOf(*record, review, questions);
    return std::make_shared<const LoadedBatch>(*std::move(record), std::move(review), std::move(outlook),
                                               std::move(layers), std::move(fed));
}

ReadingId readingAt(const LoadedBatch& batch, ReadingSpot spot) {
    const Instant at = sampleOf(batch, spot).at;
    std::optional<BinId> bin;
    for (const Stay& stay : batch.record.batch.stays) {
        if (!bin || stay.since <= at) {
            bin = stay.bin;
        }
    }
    return {{bin ? bin : std::optional{batch.record.bin.id}, batch.record.tracks[spot.track].position}, at};
}

std::optional<ReadingSpot> spotOf(const LoadedBatch& batch, const std::string& position, Instant at) {
    const auto track = std::ranges::find(batch.record.tracks, position, &Track::position);
    if (track == batch.record.tracks.end()) {
        return {};
    }
    const std::size_t sample = firstAtOrAfter(*track, at);
    if (sample == track->samples.size() || track->samples[sample].at != at) {
        return {};
    }
    return ReadingSpot{static_cast<std::size_t>(track - batch.record.tracks.begin()), sample};
}

std::optional<ReadingSpot> neighbour(const LoadedBatch& batch, ReadingSpot spot, bool later) {
    const auto key = [&](ReadingSpot one) { return std::pair{sampleOf(batch, one).at, one.track}; };
    std::optional<ReadingSpot> best;
    for (std::size_t track = 0; track < batch.record.tracks.size(); ++track) {
        const auto next = track == spot.track ? alongTrack(batch, spot, later) : candidate(batch, spot, track, later);
        if (next && (!best || (later ? key(*next) < key(*best) : key(*next) > key(*best)))) {
            best = next;
        }
    }
    return best;
}

std::optional<ReadingSpot> alongTrack(const LoadedBatch& batch, ReadingSpot spot, bool later) {
    if (later) {
        return spot.sample + 1 < batch.record.tracks[spot.track].samples.size()
                   ? std::optional{ReadingSpot{spot.track, spot.sample + 1}}
                   : std::nullopt;
    }
    return spot.sample > 0 ? std::optional{ReadingSpot{spot.track, spot.sample - 1}} : std::nullopt;
}

std::optional<ReadingSpot> acrossTracks(const LoadedBatch& batch, ReadingSpot spot, bool down) {
    const std::size_t count = batch.record.tracks.size();
    if (count < 2) {
        return {};
    }
    const std::size_t track = (spot.track + (down ? 1 : count - 1)) % count;
    const Track& other = batch.record.tracks[track];
    const Instant at = sampleOf(batch, spot).at;
    std::size_t nearest = std::min(firstAtOrAfter(other, at), other.samples.size() - 1);
    if (nearest > 0 && at - other.samples[nearest - 1].at < other.samples[nearest].at - at) {
        --nearest;
    }
    return ReadingSpot{track, nearest};
}

QString readingSentence(const LoadedBatch& batch, ReadingSpot spot, const std::optional<Reading>& asTyped,
                        const TimeZone& zone, TemperatureUnit unit) {
    const Track& track = batch.record.tracks[spot.track];
    const Sample& sample = track.samples[spot.sample];
    QString sentence = say("%1, %2: %3")
                           .arg(words::text(track.position), words::fullTime(zone.momentAt(sample.at)),
                                words::withUnit(sample.temperature(), unit));
    if (spot.sample > 0) {
        const Sample& before = track.samples[spot.sample - 1];
        sentence += say(", %1 in %2")
                        .arg(words::change(sample.temperature() - before.temperature(), unit),
                             words::length(sample.at - before.at));
    } else {
        sentence += say(", the first reading here");
    }
    sentence += QLatin1Char{'.'};
    return asTyped ? sentence + typedWords(*asTyped, sample, unit) : sentence;
}

}  // namespace midden::ui
