// SPDX-License-Identifier: GPL-3.0-or-later
// A book in a file of its own, filled from an invented record.
#pragma once

#include <QTemporaryDir>
#include <memory>

#include "core/store/logbook.h"
#include "ui/shared/book.h"

namespace midden::testing {

/// Stands for as long as the test case; the file goes with it.
class MadeBook {
  public:
    explicit MadeBook(const BatchRecord& record, Instant now)
        : book_{std::make_unique<ui::Book>(Logbook::open(folder_.filePath(QStringLiteral("made.midden")).toStdString(),
                                                         Logbook::Mode::createIfAbsent),
                                           *TimeZone::named("Europe/London"), [now] { return now; })} {
        fill(record);
    }
    ui::Book& operator*() { return *book_; }
    ui::Book* operator->() { return book_.get(); }

  private:
    void fill(const BatchRecord& record) {
        Logbook& log = book_->writable();
        const auto bin = std::get<BinId>(log.apply(Put<Bin>{record.bin}).id);
        Batch batch = record.batch;
        batch.stays = {{batch.started.at, bin}};
        const auto id = std::get<BatchId>(log.apply(Put<Batch>{batch}).id);
        for (const Track& track : record.tracks) {
            if (track.heightCentimetres) {
                log.apply(Put<PlaceSetting>{{{bin, track.position}, track.spotCheck, track.heightCentimetres}});
            }
            addTrack(log, {bin, track.position}, track.samples);
        }
        addTrack(log, {bin, ""}, record.outside);
        const auto put = [&](auto entry) {
            entry.batch = id;
            log.apply(Put<decltype(entry)>{entry});
        };
        for (const Addition& addition : record.additions) {
            put(addition);
        }
        for (const Aeration& aeration : record.aerations) {
            put(aeration);
        }
        for (const Observation& observation : record.observations) {
            put(observation);
        }
        for (const Harvest& harvest : record.harvests) {
            put(harvest);
        }
        book_->lookAt(bin, id);
    }

    static void addTrack(Logbook& log, const Place& place, const std::vector<Sample>& samples) {
        std::vector<RawReading> raw;
        raw.reserve(samples.size());
        for (const Sample& sample : samples) {
            raw.push_back({sample.at, static_cast<std::int32_t>(sample.temperature().parts() / 9)});
        }
        log.addReadings({place, {}, TemperatureUnit::celsius, {}, Source::typed, "Ada"}, raw);
    }

    QTemporaryDir folder_;
    std::unique_ptr<ui::Book> book_;
};

}  // namespace midden::testing
