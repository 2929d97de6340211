// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/read/record.h"

#include <algorithm>
#include <map>
#include <set>

#include "core/records/dated_entries.h"
#include "core/store/entries/amendments.h"
#include "core/store/entries/batches.h"
#include "core/store/entries/entries.h"
#include "core/store/entries/readings.h"
#include "core/store/entries/setup.h"
#include "core/store/logbook.h"
#include "core/store/state.h"

namespace midden {

SeriesCorrection::SeriesCorrection(DatabaseFile& file, std::optional<ProbeId> probe, TemperatureUnit unit)
    : unit_{unit} {
    Query query{file, "SELECT accuracy_parts FROM probe WHERE id = ?"};
    query.with(probe);
    if (query.next() && !query.isNull(0)) {
        allowance_ = Kelvins::ofParts(query.number(0));
    }
    if (probe) {
        calibration_ = Calibration{entriesOf<ThermometerCheck>(file, static_cast<std::int64_t>(*probe))};
    }
}

namespace {

constexpr auto byInstant = [](const Sample& a, const Sample& b) { return a.at < b.at; };

/// Thrown when the callback wants no more.
struct Stopped {};

/// The first and the last reading of a series at from <= t < until, both by a single search; no value when none is.
std::optional<Interval> readIn(DatabaseFile& file, std::int64_t series, Interval part) {
    Query query{file,
                "SELECT min(at), max(at) FROM (SELECT * FROM ("
                "  SELECT at FROM reading WHERE series = ?1 AND at >= ?2 AND at < ?3 ORDER BY at LIMIT 1)"
                "  UNION ALL SELECT * FROM ("
                "  SELECT at FROM reading WHERE series = ?1 AND at >= ?2 AND at < ?3"
                "  ORDER BY at DESC LIMIT 1))"};
    query.with(series, part.from, part.to);
    return query.next() && !query.isNull(0) ? std::optional{Interval{query.instant(0), query.instant(1)}}
                                            : std::nullopt;
}

/// A reading before or after all time would be left out without a word.
void expectSoundEnds(DatabaseFile& file, std::int64_t series) {
    for (const char* end : {"SELECT at FROM reading WHERE series = ? ORDER BY at LIMIT 1",
                            "SELECT at FROM reading WHERE series = ? ORDER BY at DESC LIMIT 1"}) {
        Query query{file, end};
        query.with(series);
        if (query.next()) {
            query.instant(0);
        }
    }
}

/// So many readings show how often a thermometer is read.
constexpr std::size_t fewReadings = 4'096;

/// How many readings to make room for when few of them, taken in the time `few`, have been read of all. A guess, a
/// little too high for a steady logger; room that stays empty costs no memory, and a wrong guess nothing but time.
std::size_t expected(Interval few, Interval all) {
    constexpr double most = 50e6;
    const double part = static_cast<double>(few.length().count) / static_cast<double>(all.length().count);
    return static_cast<std::size_t>(std::min(most, 1.02 * static_cast<double>(fewReadings) / part));
}

/// Tells the callback how far all series have come, one after the other.
class Progress {
  public:
    Progress(const ProgressCallback* onProgress, std::size_t series)
        : onProgress_{onProgress}, series_{static_cast<double>(std::max<std::size_t>(1, series))} {}

    void begin(Interval read) {
        if (onProgress_ != nullptr) {
            read_ = read;
            tell(read.from);
        }
    }
    void at(Instant instant) {
        if (onProgress_ != nullptr && ++rows_ % rowsBetween == 0) {
            tell(instant);
        }
    }
    void end() { ++done_; }

  private:
    static constexpr std::size_t rowsBetween = 4'096;  // well under a millisecond

    void tell(Instant instant) const {
        const auto length = static_cast<double>(std::max<std::int64_t>(1, read_.length().count));
        const double part = static_cast<double>((instant - read_.from).count) / length;
        if (!(*onProgress_)((done_ + part) / series_)) {
            throw Stopped{};
        }
    }

    const ProgressCallback* onProgress_;
    double series_;
    double done_ = 0;
    std::size_t rows_ = 0;
    Interval read_;
};

class Recorder {
  public:
    Recorder(DatabaseFile& file, BatchId id, Instant from, const ProgressCallback* onProgress)
        : file_{file}, from_{from}, progress_{onProgress, 0} {
        auto batch = shownBatch(file, id);
        if (!batch) {
            refuse("the batch is no longer in the book");
        }
        record_.batch = *std::move(batch);
        occupancies_ = occupanciesOf(file, id);
        progress_ = {onProgress, seriesToRead()};
    }

    BatchRecord made() {
        record_.finished = finishOf(record_.batch, occupancies_);
        readBin();
        readTracks();
        readPositions();
        readOutside();
        BatchEntries::each([&]<class E>() {
            record_.*EntryDescription<E>::list = entriesOf<E>(file_, static_cast<std::int64_t>(record_.batch.id));
        });
        readProbes();
        record_.amendedEntries = amendedEntries(file_, record_.batch.id);
        record_.lateEntries = lateEntries(file_, record_.batch.id);
        return std::move(record_);
    }

  private:
    std::size_t seriesToRead() const {
        const std::size_t ofSite = seriesOf(file_, {}).size();
        std::size_t count = 0;
        for (const Occupancy& occupancy : occupancies_) {
            count += seriesOf(file_, occupancy.bin).size() + ofSite;
        }
        return count;
    }

    /// Appends the samples of a series from its first to its last reading in hand. SQLite is asked for no end, which it
    /// would compare with every row.
    void append(const SeriesRow& series, Interval read, std::vector<Sample>& samples) {
        const SeriesCorrection corrected{file_, series.probe, series.unit};
        Query query{file_, "SELECT at, raw FROM reading WHERE series = ? AND at >= ? ORDER BY at"};
        query.with(series.id, read.from);
        const auto already = samples.size();
        while (query.next()) {
            const Instant at = query.instant(0);
            if (samples.size() > already && at <= samples.back().at) {
                query.failAt(0);
            }
            samples.push_back(corrected(at, query.written(1, series.unit)));
            progress_.at(at);
            if (at == read.to) {
                break;
            }
            if (samples.size() - already == fewReadings) {
                samples.reserve(already + expected({read.from, at}, read));
            }
        }
    }

    /// Appends the samples of a series at from <= t < until, keeping those from `start` on in time order. Where two
    /// stand at one instant, the one that was there first stays.
    bool appendSeries(const SeriesRow& series, Interval part, std::vector<Sample>& samples, std::size_t start) {
        expectSoundEnds(file_, series.id);
        const auto middle = static_cast<std::ptrdiff_t>(samples.size());
        if (const auto read = readIn(file_, series.id, part)) {
            progress_.begin(*read);
            append(series, *read, samples);
        }
        progress_.end();
        const bool added = middle < std::ssize(samples);
        const auto first = samples.begin() + static_cast<std::ptrdiff_t>(start);
        if (added && samples.begin() + middle != first) {
            std::inplace_merge(first, samples.begin() + middle, samples.end(), byInstant);
            const auto twice = [](const Sample& a, const Sample& b) { return a.at == b.at; };
            samples.erase(std::unique(first, samples.end(), twice), samples.end());
        }
        return added;
    }

    Interval part(const Occupancy& occupancy) const { return {std::max(occupancy.from, from_), occupancy.until}; }

    void readBin() {
        if (record_.batch.stays.empty()) {
            return;  // some other program took its bin away; a check says so
        }
        record_.bin = binOf(file_, record_.batch.stays.back().bin);
        record_.binName = record_.bin.name;
    }

    void readTracks() {
        for (const Occupancy& occupancy : occupancies_) {
            std::map<std::string, std::size_t> starts;
            for (const SeriesRow& series : seriesOf(file_, occupancy.bin)) {
                if (!series.position.empty()) {
                    auto& samples = tracks_[series.position];
                    const auto start = starts.try_emplace(series.position, samples.size()).first->second;
                    if (appendSeries(series, part(occupancy), samples, start) && series.probe) {
                        probes_.insert(*series.probe);
                    }
                }
            }
        }
    }

    /// Positions with samples become tracks; the others are named, unless they were read before `from_`.
    void readPositions() {
        std::map<std::string, Track> positions;
        for (const Occupancy& occupancy : occupancies_) {
            for (const PlaceSetting& setting : placesOf(file_, occupancy.bin)) {
                auto& track = positions[setting.place.position];
                track.spotCheck |= setting.spotCheck;
                if (occupancy.bin == record_.bin.id) {
                    track.heightCentimetres = setting.heightCentimetres;
                }
            }
        }
        for (auto& [position, track] : positions) {
            auto& samples = tracks_[position];
            if (!samples.empty()) {
                record_.readings += std::ssize(samples);
                track.position = position;
                track.samples = std::move(samples);
                record_.tracks.push_back(std::move(track));
            } else if (!wasRead(position)) {
                record_.unreadPositions.push_back(position);
            }
        }
    }

    bool wasRead(const std::string& position) {
        return std::any_of(occupancies_.begin(), occupancies_.end(), [&](const Occupancy& occupancy) {
            Query query{file_,
                        "SELECT 1 FROM series s CROSS JOIN reading r ON r.series = s.id AND r.at >= ?3 AND r.at < ?4 "
                        "WHERE s.bin = ?1 AND s.position = ?2 LIMIT 1"};
            query.with(occupancy.bin, position, occupancy.from, occupancy.until);
            return query.next();
        });
    }

    /// The bin's own outside air, and the whole site's where the bin has none.
    void readOutside() {
        auto& outside = record_.outside;
        for (const Occupancy& occupancy : occupancies_) {
            const Interval within{std::max(part(occupancy).from, std::min(record_.batch.started.at, occupancy.since)),
                                  occupancy.until};
            const auto start = outside.size();
            for (const auto bin : {std::optional{occupancy.bin}, std::optional<BinId>{}}) {
                for (const SeriesRow& series : seriesOf(file_, bin)) {
                    if (series.position.empty()) {
                        appendSeries(series, within, outside, start);
                    }
                }
            }
        }
    }

    void readProbes() {
        for (const ProbeId id : probes_) {
            record_.probes.push_back(probeOf(file_, id));
            const auto checks = entriesOf<ThermometerCheck>(file_, static_cast<std::int64_t>(id));
            record_.checks.insert(record_.checks.end(), checks.begin(), checks.end());
        }
        std::stable_sort(record_.checks.begin(), record_.checks.end(),
                         [](const auto& a, const auto& b) { return a.when.at < b.when.at; });
    }

    DatabaseFile& file_;
    Instant from_;
    Progress progress_;
    BatchRecord record_;
    std::vector<Occupancy> occupancies_;
    std::map<std::string, std::vector<Sample>> tracks_;
    std::set<ProbeId> probes_;
};

}  // namespace

BatchRecord Logbook::record(BatchId batch) const {
    return recordSince(batch, beginningOfTime);
}

BatchRecord Logbook::recordSince(BatchId batch, Instant from) const {
    ReadTransaction moment{state_->file};
    return Recorder{state_->file, batch, from, nullptr}.made();
}

std::optional<BatchRecord> Logbook::record(BatchId batch, const ProgressCallback& onProgress) const {
    ReadTransaction moment{state_->file};
    try {
        return Recorder{state_->file, batch, beginningOfTime, &onProgress}.made();
    } catch (const Stopped&) {
        return std::nullopt;
    }
}

}  // namespace midden
