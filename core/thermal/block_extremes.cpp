// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/thermal/block_extremes.h"

namespace midden {

namespace {

void widen(Extremes& extremes, const Extremes& more) {
    extremes.lowest = std::min(extremes.lowest, more.lowest);
    extremes.highest = std::max(extremes.highest, more.highest);
    extremes.mostAllowance = std::max(extremes.mostAllowance, more.mostAllowance);
    extremes.longestGap = std::max(extremes.longestGap, more.longestGap);
}

Extremes extremesOf(std::span<const Sample> samples) {
    const auto& first = samples.front();
    Extremes extremes{first.temperature(), first.temperature(), first.allowance(), {}};
    for (std::size_t i = 1; i < samples.size(); ++i) {
        const auto& sample = samples[i];
        widen(extremes,
              {sample.temperature(), sample.temperature(), sample.allowance(), sample.at - samples[i - 1].at});
    }
    return extremes;
}

}  // namespace

BlockExtremes::BlockExtremes(std::span<const Sample> samples) : samples_{samples} {
    const auto intervals = samples.empty() ? 0 : samples.size() - 1;
    blocks_.reserve((intervals + blockLength - 1) / blockLength);
    for (std::size_t block = 0; block * blockLength < intervals; ++block) {
        blocks_.push_back(midden::extremesOf(samplesOf(block)));
    }
}

Extremes BlockExtremes::extremesOf(std::size_t first, std::size_t count) const {
    const auto last = first + count - 1;
    const auto fullFrom = (first + blockLength - 1) / blockLength;
    const auto fullTo = last / blockLength;
    if (fullFrom >= fullTo) {
        return midden::extremesOf(samples_.subspan(first, count));
    }
    auto extremes = midden::extremesOf(samples_.subspan(first, fullFrom * blockLength - first + 1));
    for (auto block = fullFrom; block < fullTo; ++block) {
        widen(extremes, blocks_[block]);
    }
    widen(extremes, midden::extremesOf(samples_.subspan(fullTo * blockLength, last - fullTo * blockLength + 1)));
    return extremes;
}

std::vector<Monitored> monitoredPositions(const BatchRecord& record) {
    std::vector<Monitored> positions;
    for (const Track* track : monitoredTracks(record)) {
        positions.push_back({track->position, BlockExtremes{track->samples}});
    }
    return positions;
}

}  // namespace midden
