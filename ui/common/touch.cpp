// SPDX-License-Identifier: GPL-3.0-or-later
// Which batches an edit may have changed.
#include <limits>

#include "core/logbook/edit.h"
#include "ui/common/outlooks.h"

namespace midden::ui {

namespace {

constexpr Instant always{std::numeric_limits<std::int64_t>::min()};
constexpr Instant never{std::numeric_limits<std::int64_t>::max()};

void add(std::vector<Touch>& touches, const Reading& reading) {
    touches.push_back({.bin = reading.place.bin, .from = reading.when.at, .isReading = true});
}
void add(std::vector<Touch>& touches, const Addition& addition) {
    touches.push_back({.batch = addition.batch, .from = addition.when.at});
}
void add(std::vector<Touch>& touches, const Aeration& aeration) {
    touches.push_back({.batch = aeration.batch, .from = never});  // readings mean the same as before
}
void add(std::vector<Touch>& touches, const Observation& observation) {
    touches.push_back({.batch = observation.batch, .from = never});
}
void add(std::vector<Touch>& touches, const ThermometerCheck& /*check*/) {
    touches.push_back({.from = always, .isEverything = true});
}
void add(std::vector<Touch>& touches, const Probe& /*probe*/) {
    touches.push_back({.from = always, .isEverything = true});
}
void add(std::vector<Touch>& touches, const Bin& bin) {
    touches.push_back({.bin = bin.id, .from = never});
}
void add(std::vector<Touch>& touches, const PlaceSetting& place) {
    touches.push_back({.bin = place.place.bin, .from = always});
}
void add(std::vector<Touch>& touches, const Batch& batch) {
    touches.push_back({.batch = batch.id, .from = always});
    for (const Stay& stay : batch.stays) {
        touches.push_back({.bin = stay.bin, .from = always});
    }
}

struct Adder {
    std::vector<Touch>& touches;

    template <class Entry>
    void operator()(const Put<Entry>& edit) const {
        add(touches, edit.entry);
    }
    template <class Entry>
    void operator()(const Amend<Entry>& edit) const {
        add(touches, edit.entry);
    }
    /// What it takes back stands in its inverse.
    template <class Entry>
    void operator()(const Withdraw<Entry>& /*edit*/) const {}
};

}  // namespace

std::vector<Touch> touchesOf(const Edit& edit, const Edit& inverse) {
    std::vector<Touch> touches;
    std::visit(Adder{touches}, edit);
    std::visit(Adder{touches}, inverse);
    return touches;
}

}  // namespace midden::ui
