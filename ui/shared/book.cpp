// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shared/book.h"
#include "ui/shared/batch_status_cache.h"

#include <QUndoCommand>
#include <QUndoStack>
#include <algorithm>
#include <optional>
#include <utility>
#include <vector>

#include "ui/shared/copies_words.h"

namespace midden::ui {

/// Something already made: the first redo, which push() calls, has nothing to do.
class MadeCommand : public QUndoCommand {
  public:
    MadeCommand(Book& book, const QString& label) : QUndoCommand{label}, book_{book} {}

    void redo() override {
        if (!isNew_) {
            tell(step(), Book::tr("Done again: %1"));
        }
        isNew_ = false;
    }
    void undo() override { tell(step(), Book::tr("Undone: %1")); }

  protected:
    /// Takes it back, or makes it again: by turns. False when it could not, and the person has been told.
    virtual bool step() = 0;
    Book& book() { return book_; }

  private:
    void tell(bool done, const QString& sentence) {
        setObsolete(!done);
        if (done) {
            emit book_.told(sentence.arg(text()));
        }
    }

    Book& book_;
    bool isNew_ = true;
};

/// Edits already made, and after each step the edits that take them back.
class EditCommand : public MadeCommand {
  public:
    EditCommand(Book& book, std::vector<Edit> inverses, const QString& label)
        : MadeCommand{book, label}, next_{std::move(inverses)} {}

  private:
    bool step() override {
        try {
            next_ = book().made([&](const Book::Apply& apply) {
                for (const Edit& edit : next_) {
                    apply(edit);
                }
            });
        } catch (const std::exception& error) {
            emit book().troubled(words::sentenceAbout(book().logbook_.file(), error));
            return false;
        }
        emit book().changed();
        return true;
    }

    std::vector<Edit> next_;
};

/// A setting already changed, and what it was.
class SettingCommand : public MadeCommand {
  public:
    SettingCommand(Book& book, const Setting& setting, QString before, const QString& label)
        : MadeCommand{book, label}, setting_{setting}, other_{std::move(before)} {}

  private:
    bool step() override {
        const auto before = book().replaced(setting_, other_);
        other_ = before.value_or(other_);
        return before.has_value();
    }

    const Setting& setting_;  ///< of the table
    QString other_;
};

Book::Book(Logbook logbook, TimeZone zone, Clock clock, QObject* parent)
    : QObject{parent},
      logbook_{std::move(logbook)},
      zoneHere_{zone},
      zone_{std::move(zone)},
      clock_{std::move(clock)},
      statusCache_{new BatchStatusCache{logbook_, this}},
      undoStack_{new QUndoStack{this}},
      seenVersion_{logbook_.dataVersion()} {
    connect(this, &Book::aboutToWrite, statusCache_, &BatchStatusCache::releaseFile);
    connect(statusCache_, &BatchStatusCache::troubled, this, &Book::troubled);
    takeHand();
}

/// Makes the edits in one transaction, and gives back those that undo them, in their order.
std::vector<Edit> Book::made(const std::function<void(const Apply&)>& work) {
    std::vector<Edit> inverses;
    std::vector<Invalidation> invalidations;
    emit aboutToWrite();
    logbook_.inOneTransaction([&] {
        work([&](const Edit& edit) {
            Applied applied = logbook_.apply(edit);
            inverses.push_back(applied.inverse);
            std::ranges::copy(invalidationsOf(edit, applied.inverse), std::back_inserter(invalidations));
            return applied;
        });
    });
    statusCache_->take(invalidations);
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

QString Book::setting(const Setting& setting) const {
    return QString::fromStdString(logbook_.setting(setting));
}

/// Stores a setting and gives back what it was; no value when it could not.
std::optional<QString> Book::replaced(const Setting& setting, const QString& value) {
    std::optional<QString> before;
    try {
        before = QString::fromStdString(logbook_.storedSetting(setting).value_or(""));
        writable().setSetting(setting, value.toStdString());
        statusCache_->takeSettings();
    } catch (const std::exception& error) {
        emit troubled(words::sentenceAbout(logbook_.file(), error));
        return std::nullopt;
    }
    takeHand();
    emit changed();
    return before;
}

bool Book::setSetting(const Setting& setting, const QString& value) {
    return replaced(setting, value).has_value();
}

bool Book::changeSetting(const Setting& setting, const QString& value, const QString& label) {
    const auto before = replaced(setting, value);
    if (!before) {
        return false;
    }
    if (value != *before) {
        undoStack_->push(new SettingCommand{*this, setting, *before, label});
    }
    emit told(tr("Saved: %1").arg(label));
    return true;
}

/// Whatever the settings say of who types and where the clocks stand.
void Book::takeHand() {
    const std::string named = logbook_.setting(setting::zone);
    zone_ = named.empty() ? zoneHere_ : TimeZone::named(named).value_or(zone_);
    logbook_.setHand(logbook_.setting(setting::who), clock_);
}

void Book::setWatching(bool watching) {
    isWatching_ = watching;
    statusCache_->setHeld(!watching);
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
        statusCache_->takeAnything();
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
