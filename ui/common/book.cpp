// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/common/book.h"
#include "ui/common/outlooks.h"

#include <QUndoCommand>
#include <QUndoStack>
#include <algorithm>
#include <vector>

#include "ui/copies/copies_words.h"

namespace midden::ui {

/// The one undo command there is: edits already made, and after each step the edits that take them back.
class EditCommand : public QUndoCommand {
  public:
    EditCommand(Book& book, std::vector<Edit> inverses, const QString& label)
        : QUndoCommand{label}, book_{book}, next_{std::move(inverses)} {}

    void redo() override {
        if (isNew_) {
            isNew_ = false;  // push() calls this for what has been made already
            return;
        }
        step(Book::tr("Done again: %1"));
    }
    void undo() override { step(Book::tr("Undone: %1")); }

  private:
    void step(const QString& sentence) {
        try {
            next_ = book_.made([&](const Book::Apply& apply) {
                for (const Edit& edit : next_) {
                    apply(edit);
                }
            });
        } catch (const std::exception& error) {
            setObsolete(true);
            emit book_.troubled(words::sentenceAbout(book_.logbook_.file(), error));
            return;
        }
        emit book_.changed();
        emit book_.told(sentence.arg(text()));
    }

    Book& book_;
    std::vector<Edit> next_;
    bool isNew_ = true;
};

Book::Book(Logbook logbook, TimeZone zone, Clock clock, QObject* parent)
    : QObject{parent},
      logbook_{std::move(logbook)},
      zone_{zone},
      clock_{std::move(clock)},
      outlooks_{new Outlooks{logbook_, this}},
      undoStack_{new QUndoStack{this}},
      seenVersion_{logbook_.dataVersion()} {
    connect(this, &Book::aboutToWrite, outlooks_, &Outlooks::stepAside);
    connect(outlooks_, &Outlooks::troubled, this, &Book::troubled);
    takeHand();
}

/// Makes the edits in one transaction, and gives back those that undo them, in their order.
std::vector<Edit> Book::made(const std::function<void(const Apply&)>& work) {
    std::vector<Edit> inverses;
    std::vector<Touch> touches;
    emit aboutToWrite();
    logbook_.inOneTransaction([&] {
        work([&](const Edit& edit) {
            Applied applied = logbook_.apply(edit);
            inverses.push_back(applied.inverse);
            std::ranges::copy(touchesOf(edit, applied.inverse), std::back_inserter(touches));
            return applied;
        });
    });
    outlooks_->take(touches);
    std::ranges::reverse(inverses);
    return inverses;
}

Logbook& Book::writable() {
    emit aboutToWrite();
    return logbook_;
}

bool Book::change(const Edit& edit, const QString& label) {
    return changeTogether(label, [&](const Apply& apply) { apply(edit); });
}

bool Book::changeTogether(const QString& label, const std::function<void(const Apply&)>& work) {
    std::vector<Edit> inverses;
    try {
        inverses = made(work);
    } catch (const std::exception& error) {
        emit troubled(words::sentenceAbout(logbook_.file(), error));
        return false;
    }
    undoStack_->push(new EditCommand{*this, std::move(inverses), label});
    emit changed();
    emit told(tr("Saved: %1").arg(label));
    return true;
}

QString Book::setting(const char* name, const QString& otherwise) const {
    return QString::fromStdString(logbook_.setting(name, otherwise.toStdString()));
}

bool Book::setSetting(const char* name, const QString& value) {
    try {
        writable().setSetting(name, value.toStdString());
        outlooks_->takeSettings();
    } catch (const std::exception& error) {
        emit troubled(words::sentenceAbout(logbook_.file(), error));
        return false;
    }
    takeHand();
    emit changed();
    return true;
}

/// Whatever the settings say of who types and where the clocks stand.
void Book::takeHand() {
    if (const auto zone = TimeZone::named(logbook_.setting("zone", zone_.name()))) {
        zone_ = *zone;
    }
    logbook_.setHand(logbook_.setting("who"), clock_);
}

void Book::lookForOutsideChanges() {
    if (!isWatching_) {
        return;
    }
    try {
        const std::int64_t version = logbook_.dataVersion();
        if (version == seenVersion_) {
            return;
        }
        seenVersion_ = version;
        outlooks_->takeAnything();
    } catch (const std::exception& error) {
        emit troubled(words::sentenceAbout(logbook_.file(), error));
        return;
    }
    emit changed();
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
