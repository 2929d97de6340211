// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>
#include <QString>
#include <functional>
#include <optional>

#include "core/quantities/zone.h"
#include "core/store/logbook.h"

class QUndoStack;

namespace midden::ui {

class BatchStatusCache;

/// The open logbook as the screens share it: reads go straight through, every change goes over the undo stack,
/// and everybody hears of it. Also holds which batch and bin the window is looking at.
class Book : public QObject {
    Q_OBJECT

  public:
    /// The clock is handed in so that tests, screenshots and reviews of old books know what time it is.
    using Clock = std::function<Instant()>;
    /// Makes one edit of several; what it gives back names the new entry.
    using Apply = std::function<Applied(const Edit&)>;
    Book(Logbook logbook, TimeZone zone, Clock clock, QObject* parent = nullptr);

    const Logbook& log() const { return logbook_; }
    const TimeZone& zone() const { return zone_; }
    Moment now() const { return zone_.momentAt(clock_()); }
    bool isReadOnly() const { return logbook_.isReadOnly(); }

    /// How the batches stand, worked out once for everybody.
    BatchStatusCache& statusCache() const { return *statusCache_; }

    /// Applies the edit, on disk when it returns. `label` is what Undo will say it undoes.
    /// On failure the person has been told through `troubled`, and nothing has changed.
    bool change(const Edit& edit, const QString& label);
    /// Several edits that stand or fall, and are undone, as one.
    bool changeTogether(const QString& label, const std::function<void(const Apply&)>& work);
    QUndoStack& undoStack() { return *undoStack_; }

    // Settings of the book. The zone and the hand of who types take effect at once.
    QString setting(const Setting& setting) const;
    /// Changes one as a person asked for; `label` is what Undo will say it undoes. False as `change` is.
    /// `name` is a literal: it is kept.
    bool changeSetting(const Setting& setting, const QString& value, const QString& label);
    /// Remembers what was last ticked or chosen, without undo.
    bool setSetting(const Setting& setting, const QString& value);
    /// For what else has no undo: certificates.
    Logbook& writable();

    /// Says `changed` when another program has written to the file since the last look.
    void lookForOutsideChanges();
    /// While this program itself writes to the file beside the window, it is not looked at by what looks now and then.
    void setWatching(bool watching);
    bool isWatching() const { return isWatching_; }

    std::optional<BatchId> batch() const { return batch_; }
    std::optional<BinId> bin() const { return bin_; }
    void lookAt(std::optional<BinId> bin, std::optional<BatchId> batch);

  signals:
    void aboutToWrite();                     ///< whoever reads the file beside the window lets go of it
    void changed();                          ///< an entry was made, amended or withdrawn, here or elsewhere
    void looksAtChanged();                   ///< another batch or bin was chosen
    void told(const QString& sentence);      ///< something went well and is worth a quiet line: "Saved: …"
    void troubled(const QString& sentence);  ///< a change could not be made

  private:
    friend class EditCommand;
    friend class SettingCommand;
    friend class MadeCommand;
    std::optional<QString> replaced(const Setting& setting, const QString& value);
    void takeHand();
    std::vector<Edit> made(const std::function<void(const Apply&)>& work);

    Logbook logbook_;
    TimeZone zoneHere_;  ///< of this machine, for a book that names none
    TimeZone zone_;
    Clock clock_;
    BatchStatusCache* statusCache_;
    QUndoStack* undoStack_;
    std::int64_t seenVersion_ = 0;
    bool isWatching_ = true;
    std::optional<BatchId> batch_;
    std::optional<BinId> bin_;
};

}  // namespace midden::ui
