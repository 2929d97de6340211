// SPDX-License-Identifier: GPL-3.0-or-later
// Copies of one book, and everything they hold as text.
#pragma once

#include <algorithm>

#include "tests/core/store/random_season.h"

namespace midden::trial {

/// A book and a copy of it that went home with another steward.
struct Stewards {
    Stewards() {
        auto first = Logbook::open(folder / "ada.midden", Logbook::Mode::createIfAbsent);
        const auto bin = putBin(first, "North");
        putBatch(first, bin, "spring", 0);
        putReading(first, bin, "core", 1, 55);
        first.apply(Put<Addition>{additionTo(first.batchNamed("spring")->id, 0, "straw", 1)});
        first.backUpTo(folder / "grace.midden");
    }

    Logbook ada() const { return at("ada", 70); }
    Logbook grace() const { return at("grace", 80); }
    Logbook at(const std::string& name, double hours) const {
        auto book = Logbook::open(folder / (name + ".midden"), Logbook::Mode::readWrite);
        book.setHand(name, [hours] { return trial::at(hours).at; });
        return book;
    }

    Folder folder;
};

/// What the amendments say, whatever their numbers and order.
inline std::vector<std::string> amendmentsIn(const Logbook& book) {
    std::vector<std::string> texts;
    for (const Batch& batch : book.batches()) {
        for (const Amendment& one : book.amendments(batch.id)) {
            texts.push_back(fmt::format("{} {} {}: {} -> {} {} {} {} {}", batch.name, static_cast<int>(one.kind),
                                        one.subject, one.was, one.became, one.at.utcSeconds, one.amended.utcSeconds,
                                        one.who, one.why));
        }
    }
    std::sort(texts.begin(), texts.end());
    return texts;
}

inline std::string everything(const Logbook& book) {
    std::string text = textOf(book);
    for (const auto& amendment : amendmentsIn(book)) {
        text += amendment + "\n";
    }
    return text;
}

}  // namespace midden::trial
