// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shared/looked_at.h"

#include "ui/shared/book.h"
#include "ui/shared/copies_words.h"

namespace midden::ui {

namespace {

void tell(Book& book, const std::exception& error) {
    emit book.troubled(words::sentenceAbout(book.log().file(), error));
}

}  // namespace

void lookAtBatch(Book& book, BatchId batch) {
    try {
        const auto chosen = book.log().batch(batch);
        if (chosen && !chosen->stays.empty()) {
            book.lookAt(chosen->stays.back().bin, batch);
        }
    } catch (const std::exception& error) {
        tell(book, error);
    }
}

LookedAt::LookedAt(Book& book, QObject* parent) : QObject{parent}, book_{book} {
    connect(&book, &Book::changed, this, &LookedAt::follow);
    connect(&book, &Book::looksAtChanged, this, &LookedAt::noteChoice);
    noteChoice();
    follow();
}

/// While another program holds the file it cannot be asked: then what was chosen stays.
void LookedAt::noteChoice() {
    try {
        isCurrent_ = !book_.batch() || occupantOf(book_.bin()) == book_.batch();
    } catch (const std::exception&) {
        isCurrent_ = false;
    }
}

/// Goes with a batch that stands to the bin where it stands now. Where it has left, what stands in the bin is looked at
/// instead; an older batch, chosen to be read, stays chosen as long as the book has it.
void LookedAt::follow() {
    try {
        const auto batch = book_.batch() ? book_.log().batch(*book_.batch()) : std::nullopt;
        if (batch && !isCurrent_) {
            return;
        }
        if (const auto bin = batch ? whereStands(*batch) : std::nullopt) {
            book_.lookAt(bin, batch->id);
            return;
        }
        const auto bin = binInUse();
        book_.lookAt(bin, occupantOf(bin));
    } catch (const std::exception& error) {
        tell(book_, error);
    }
}

std::optional<BatchId> LookedAt::occupantOf(std::optional<BinId> bin) const {
    return bin ? book_.log().occupant(*bin, book_.now().at) : std::nullopt;
}

/// No value: it is finished, or another batch took its bin.
std::optional<BinId> LookedAt::whereStands(const Batch& batch) const {
    for (const Stay& stay : batch.stays) {
        if (occupantOf(stay.bin) == batch.id) {
            return stay.bin;
        }
    }
    return std::nullopt;
}

/// The bin that is looked at, or the first one where that is out of use.
std::optional<BinId> LookedAt::binInUse() const {
    std::optional<BinId> first;
    for (const Bin& bin : book_.log().bins()) {
        if (!bin.retired && bin.id == book_.bin()) {
            return bin.id;
        }
        first = bin.retired || first ? first : std::optional{bin.id};
    }
    return first;
}

}  // namespace midden::ui
