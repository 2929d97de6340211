// SPDX-License-Identifier: GPL-3.0-or-later
// The History of a made book, and hands to use it with.
#pragma once

#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTableView>
#include <QTest>
#include <QUndoStack>
#include <catch2/catch.hpp>

#include "tests/ui/support/made_batch.h"
#include "tests/ui/support/made_book.h"
#include "tests/ui/support/qt_support.h"
#include "ui/history/entries_model.h"
#include "ui/history/entries_part.h"
#include "ui/history/history_screen.h"

namespace midden::testing {

/// The screen of a made book, shown and loaded.
struct Opened {
    explicit Opened(const BatchRecord& record, QSize size = {1'200, 800})
        : book{record, afterHours(24 * 70)}, screen{*book} {
        screen.resize(size);
        screen.show();
        settle();
    }
    /// What was closed is gone, and what was changed is shown.
    void settle() {
        REQUIRE(waitUntil([&] { return !screen.isLoading(); }));
        QCoreApplication::processEvents();
        QCoreApplication::sendPostedEvents(nullptr, QEvent::DeferredDelete);
        QCoreApplication::processEvents();
    }
    ui::EntriesModel& model() { return screen.entries().model(); }
    QTableView& table() { return screen.entries().table(); }
    void select(int row, int column) {
        table().setFocus();
        table().setCurrentIndex(model().index(row, column));
    }
    /// Types over what the cell holds, through the editor the Enter key opens.
    void amend(int row, int column, const QString& text) {
        select(row, column);
        QTest::keyClick(&table(), Qt::Key_Return);
        auto* value = table().findChild<QLineEdit*>("amendValue");
        REQUIRE(value != nullptr);
        value->selectAll();
        QTest::keyClicks(value, text);
        QTest::keyClick(value, Qt::Key_Return);
        settle();
    }
    /// Presses Delete on the line and gives back what is asked.
    QString askToWithdraw(int row) {
        select(row, ui::EntriesModel::typed);
        QTest::keyClick(&table(), Qt::Key_Delete);
        auto* why = screen.findChild<QLineEdit*>("withdrawWhy");
        REQUIRE(why->isVisible());
        return why->accessibleDescription();
    }
    void withdraw(int row) {
        askToWithdraw(row);
        QTest::keyClick(screen.findChild<QPushButton*>("withdraw"), Qt::Key_Space);
        settle();
    }
    QString was(int row) {
        return model().index(row, ui::EntriesModel::typed).data(ui::EntriesModel::wasRole).toString();
    }
    /// What, value and what stood there first, of every line: "straw 5 kg (was 4 kg straw)".
    QStringList lines() {
        QStringList all;
        for (int row = 0; row < model().rowCount(); ++row) {
            QStringList parts{cell(row, ui::EntriesModel::what), cell(row, ui::EntriesModel::where),
                              plain(cell(row, ui::EntriesModel::typed))};
            parts.removeAll(QString{});
            all << parts.join(QLatin1Char{' '}) + (was(row).isEmpty() ? QString{} : " (was " + plain(was(row)) + ")");
        }
        return all;
    }
    QString chosen() { return lines().value(table().currentIndex().row()); }
    QString cell(int row, int column) { return model().index(row, column).data().toString(); }

    MadeBook book;
    ui::HistoryScreen screen;
};

}  // namespace midden::testing
