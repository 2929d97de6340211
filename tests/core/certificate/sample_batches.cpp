// SPDX-License-Identifier: GPL-3.0-or-later
#include "tests/core/certificate/sample_batches.h"

#include <algorithm>

#include "core/quantities/sha256.h"
#include "core/review/review.h"

namespace midden::testing {

namespace {

const std::vector<std::string> hot{"31.5", "48", "61", "66.5", "67", "65", "63", "61.5", "59", "57", "52", "47", "41"};
const std::vector<std::string> warm{"27", "44.5", "57", "62", "63.5", "61", "60", "58", "56", "55.5", "49", "44", "38"};
const std::vector<std::string> mild{"24", "41", "55", "59.5", "60", "58.5", "57", "56.5", "55", "53", "47", "42", "36"};

Addition added(Moment when, const std::string& material, double kilograms) {
    Addition addition;
    addition.when = when;
    addition.material = material;
    addition.massKilograms = kilograms;
    return addition;
}

Aeration aerated(Moment when, AerationKind kind) {
    Aeration aeration;
    aeration.when = when;
    aeration.kind = kind;
    return aeration;
}

void addOutside(SampleBatch& batch) {
    for (int day = 0; day < 14; ++day) {
        batch.record.outside.emplace_back(at(1, 8).at + days(day),
                                          Celsius::ofTenThousandths(60'000 + day % 5 * 15'000));
    }
}

void furnish(SampleBatch& batch) {
    batch.record.additions = {added(at(1, 8), "kitchen scraps", 14.5), added(at(1, 8, 10), "wood chip", 11),
                              added(at(1, 8, 20), "grass clippings", 9.25), added(at(1, 9), "kitchen scraps", 3)};
    batch.record.aerations = {aerated(at(5, 17, 30), AerationKind::turned), aerated(at(8, 17), AerationKind::turned),
                              aerated(at(9, 8), AerationKind::watered)};
    batch.record.batch.finished = at(14, 9);
    batch.record.finished = at(14, 9).at;
    addOutside(batch);
}

void review(SampleBatch& batch) {
    batch.review = reviewOf(batch.record, {});
    batch.review.mixture = Mixture{37.75, 58.4, 27.6};
}

}  // namespace

Moment at(int day, int hour, int minute) {
    return {instantOf({2026, 3, day, hour, minute, 0}, {}), {}};
}

WrittenReadings SampleBatch::written() const {
    WrittenReadings written{bins, record.probes};
    written.add(readings);
    return written;
}

std::string SampleBatch::canonical() const {
    IssuedFor issuedFor{group, {}};
    for (const auto& judgement : review.criteria) {
        issuedFor.criteria.push_back(judgement.criterion);
    }
    return canonicalHead(issuedFor) + canonicalEntries(record, bins, written());
}

Certificate SampleBatch::certificate(const IssueNote& note) const {
    const auto texts = written();
    auto digested = note;
    digested.digest = sha256(canonical());
    return certificateOf({record, review, bins, texts, group}, digested);
}

SampleBatch sampleBatch(const std::vector<SamplePosition>& positions) {
    SampleBatch batch;
    batch.bins = {{BinId{1}, "North", 600}};
    Probe probe{ProbeId{1}, "Long stem 1"};
    probe.accuracy = Kelvins::ofTenThousandths(5'000);
    batch.record.probes = {probe};
    ThermometerCheck ice;
    ice.probe = probe.id;
    ice.when = at(1, 7);
    ice.read = {4'000};
    batch.record.checks = {ice};
    batch.record.batch.name = "North, March";
    batch.record.batch.started = at(1, 8);
    batch.record.batch.stays = {{at(1, 8).at, BinId{1}}};
    batch.record.binName = "North";
    batch.record.bin = batch.bins.front();
    for (const auto& [name, celsius] : positions) {
        Track track{name};
        for (std::size_t day = 0; day < celsius.size(); ++day) {
            Reading reading;
            reading.place = {BinId{1}, name};
            reading.when = {at(1, 8).at + days(static_cast<std::int64_t>(day)), {}};
            reading.written = parseTemperature(celsius[day], TemperatureUnit::celsius).value();
            reading.probe = probe.id;
            reading.provenance.who = day % 2 == 0 ? "Ann" : "Joseph";
            track.samples.emplace_back(reading.when.at, toCelsius(reading.written), *probe.accuracy);
            batch.readings.push_back(reading);
        }
        batch.record.readings += static_cast<std::int64_t>(celsius.size());
        batch.record.tracks.push_back(std::move(track));
    }
    std::stable_sort(batch.readings.begin(), batch.readings.end(),
                     [](const auto& a, const auto& b) { return a.when.at < b.when.at; });
    review(batch);
    return batch;
}

Criterion sampleTarget() {
    Step step;
    step.threshold = {550'000};
    step.hold = hours(72);
    Criterion target;
    target.id = "target";
    target.title = "the logbook's own target";
    target.jurisdiction = "This logbook";
    target.source.document = "Common practice, no source";
    target.scope = "For any bin.";
    target.alternatives = {{"", {step}}};
    return target;
}

void judgeBy(SampleBatch& batch, const Criterion& rule) {
    batch.review.criteria.push_back(judge(rule, batch.record));
}

SampleBatch shownBatch() {
    auto batch = sampleBatch({{"base", mild}, {"core", hot}, {"side", warm}});
    furnish(batch);
    review(batch);
    judgeBy(batch, sampleTarget());
    return batch;
}

SampleBatch notShownBatch() {
    const std::vector<std::string> cooling{"31.5", "48", "58", "56", "43", "41", "40", "39", "38", "36"};
    auto batch =
        sampleBatch({{"core", cooling}, {"side", {"27", "44", "56", "55", "41", "40", "38", "37", "36", "35"}}});
    furnish(batch);
    for (auto& track : batch.record.tracks) {
        track.samples.erase(track.samples.begin() + 6, track.samples.begin() + 8);
    }
    review(batch);
    batch.record.amendedEntries = batch.review.amendedEntries = 2;
    batch.record.lateEntries = batch.review.lateEntries = 1;
    judgeBy(batch, sampleTarget());
    return batch;
}

SampleBatch withinErrorBatch() {
    auto batch = sampleBatch(
        {{"core", {"40", "55.2", "55.3", "55.4", "55.2", "50"}}, {"side", {"39", "55", "55.1", "55.2", "55", "48"}}});
    furnish(batch);
    review(batch);
    judgeBy(batch, sampleTarget());
    return batch;
}

SampleBatch onePositionBatch() {
    auto batch = sampleBatch({{"core", hot}});
    furnish(batch);
    batch.record.finished.reset();
    batch.record.batch.finished.reset();
    review(batch);
    judgeBy(batch, sampleTarget());
    return batch;
}

SampleBatch longNamesBatch() {
    auto batch =
        sampleBatch({{"core", hot},
                     {"the corner by the water butt, a hand's breadth above the board and behind the ash", warm},
                     {"<b>side</b>\n& \"quotes\" 🌱 堆肥", mild}});
    furnish(batch);
    batch.group =
        "Friends of the Upper and Lower Long Lane Allotments and Community Orchard, Section for Kitchen Waste";
    batch.record.batch.name =
        "First batch of the year in the new insulated bin beside the northern gate, begun with the leaves of last "
        "autumn "
        "and the scraps of eleven households";
    batch.record.additions.clear();
    for (int i = 0; i < 40; ++i) {
        batch.record.additions.push_back(
            added(at(1 + i / 4, 9), "household number " + std::to_string(i % 25) + " with its mixed kitchen scraps",
                  1.25 * i));
    }
    review(batch);
    auto rule = sampleTarget();
    rule.title = std::string(400, 'W') + " and a very long title that will not end for a good while yet";
    judgeBy(batch, rule);
    return batch;
}

SampleBatch manyPositionsBatch() {
    std::vector<SamplePosition> positions;
    for (const auto* name :
         {"base east", "base west", "core", "corner NE", "corner NW", "corner SE", "corner SW", "side", "top"}) {
        positions.push_back({name, positions.size() % 2 == 0 ? warm : hot});
    }
    auto batch = sampleBatch(positions);
    furnish(batch);
    review(batch);
    judgeBy(batch, sampleTarget());
    Criterion rule = sampleTarget();
    rule.id = "any";
    rule.title = "an invented rule of four ways";
    rule.jurisdiction = "Nowhere";
    rule.alternatives.clear();
    for (const int degrees : {70, 65, 60, 55}) {
        Step step;
        step.threshold = {degrees * 10'000};
        step.hold = hours((85 - degrees) * 8);
        step.continuity = Continuity::silent;
        rule.alternatives.push_back({std::to_string(degrees) + " °C", {step}});
    }
    rule.conditions = {{"particles", "Particles of at most 12 mm"}, {"curing", "Followed by adequate curing"}};
    rule.scope = "Written for plants that treat waste from many households, not for a bin in a garden.";
    for (int times = 0; times < 3; ++times) {
        judgeBy(batch, rule);
    }
    return batch;
}

SampleBatch emptyBatch() {
    auto batch = sampleBatch({});
    judgeBy(batch, sampleTarget());
    return batch;
}

}  // namespace midden::testing
