// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QAbstractTableModel>
#include <array>

#include "ui/history/entry_row.h"

namespace midden::ui {

class Book;

/// A line as it is found again after the book has changed.
struct EntryMark {
    EntryKey key;
    std::optional<Amendment> amendment;  ///< of a line that is an amendment itself
    bool isInForce = true;               ///< the entry was in the book, not withdrawn
};

/// The entries of a batch, newest first. Readings are fetched a page at a time, so that a batch of ten million is as
/// quick as one of a hundred.
class EntriesModel : public QAbstractTableModel {
    Q_OBJECT

  public:
    enum Column { when, what, where, typed, corrected, who, note, columns };
    enum Role { wasRole = Qt::UserRole, lateRole, kindRole };

    explicit EntriesModel(Book& book, QObject* parent = nullptr);

    void show(LoadedPtr batch);
    void showKind(RowKind kind, bool shown);
    bool showsKind(RowKind kind) const { return kinds_[static_cast<std::size_t>(kind)]; }
    const EntryRow& row(int index) const { return rows_[static_cast<std::size_t>(index)]; }
    /// Fetches as far back as needed; −1 when there is no such reading. A page that lies far back is begun there.
    int rowOf(ReadingSpot spot);
    std::optional<ReadingSpot> spotOfRow(int index) const;
    EntryMark markOf(int index) const;
    /// Where the entry stands now, wherever it was moved to, or where it stands struck through. Fetches as far back as
    /// needed; −1 when it is not shown.
    int rowOf(const EntryMark& mark);
    /// The newest line no later than that, or the last; −1 when there is none.
    int firstNotAfter(Instant at) const;
    /// The entry with its kind, place, value and time, as a question about it names it:
    /// "the reading 61.5 °C of North, core, Tue 3 Mar 2026 08:10".
    QString named(int index) const;
    std::optional<BatchId> batch() const;

    /// What is wrong with a new value for a cell, in words; empty = it would be taken.
    QString refusal(const QModelIndex& index, const QString& text) const;
    /// Amends the entry; false when it was refused or nothing has changed.
    bool amend(const QModelIndex& index, const QString& text, const QString& why);
    bool withdraw(int index, const QString& why);
    bool canChange(int index) const;

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role) const override;
    Qt::ItemFlags flags(const QModelIndex& index) const override;
    bool canFetchMore(const QModelIndex& parent) const override;
    void fetchMore(const QModelIndex& parent) override;

  private:
    QString display(const EntryRow& row, int column) const;
    QString forEditing(const EntryRow& row, int column) const;
    QString spoken(const EntryRow& row, int column) const;
    void restart(Instant newest);
    void reveal(Instant at);
    EntryKey nowKnownAs(EntryKey key) const;
    std::optional<Instant> instantOf(const EntryKey& key) const;
    const Amendment* newestOf(const EntryKey& key) const;
    QString binAt(const EntryRow& row) const;
    std::vector<EntryRow> nextPage();

    Book& book_;
    TemperatureUnit unit_ = TemperatureUnit::celsius;
    LoadedPtr batch_;
    std::array<bool, rowKinds> kinds_{};
    std::vector<Amendment> amendments_;
    std::vector<EntryRow> others_;  ///< not readings
    std::vector<EntryRow> rows_;
    Instant fetchedBackTo_;  ///< rows from here on are shown
    Instant oldest_;
};

}  // namespace midden::ui
