// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shared/copies_words.h"

#include <QCoreApplication>

#include "core/store/sqlite/second_name.h"
#include "ui/shared/holder.h"
#include "ui/shared/words.h"

namespace midden::ui::words {

namespace {

QString tr(const char* source) {
    return QCoreApplication::translate("copies", source);
}

QString counted(std::int64_t count, const std::string& one, const std::string& many) {
    return QString::number(count) + QLatin1Char{' '} + text(count == 1 ? one : many);
}

QString readings(std::int64_t count) {
    return count == 1 ? tr("1 reading") : tr("%1 readings").arg(count);
}

/// What there is to do about it; empty where the sentence says all.
QString advice(LogbookError::Kind kind) {
    switch (kind) {
        case LogbookError::Kind::full:
            return tr(" Make room on that disk, then enter it again.");
        case LogbookError::Kind::readOnly:
            return tr(
                " Somebody who may change that folder has to allow you to write there, or keep the book elsewhere.");
        case LogbookError::Kind::damaged:
            return tr(
                " Nothing was written to it. Book, Copies and restoring… shows the copies kept, and salvages what "
                "can be read.");
        default:
            return {};
    }
}

}  // namespace

QString fileName(const std::filesystem::path& file) {
    const auto name = file.filename().u8string();
    return QString::fromUtf8(reinterpret_cast<const char*>(name.data()), static_cast<qsizetype>(name.size()));
}

QString fullDayAndTime(Moment moment) {
    return dayAndTime(moment, Moment{{0}, {}});  // seen from another year, the year is told
}

QString noCopies() {
    return tr(
        "This computer keeps no copies of it yet. They are made when a book is closed, and every half hour while "
        "something changes.");
}

QString noCopiesAtAll() {
    return tr("This computer keeps no copies of any logbook yet. They are made when a book is closed.");
}

QString howCopiesAreKept(const QString& bookPath) {
    return tr("%1\nCopies are made when the book is closed and every half hour while something changes; the newest of "
              "the "
              "last 7 days, 8 weeks and 24 months of use are kept.")
        .arg(bookPath);
}

QStringList insideOf(const BookSummary& inside, const TimeZone& zone) {
    QStringList lines;
    if (!inside.group.empty()) {
        lines << text(inside.group);
    }
    lines << (inside.lastReading
                  ? tr("%1, the last on %2")
                        .arg(readings(inside.readings), fullDayAndTime(zone.momentAt(*inside.lastReading)))
                  : tr("No readings"));
    for (const BatchSummary& batch : inside.batches) {
        const QString name = text(batch.name);
        lines << tr("Batch %1: %2, %3")
                     .arg(name, batch.finished ? tr("finished") : tr("running"), readings(batch.readings));
    }
    return lines;
}

QStringList differences(const std::vector<CountDifference>& differences) {
    if (differences.empty()) {
        return {tr("It holds the same as the logbook now.")};
    }
    QStringList ofBook;
    QStringList ofCopy;
    for (const CountDifference& only : differences) {
        if (only.book > 0) {
            ofBook << counted(only.book, only.one, only.many);
        }
        if (only.copy > 0) {
            ofCopy << counted(only.copy, only.one, only.many);
        }
    }
    const QString nothing = tr("nothing");
    return {tr("Only in the logbook now: %1.").arg(ofBook.isEmpty() ? nothing : ofBook.join(QStringLiteral(", "))),
            tr("Only in this copy: %1.").arg(ofCopy.isEmpty() ? nothing : ofCopy.join(QStringLiteral(", ")))};
}

QString sentence(const std::exception& error) {
    QString words = QString::fromUtf8(error.what()).trimmed();
    const auto* refusal = dynamic_cast<const LogbookError*>(&error);
    if (!words.isEmpty() && !words.endsWith(QLatin1Char{'.'})) {
        words += QLatin1Char{'.'};
    }
    const bool saysAll = refusal == nullptr || dynamic_cast<const SecondName*>(refusal) != nullptr;
    return saysAll ? words : words + advice(refusal->kind);
}

QString sentenceAbout(const std::filesystem::path& file, const std::exception& error) {
    const auto* refusal = dynamic_cast<const LogbookError*>(&error);
    const bool busy = refusal != nullptr && refusal->kind == LogbookError::Kind::busy;
    const QString holder = busy ? lockHolder(file) : QString{};
    return holder.isEmpty()
               ? sentence(error)
               : tr("%1 is writing to %2 and has not let go of it; try again in a moment.").arg(holder, fileName(file));
}

}  // namespace midden::ui::words
