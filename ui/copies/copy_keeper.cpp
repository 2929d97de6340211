// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/copies/copy_keeper.h"

#include <QFileInfo>
#include <QStandardPaths>
#include <QThread>
#include <QTimer>

#include "core/store/care/copies.h"
#include "core/store/logbook.h"

namespace midden::ui {

namespace {

constexpr int halfAnHour = 30 * 60 * 1'000;

QString nameOf(const std::filesystem::path& file) {
    const auto name = file.filename().u8string();
    return QString::fromUtf8(reinterpret_cast<const char*>(name.data()), static_cast<qsizetype>(name.size()));
}

QString reasonOf(const LogbookError& error) {
    switch (error.kind) {
        case LogbookError::Kind::full:
            return CopyKeeper::tr("there is no space left on the disk that holds your own files");
        case LogbookError::Kind::readOnly:
            return CopyKeeper::tr("the folder for your copies cannot be written to");
        case LogbookError::Kind::busy:
            return CopyKeeper::tr("another program was writing to it all the while");
        case LogbookError::Kind::damaged:
            return CopyKeeper::tr("parts of the book cannot be read; choose Book, Copies and restoring…");
        case LogbookError::Kind::absent:
            return CopyKeeper::tr("the file is no longer where it was");
        default:
            return QString::fromUtf8(error.what());
    }
}

/// Empty when the copy is made, or not needed.
QString copied(const std::filesystem::path& book, const std::filesystem::path& folder, Instant now) {
    QString reason;
    try {
        keepCopy(book, folder, now);
        return {};
    } catch (const LogbookError& error) {
        reason = reasonOf(error);
    } catch (const std::exception& error) {
        reason = QString::fromUtf8(error.what());
    }
    return CopyKeeper::tr("No copy of %1 was made just now: %2. The copies made before are untouched.")
        .arg(nameOf(book), reason);
}

}  // namespace

std::filesystem::path copiesPlace() {
    return (QStandardPaths::writableLocation(QStandardPaths::AppDataLocation) + QStringLiteral("/copies"))
        .toStdString();
}

CopyKeeper::CopyKeeper(std::filesystem::path book, std::filesystem::path folder, Clock clock, QObject* parent)
    : QObject{parent},
      book_{std::move(book)},
      folder_{std::move(folder)},
      clock_{std::move(clock)},
      schedule_{new QTimer{this}} {
    connect(schedule_, &QTimer::timeout, this, &CopyKeeper::copyNow);
    schedule_->start(halfAnHour);
}

CopyKeeper::~CopyKeeper() {
    waitForCopy();
}

void CopyKeeper::setEvery(int milliseconds) {
    schedule_->start(milliseconds);
}

void CopyKeeper::copyNow() {
    if (!changed_ || copying_ != nullptr) {
        return;
    }
    changed_ = false;
    copying_ = QThread::create([this, now = clock_()] { trouble_ = copied(book_, folder_, now); });
    connect(copying_, &QThread::finished, this, [this, thread = copying_] {
        if (copying_ == thread) {
            waitForCopy();
            done(trouble_);
        }
    });
    copying_->start(QThread::LowPriority);
}

void CopyKeeper::done(const QString& trouble) {
    if (trouble.isEmpty()) {
        emit kept();
        return;
    }
    emit troubled(trouble);
}

void CopyKeeper::waitForCopy() {
    if (copying_ != nullptr) {
        copying_->wait();
        copying_->deleteLater();
        copying_ = nullptr;
        changed_ = changed_ || !trouble_.isEmpty();
    }
}

QString CopyKeeper::copyAndWait() {
    waitForCopy();
    copyNow();
    const bool copying = copying_ != nullptr;
    waitForCopy();
    return copying ? trouble_ : QString{};
}

}  // namespace midden::ui
