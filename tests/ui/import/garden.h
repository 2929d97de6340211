// SPDX-License-Identifier: GPL-3.0-or-later
// A book in a window, and CSV files beside it.
#pragma once

#include <QAction>
#include <QComboBox>
#include <QPushButton>
#include <fstream>

#include "tests/ui/shell/desk.h"
#include "ui/import/import_dialog.h"

namespace midden::testing {

constexpr Instant lastYear{1'740'816'000};  // 2025-03-01T08:00:00Z, the same in London

/// A book that is open, and files beside it.
struct Garden : Desk {
    Garden() {
        window->keepCopiesIn(path("copies").toStdString(), [this] { return now; });
        window->startBook(path("plot.midden"));
        book().setSetting(setting::zone, "Europe/London");
        settle();
    }

    QString write(const QString& name, const std::string& text) const {
        std::ofstream{path(name).toStdString(), std::ios::binary} << text;
        return path(name);
    }
    /// Chooses the file by the menu.
    ui::ImportDialog& choose(const QString& name, const std::string& text) {
        prompts.openAnswer = write(name, text);
        find<QAction>("actionBringInTable").trigger();
        settle();
        auto& dialog = find<ui::ImportDialog>("intake");
        CHECK(unnamed(dialog).join(", ") == QString{});
        return dialog;
    }
    /// Reads it through and waits for what is found.
    void readThrough() {
        press(Qt::Key_Return);
        REQUIRE(waitUntil([this] { return button("intakeClose").text() != "Stop"; }));
        settle();
    }
    void bringIn() {
        press(Qt::Key_Return);
        REQUIRE(waitUntil([this] { return !isOpen(); }));
        settle();
    }
    bool isOpen() const { return window->findChild<ui::ImportDialog*>("intake") != nullptr; }
    QPushButton& button(const char* name) const { return find<QPushButton>(name); }
    /// What would come, a line each.
    QString lines() const {
        QString all;
        const auto* shown = window->findChild<QWidget*>("intakeLines");
        for (const QLabel* label : shown != nullptr ? shown->findChildren<QLabel*>() : QList<QLabel*>{}) {
            all += label->text() + (label->objectName() == "intakeLine" ? "\n" : ": ");
        }
        return plain(all);
    }
    std::int64_t count(const std::string& batch) const {
        const auto found = book().log().batchNamed(batch);
        return found ? book().log().record(found->id).readings : -1;
    }
};

inline std::string everyMinute(int rows) {
    std::string text = "time,temperature\n";
    for (int row = 0; row < rows; ++row) {
        text += isoUtc(lastYear + minutes(row)) + ",55.5\n";
    }
    return text;
}

}  // namespace midden::testing
