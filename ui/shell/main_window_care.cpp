// SPDX-License-Identifier: GPL-3.0-or-later
// What the window does when a file is in trouble: copies, restoring, salvaging, a file that went away.
#include <QFileInfo>
#include <QLabel>
#include <QMenuBar>
#include <QPointer>
#include <QStackedWidget>

#include "core/quantities/sha256.h"
#include "core/store/care/copies.h"
#include "core/store/care/salvage/salvage.h"
#include "core/store/files/trial_copy.h"
#include "ui/copies/copies_page.h"
#include "ui/shared/copies_words.h"
#include "ui/shared/prompts.h"
#include "ui/shared/saved_line.h"
#include "ui/shared/scroll_pane.h"
#include "ui/shell/main_window.h"
#include "ui/shell/recent_files.h"
#include "ui/shell/trouble_bar.h"
#include "ui/shell/welcome_page.h"
#include "ui/shell/workspace.h"

namespace midden::ui {

namespace {

using Kind = LogbookError::Kind;

/// Runs beside the thread of the window.
Salvaged salvagedTo(const QString& fresh, const QString& damaged) {
    Salvaged salvaged;
    try {
        for (const auto& sentence : inWords(salvageBook(damaged.toStdString(), fresh.toStdString(), sha256))) {
            salvaged.told +=
                (salvaged.told.isEmpty() ? QString{} : QStringLiteral(" ")) + QString::fromStdString(sentence);
        }
    } catch (const std::exception& error) {
        salvaged.trouble = words::sentence(error);
    }
    return salvaged;
}

bool cannotBeOpened(Kind kind) {
    return kind == Kind::damaged || kind == Kind::foreign || kind == Kind::absent || kind == Kind::failed;
}

}  // namespace

void MainWindow::tellOfFile(const LogbookError& error, const QString& path) {
    say(words::sentenceAbout(path.toStdString(), error));
    if (error.kind == Kind::damaged) {
        trouble_->offer("troubleSalvage", tr("&Salvage…"), [this, path] { salvage(path); });
    }
    if (!copiesPlace_.empty() && cannotBeOpened(error.kind)) {
        trouble_->offer("troubleCopies", tr("Co&pies and restoring…"), [this, path] { showCopies(path); });
    }
}

void MainWindow::showCopies(const QString& path) {
    leaveCopies();
    const TimeZone zone = book_ ? book_->zone() : TimeZone::named(timeZoneHere()).value_or(TimeZone::utc());
    copiesPage_ = new CopiesPage{prompts_, copiesPlace_, path.toStdString(), zone};
    connect(copiesPage_, &CopiesPage::closed, this, &MainWindow::leaveCopies);
    // Queued: what is pressed there may end the page itself.
    connect(copiesPage_, &CopiesPage::restored, this, &MainWindow::openRestored, Qt::QueuedConnection);
    connect(copiesPage_, &CopiesPage::replaceWanted, this, &MainWindow::replaceWithCopy, Qt::QueuedConnection);
    connect(copiesPage_, &CopiesPage::salvageWanted, this, &MainWindow::salvage, Qt::QueuedConnection);
    copiesPane_ = new ScrollPane{copiesPage_};
    pages_->setCurrentIndex(pages_->addWidget(copiesPane_));
    copiesPage_->begin();
}

void MainWindow::leaveCopies() {
    if (copiesPage_ == nullptr) {
        return;
    }
    copiesPane_->deleteLater();  // with the page in it
    pages_->removeWidget(copiesPane_);
    copiesPage_ = nullptr;
    copiesPane_ = nullptr;
    pages_->setCurrentWidget(workspace_ != nullptr ? static_cast<QWidget*>(workspace_) : welcomePane_);
    pages_->currentWidget()->setFocus();
}

void MainWindow::openRestored(const QString& file) {
    if (openBook(file)) {
        leaveCopies();
        tell(tr("Restored to %1, which is open now.").arg(QFileInfo{file}.fileName()));
    }
}

void MainWindow::putAway() {
    keepLastCopy();
    delete workspace_;
    workspace_ = nullptr;
    book_.reset();
    pages_->setCurrentWidget(welcomePane_);
    setWindowTitle(tr("Middenbook"));
    tell({});
    QMetaObject::invokeMethod(this, &MainWindow::refillMenus, Qt::QueuedConnection);
}

/// Throws LogbookError unless what the file holds is safe in a copy, or cannot be read.
void MainWindow::keepBeforeReplacing(const std::filesystem::path& book) {
    try {
        keepCopy(book, copiesPlace_ / copyFolderName(book), copiesClock_());
    } catch (const LogbookError& error) {
        if (!cannotBeOpened(error.kind)) {
            throw;
        }
    }
}

bool MainWindow::isOpen(const std::filesystem::path& file) const {
    return book_ && copyFolderName(book_->log().file()) == copyFolderName(file);
}

void MainWindow::replaceWithCopy(const QString& path, const QString& copy) {
    const std::filesystem::path book = path.toStdString();
    if (isOpen(book) && !mayLeave(tr("Put the copy in its place"), tr("Put the copy there and lose what I typed"))) {
        return;
    }
    try {
        // The copy made of what stands there now may take the place of the one that is restored.
        const TrialCopy passing{copy.toStdString(), std::filesystem::temp_directory_path()};
        keepBeforeReplacing(book);
        if (isOpen(book)) {
            putAway();
        }
        const auto asideName = replaceBook(book, passing.file());
        leaveCopies();
        openBook(path);
        tell(
            asideName
                ? tr("The copy is in place. The file that was there is now called %1.").arg(words::fileName(*asideName))
                : tr("The copy is in place. What the logbook held before is the newest of its copies."));
    } catch (const std::exception& error) {
        say(words::sentence(error));
    }
}

void MainWindow::salvage(const QString& path) {
    const QFileInfo file{path};
    const auto fresh = prompts_.fileToSave(
        this, tr("Salvage to a new file"),
        file.absolutePath() + QLatin1Char{'/'} + file.completeBaseName() + tr(" salvaged") + QStringLiteral(".midden"),
        tr("Logbooks (*.midden)"));
    if (!fresh) {
        return;
    }
    if (isOpen(path.toStdString())) {
        if (!mayLeave(tr("Close it to salvage it"), tr("Salvage it and lose what I typed"))) {
            return;
        }
        putAway();  // reading a file past SQLite would undo the locks it holds
    }
    leaveCopies();
    say(tr("Salvaging what can be read of %1. With a large file this takes some minutes; nothing is written to it.")
            .arg(file.fileName()));
    waitForSalvage(true);
    salvaging_.start([this, path, fresh = *fresh](const BackgroundTask::TaskProgress&) {
        const auto salvaged = salvagedTo(fresh, path);
        return [this, path, fresh, salvaged] { tellOfSalvage(path, fresh, salvaged); };
    });
}

/// No other book is opened meanwhile.
void MainWindow::waitForSalvage(bool isWaiting) {
    pages_->setEnabled(!isWaiting);
    menuBar()->setEnabled(!isWaiting);
}

void MainWindow::tellOfSalvage(const QString& path, const QString& fresh, const Salvaged& salvaged) {
    waitForSalvage(false);
    if (!salvaged.trouble.isEmpty()) {
        say(salvaged.trouble);
    } else if (openBook(fresh)) {
        say(tr("Salvaged from %1, which is as it was. %2").arg(QFileInfo{path}.fileName(), salvaged.told));
    }
}

void MainWindow::lookAfterFile() {
    const auto fileState = book_->log().fileState();
    if (fileState == fileState_) {
        return;
    }
    fileState_ = fileState;
    const QString path = QString::fromStdString(book_->log().file().string());
    const QString name = QFileInfo{path}.fileName();
    if (fileState == Logbook::FileState::inPlace) {
        trouble_->hide();
        tell(tr("%1 is back where it was: entries are saved again.").arg(name));
        return;
    }
    if (fileState == Logbook::FileState::gone) {
        say(tr("%1 is no longer where it was: it was moved, renamed or deleted. Nothing can be saved in it now. Put it "
               "back, or save what this window holds under a new name.")
                .arg(name));
    } else {
        say(tr("Another file has taken the place of %1. Nothing can be saved in the one this window holds: save that "
               "under a new name if it has what the other has not, then open the file that is there now.")
                .arg(name));
        trouble_->offer("troubleReopen", tr("&Open what is there now"), [this, path] { openBook(path); });
    }
    trouble_->offer("troubleSaveAs", tr("Save &under a new name…"), [this] { saveAsNew(); });
}

void MainWindow::saveAsNew() {
    const auto file = prompts_.fileToSave(this, tr("Save under a new name"), {}, tr("Logbooks (*.midden)"));
    if (!file || !book_) {
        return;
    }
    try {
        book_->log().backUpTo(file->toStdString());
    } catch (const std::exception& error) {
        say(words::sentence(error));
        return;
    }
    openBook(*file);
}

bool MainWindow::mayLeave(const QString& act, const QString& yes) {
    const QPointer<QWidget> writing{focusWidget()};
    if (writing) {
        writing->clearFocus();  // hands over what stands in the cell
    }
    int pending = 0;
    for (const auto* line : findChildren<SavedLine*>()) {
        pending += line->isPending() && !line->text().isEmpty() ? 1 : 0;
    }
    const QString question =
        pending == 1 ? tr("One thing you typed is not saved in the book. %1, and lose it?").arg(act)
                     : tr("%1 things you typed are not saved in the book. %2, and lose them?").arg(pending).arg(act);
    const bool may = pending == 0 || prompts_.confirm(this, question, yes);
    if (writing && (!may || pending == 0)) {
        writing->setFocus();
    }
    return may;
}

void MainWindow::tell(const QString& sentence) {
    told_ = sentence;
    tellSaved();
}

/// The last thing that went well; before it, whether there is something that did not.
void MainWindow::tellSaved() {
    const int refused = refusedIn(*this);
    const QString unsaved =
        refused == 1 ? tr("1 thing you typed is not saved.") : tr("%1 things you typed are not saved.").arg(refused);
    status_->setText(refused == 0 ? told_ : unsaved + QLatin1Char{' '} + told_);
}

bool MainWindow::event(QEvent* event) {
    if (event->type() == lineHandedOver) {
        tellSaved();
        return true;
    }
    return QMainWindow::event(event);
}

}  // namespace midden::ui
