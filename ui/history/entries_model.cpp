// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/history/entries_model.h"

#include <QFont>
#include <algorithm>

#include "ui/chart/entry_words.h"
#include "ui/history/amending.h"
#include "ui/shared/bin_summary.h"
#include "ui/shared/book.h"
#include "ui/shared/typed.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

constexpr std::size_t pageSize = 400;
/// Further back than this many readings, a page is begun at the reading itself.
constexpr std::size_t longScroll = 4'000;

std::size_t before(const std::vector<Sample>& samples, Instant at) {
    const auto found = std::ranges::lower_bound(samples, at, {}, [](const Sample& sample) { return sample.at; });
    return static_cast<std::size_t>(found - samples.begin());
}

/// From which instant on about a page of readings lies before `end`.
Instant pageStart(const BatchRecord& record, Instant end, Instant oldest) {
    std::optional<Instant> start;
    const std::size_t share = pageSize / (record.tracks.size() + 1) + 1;
    const auto look = [&](const std::vector<Sample>& samples) {
        const std::size_t count = before(samples, end);
        if (count > share) {
            const Instant at = samples[count - share].at;
            start = std::max(start.value_or(at), at);
        }
    };
    for (const Track& track : record.tracks) {
        look(track.samples);
    }
    look(record.outside);
    return start.value_or(oldest);
}

EntryField fieldOf(int column) {
    return column == EntriesModel::when    ? EntryField::when
           : column == EntriesModel::typed ? EntryField::value
                                           : EntryField::note;
}

}  // namespace

EntriesModel::EntriesModel(Book& book, QObject* parent) : QAbstractTableModel{parent}, book_{book} {
    kinds_.fill(true);
}

void EntriesModel::show(LoadedPtr batch) {
    batch_ = std::move(batch);
    unit_ = unitOf(book_.log());
    amendments_.clear();
    others_.clear();
    if (batch_) {
        amendments_ = book_.log().amendments(batch_->record.batch.id);
        others_ = otherRows(book_.log(), *batch_, amendments_);
        restart(wholeBatch(batch_->record).to);
    } else {
        beginResetModel();
        rows_.clear();
        endResetModel();
    }
}

void EntriesModel::showKind(RowKind kind, bool shown) {
    kinds_[static_cast<std::size_t>(kind)] = shown;
    if (batch_) {
        restart(wholeBatch(batch_->record).to);
    }
}

void EntriesModel::restart(Instant newest) {
    beginResetModel();
    rows_.clear();
    oldest_ = wholeBatch(batch_->record).from;
    for (const Sample& sample : batch_->record.outside) {
        oldest_ = std::min(oldest_, sample.at);
        break;
    }
    for (const EntryRow& row : others_) {
        oldest_ = std::min(oldest_, row.when.at);
        newest = std::max(newest, row.when.at + Seconds{1});
    }
    if (!batch_->record.outside.empty()) {
        newest = std::max(newest, batch_->record.outside.back().at + Seconds{1});
    }
    fetchedBackTo_ = newest;
    rows_ = nextPage();
    endResetModel();
}

/// The rows of the page before what is shown, all kinds merged; moves `fetchedBackTo_`.
std::vector<EntryRow> EntriesModel::nextPage() {
    const bool readings = showsKind(RowKind::reading) || showsKind(RowKind::outside);
    const Instant start = readings ? pageStart(batch_->record, fetchedBackTo_, oldest_) : oldest_;
    const Interval page{start, fetchedBackTo_};
    std::vector<EntryRow> rows;
    if (readings) {
        rows = readingRows(book_.log(), *batch_, page, amendments_);
    }
    for (const EntryRow& row : others_) {
        if (row.when.at >= page.from && row.when.at < page.to) {
            rows.push_back(row);
        }
    }
    std::erase_if(rows, [&](const EntryRow& row) { return !showsKind(row.kind); });
    std::ranges::stable_sort(rows, std::ranges::greater{}, [](const EntryRow& row) { return row.when.at; });
    fetchedBackTo_ = start;
    return rows;
}

bool EntriesModel::canFetchMore(const QModelIndex& parent) const {
    return !parent.isValid() && batch_ && fetchedBackTo_ > oldest_;
}

void EntriesModel::fetchMore(const QModelIndex& parent) {
    if (!canFetchMore(parent)) {
        return;
    }
    std::vector<EntryRow> page = nextPage();
    if (page.empty()) {
        return;
    }
    const int first = rowCount();
    beginInsertRows({}, first, first + static_cast<int>(page.size()) - 1);
    std::ranges::move(page, std::back_inserter(rows_));
    endInsertRows();
}

/// Fetches as far back as that instant. A page that lies far back is begun there.
void EntriesModel::reveal(Instant at) {
    std::size_t between = 0;
    for (const Track& track : batch_->record.tracks) {
        const std::size_t shown = before(track.samples, fetchedBackTo_);
        between = std::max(between, shown - std::min(shown, before(track.samples, at)));
    }
    const bool newerThanShown = !rows_.empty() && at > rows_.front().when.at;
    if (newerThanShown || (at < fetchedBackTo_ && between > longScroll)) {
        restart(at + Seconds{1});
    }
    while (at < fetchedBackTo_ && canFetchMore({})) {
        fetchMore({});
    }
}

int EntriesModel::rowOf(ReadingSpot spot) {
    if (!batch_ || !showsKind(RowKind::reading)) {
        return -1;
    }
    reveal(batch_->record.tracks[spot.track].samples[spot.sample].at);
    for (int i = 0; i < rowCount(); ++i) {
        if (spotOfRow(i) == spot) {
            return i;
        }
    }
    return -1;
}

std::optional<ReadingSpot> EntriesModel::spotOfRow(int index) const {
    const EntryRow& entry = row(index);
    if (entry.kind != RowKind::reading) {
        return {};
    }
    const auto& reading = std::get<Reading>(entry.entry);
    return spotOf(*batch_, reading.place.position, reading.when.at);
}

QString EntriesModel::refusal(const QModelIndex& index, const QString& text) const {
    const auto edit = amendmentOf(row(index.row()), fieldOf(index.column()), text, {book_.zone(), unit_, book_.now()});
    return edit ? QString{} : words::text(edit.error().sentence());
}

bool EntriesModel::amend(const QModelIndex& index, const QString& text, const QString& why) {
    if (text == forEditing(row(index.row()), index.column())) {
        return false;
    }
    const auto edit = amendmentOf(row(index.row()), fieldOf(index.column()), text, {book_.zone(), unit_, book_.now()});
    return edit && book_.change(withWhy(*edit, why), tr("amending an entry"));
}

bool EntriesModel::withdraw(int index, const QString& why) {
    const auto edit = withdrawalOf(row(index), why);
    return edit && book_.change(*edit, tr("withdrawing an entry"));
}

bool EntriesModel::canChange(int index) const {
    return row(index).kind != RowKind::amendment && !book_.isReadOnly();
}

int EntriesModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(rows_.size());
}

int EntriesModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : columns;
}

}  // namespace midden::ui
