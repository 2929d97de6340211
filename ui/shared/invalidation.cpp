// SPDX-License-Identifier: GPL-3.0-or-later
// Which batches an edit may have changed.
#include <limits>

#include "core/records/edit.h"
#include "ui/shared/batch_status_cache.h"

namespace midden::ui {

namespace {

constexpr Instant always{std::numeric_limits<std::int64_t>::min()};
constexpr Instant never{std::numeric_limits<std::int64_t>::max()};

void add(std::vector<Invalidation>& invalidations, const Reading& reading) {
    invalidations.push_back({.bin = reading.place.bin, .from = reading.when.at, .isReading = true});
}
void add(std::vector<Invalidation>& invalidations, const Addition& addition) {
    invalidations.push_back({.batch = addition.batch, .from = addition.when.at});
}
void add(std::vector<Invalidation>& invalidations, const Aeration& aeration) {
    invalidations.push_back({.batch = aeration.batch, .from = never});  // readings mean the same as before
}
void add(std::vector<Invalidation>& invalidations, const Observation& observation) {
    invalidations.push_back({.batch = observation.batch, .from = never});
}
void add(std::vector<Invalidation>& invalidations, const Harvest& harvest) {
    invalidations.push_back({.batch = harvest.batch, .from = never});
}
void add(std::vector<Invalidation>& invalidations, const ThermometerCheck& /*check*/) {
    invalidations.push_back({.from = always, .isEverything = true});
}
void add(std::vector<Invalidation>& invalidations, const Probe& /*probe*/) {
    invalidations.push_back({.from = always, .isEverything = true});
}
void add(std::vector<Invalidation>& invalidations, const Bin& bin) {
    invalidations.push_back({.bin = bin.id, .from = never});
}
void add(std::vector<Invalidation>& invalidations, const PlaceSetting& place) {
    invalidations.push_back({.bin = place.place.bin, .from = always});
}
void add(std::vector<Invalidation>& invalidations, const Batch& batch) {
    invalidations.push_back({.batch = batch.id, .from = always});
    for (const Stay& stay : batch.stays) {
        invalidations.push_back({.bin = stay.bin, .from = always});
    }
}

struct Adder {
    std::vector<Invalidation>& invalidations;

    template <class Entry>
    void operator()(const Put<Entry>& edit) const {
        add(invalidations, edit.entry);
    }
    template <class Entry>
    void operator()(const Amend<Entry>& edit) const {
        add(invalidations, edit.entry);
    }
    /// What it takes back stands in its inverse.
    template <class Entry>
    void operator()(const Withdraw<Entry>& /*edit*/) const {}
};

}  // namespace

std::vector<Invalidation> invalidationsOf(const Edit& edit, const Edit& inverse) {
    std::vector<Invalidation> invalidations;
    std::visit(Adder{invalidations}, edit);
    std::visit(Adder{invalidations}, inverse);
    return invalidations;
}

}  // namespace midden::ui
