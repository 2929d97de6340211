// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QObject>
#include <QString>
#include <filesystem>
#include <functional>

#include "core/quantities/time.h"

class QThread;
class QTimer;

namespace midden::ui {

/// Where this computer keeps the copies of its books: the user's data folder.
std::filesystem::path copiesPlace();

/// Keeps copies of the open book: now and then while it changes, and a last one when it is closed. The copying itself
/// is done beside the thread of the window.
class CopyKeeper : public QObject {
    Q_OBJECT

  public:
    using Clock = std::function<Instant()>;
    CopyKeeper(std::filesystem::path book, std::filesystem::path folder, Clock clock, QObject* parent = nullptr);
    CopyKeeper(const CopyKeeper&) = delete;
    CopyKeeper& operator=(const CopyKeeper&) = delete;
    /// Waits for a copy under way.
    ~CopyKeeper() override;

    const std::filesystem::path& folder() const { return folder_; }
    void setEvery(int milliseconds);
    /// The book holds something that no copy has.
    void noteChange() { changed_ = true; }
    /// Starts a copy if there is anything new to copy.
    void copyNow();
    /// The same, and comes back once it is made. Empty when all is well, else what went wrong in words.
    QString copyAndWait();

  signals:
    void kept();
    void troubled(const QString& sentence);

  private:
    void done(const QString& trouble);
    void waitForCopy();

    std::filesystem::path book_;
    std::filesystem::path folder_;
    Clock clock_;
    QTimer* schedule_;
    QThread* copying_ = nullptr;
    QString trouble_;      ///< of the copy under way or the last one
    bool changed_ = true;  ///< what was written before this program opened the book may be new to the copies, too
};

}  // namespace midden::ui
