// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/records/batch_record.h"

namespace midden {

std::vector<const Track*> monitoredTracks(const BatchRecord& record) {
    std::vector<const Track*> monitored;
    for (const auto& track : record.tracks) {
        if (!track.spotCheck && !track.samples.empty()) {
            monitored.push_back(&track);
        }
    }
    return monitored;
}

}  // namespace midden
