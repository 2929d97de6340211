// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/review/season.h"

#include <algorithm>
#include <charconv>
#include <map>

namespace midden {

namespace {

constexpr std::string_view targetId = "target";

bool keptFromCollection(const Material* material) {
    return material != nullptr && (material->isKitchenWaste() || material->group == "garden");
}

Instant lastEntry(const BatchRecord& record) {
    Instant last = record.batch.started.at;
    const auto reach = [&](Instant at) { last = std::max(last, at); };
    for (const auto& track : record.tracks) {
        reach(track.samples.back().at);
    }
    if (!record.additions.empty()) {
        reach(record.additions.back().when.at);
    }
    if (!record.aerations.empty()) {
        reach(record.aerations.back().when.at);
    }
    return last;
}

std::optional<double> screenedOut(const BatchRecord& record) {
    std::optional<double> sum;
    for (const auto& observation : record.observations) {
        const auto mass =
            observation.kind == ObservationKind::screening ? kilogramsIn(observation.value) : std::nullopt;
        if (mass) {
            sum = sum.value_or(0) + *mass;
        }
    }
    return sum;
}

void weigh(const BatchRecord& record, const Materials& materials, SeasonBatch& batch) {
    for (const auto& addition : record.additions) {
        const double mass = addition.massKilograms;
        batch.materialKilograms += mass;
        const Material* material = materials.find(addition);
        batch.wasteKilograms += keptFromCollection(material) ? mass : 0;
        batch.kitchenKilograms += material != nullptr && material->isKitchenWaste() ? mass : 0;
    }
    batch.compostKilograms = screenedOut(record);
}

void add(const SeasonBatch& batch, SeasonSum& sum) {
    ++sum.batches;
    sum.shown += batch.target == Verdict::shown ? 1 : 0;
    sum.stalls += batch.stalls;
    sum.longestRun = std::max(sum.longestRun, batch.longestRun);
    sum.materialKilograms += batch.materialKilograms;
    sum.wasteKilograms += batch.wasteKilograms;
    sum.kitchenKilograms += batch.kitchenKilograms;
    if (batch.compostKilograms) {
        sum.compostKilograms = sum.compostKilograms.value_or(0) + *batch.compostKilograms;
    }
}

}  // namespace

std::optional<double> kilogramsIn(std::string_view written) {
    std::string text{written};
    std::erase(text, ' ');
    if (!text.ends_with("kg")) {
        return {};
    }
    text.resize(text.size() - 2);
    std::replace(text.begin(), text.end(), ',', '.');
    double mass = 0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), mass, std::chars_format::fixed);
    const bool whole = error == std::errc{} && end == text.data() + text.size();
    return whole && mass >= 0 ? std::optional{mass} : std::nullopt;
}

SeasonBatch seasonBatchOf(const BatchRecord& record, const BatchReview& review, const Materials& materials) {
    SeasonBatch batch{.id = record.batch.id, .name = review.batch, .bin = review.bin};
    batch.finished = record.finished.has_value();
    batch.fed = record.batch.fed;
    const Instant last = record.finished.value_or(lastEntry(record));
    batch.stood = {record.batch.started.at, std::max(last, record.batch.started.at + Seconds{1})};
    if (!review.thresholds.empty()) {
        batch.windows = review.thresholds.front().windows;
    }
    const auto target = std::find_if(review.criteria.begin(), review.criteria.end(),
                                     [](const Judgement& judgement) { return judgement.criterion.id == targetId; });
    if (target != review.criteria.end()) {
        batch.target = target->verdict;
        batch.longestRun = target->credited;
    }
    batch.peak = review.peak;
    batch.stalls = std::count_if(review.stalls.begin(), review.stalls.end(),
                                 [](const Stall& stall) { return stall.kind != StallKind::handlingDip; });
    weigh(record, materials, batch);
    return batch;
}

std::vector<SeasonSum> sumsOf(std::span<const SeasonBatch> batches) {
    std::map<std::string, SeasonSum> byBin;
    SeasonSum all;
    for (const auto& batch : batches) {
        auto& sum = byBin[batch.bin];
        sum.bin = batch.bin;
        add(batch, sum);
        add(batch, all);
    }
    std::vector<SeasonSum> sums;
    sums.reserve(byBin.size() + 1);
    for (auto& [bin, sum] : byBin) {
        sums.push_back(std::move(sum));
    }
    if (!sums.empty()) {
        sums.push_back(std::move(all));
    }
    return sums;
}

}  // namespace midden
