// SPDX-License-Identifier: GPL-3.0-or-later
// What the window brings in from other files: another copy of the book, tables of readings, files dropped onto it.
#include <QApplication>
#include <QDropEvent>
#include <QFileInfo>
#include <QMenuBar>
#include <QMimeData>

#include "ui/import/import_dialog.h"
#include "ui/merge/merge_dialog.h"
#include "ui/shared/prompts.h"
#include "ui/shell/main_window.h"
#include "ui/shell/workspace.h"

namespace midden::ui {

namespace {

/// The one file that is dragged, or nothing.
QString draggedFile(const QDropEvent& event) {
    const auto urls = event.mimeData()->urls();
    const QString path = urls.size() == 1 ? urls.front().toLocalFile() : QString{};
    return QFileInfo{path}.isFile() ? path : QString{};
}

bool isBook(const QString& path) {
    return path.endsWith(QLatin1String{".midden"}, Qt::CaseInsensitive);
}

}  // namespace

std::filesystem::path MainWindow::copiesOfBook() const {
    return copies_ ? copies_->folder() : std::filesystem::path{};
}

void MainWindow::askForOtherCopy() {
    if (const auto path = prompts_.fileToOpen(this, tr("Bring in from another copy of this book"), bookFilter())) {
        auto* dialog = new MergeDialog{*book_, *path, copiesOfBook(), this};
        dialog->setAttribute(Qt::WA_DeleteOnClose);
        dialog->open();
    }
}

void MainWindow::askForTable() {
    if (const auto path = prompts_.fileToOpen(this, tr("Bring in readings from a file"),
                                              tr("Tables (*.csv *.tsv *.txt);;All files (*)"))) {
        bringInTable(*path);
    }
}

void MainWindow::bringInTable(const QString& path) {
    auto* dialog = new ImportDialog{*book_, path, copiesOfBook(), this};
    dialog->setAttribute(Qt::WA_DeleteOnClose);
    connect(dialog, &ImportDialog::broughtIn, this, [this] { workspace_->showScreen(QStringLiteral("history")); });
    dialog->open();
}

bool MainWindow::mayDrop(const QString& path) const {
    const bool isFree = QApplication::activeModalWidget() == nullptr && menuBar()->isEnabled();
    return isFree && !path.isEmpty() && (isBook(path) || (book_ && !book_->isReadOnly()));
}

void MainWindow::dragEnterEvent(QDragEnterEvent* event) {
    if (mayDrop(draggedFile(*event))) {
        event->acceptProposedAction();
    }
}

void MainWindow::dropEvent(QDropEvent* event) {
    const QString path = draggedFile(*event);
    if (!mayDrop(path)) {
        return;
    }
    event->acceptProposedAction();
    if (isBook(path)) {
        openBook(path);
    } else {
        bringInTable(path);
    }
}

}  // namespace midden::ui
