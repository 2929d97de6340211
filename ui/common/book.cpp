// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/common/book.h"

#include <QUndoCommand>
#include <QUndoStack>

namespace midden::ui {

/// The one undo command there is: an edit, and after each step the edit that takes it back.
class EditCommand : public QUndoCommand {
  public:
    EditCommand(Book& book, Edit edit, const QString& label)
        : QUndoCommand{label}, book_{book}, next_{std::move(edit)} {}

    void redo() override { step(); }
    void undo() override { step(); }

  private:
    void step() {
        try {
            next_ = book_.logbook_.apply(next_).inverse;
            emit book_.changed();
        } catch (const LogbookError& error) {
            setObsolete(true);
            emit book_.troubled(QString::fromUtf8(error.what()));
        }
    }

    Book& book_;
    Edit next_;
};

Book::Book(Logbook logbook, TimeZone zone, Clock clock, QObject* parent)
    : QObject{parent},
      logbook_{std::move(logbook)},
      zone_{zone},
      clock_{std::move(clock)},
      undoStack_{new QUndoStack{this}} {}

bool Book::change(const Edit& edit, const QString& label) {
    auto* command = new EditCommand{*this, edit, label};
    const int before = undoStack_->index();
    undoStack_->push(command);
    return undoStack_->index() > before;
}

void Book::lookAt(std::optional<BinId> bin, std::optional<BatchId> batch) {
    if (bin == bin_ && batch == batch_) {
        return;
    }
    bin_ = bin;
    batch_ = batch;
    emit looksAtChanged();
}

}  // namespace midden::ui
