// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>
#include <optional>

#include "core/records/entries.h"

namespace midden::ui {

class Book;

/// Looks at the batch, and at the bin it stands in or stood in last.
void lookAtBatch(Book& book, BatchId batch);

/// Keeps the bin and the batch that the window looks at fit to the book, whoever changes it. They are the book's own
/// `bin` and `batch`; everything that shows or acts on one of them asks there. Made before the screens, so that these
/// find them right when they hear of a change.
class LookedAt : public QObject {
    Q_OBJECT

  public:
    explicit LookedAt(Book& book, QObject* parent = nullptr);

  private:
    void follow();
    void noteChoice();
    std::optional<BatchId> occupantOf(std::optional<BinId> bin) const;
    std::optional<BinId> whereStands(const Batch& batch) const;
    std::optional<BinId> binInUse() const;

    Book& book_;
    bool isCurrent_ = true;  ///< what stands in the bin is looked at, not an older batch
};

}  // namespace midden::ui
