// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shell/main_window.h"

#include <QApplication>
#include <QCloseEvent>
#include <QFileInfo>
#include <QLabel>
#include <QMenuBar>
#include <QSettings>
#include <QStackedWidget>
#include <QStandardPaths>
#include <QStatusBar>
#include <QTimeZone>
#include <QTimer>
#include <QVBoxLayout>

#include "core/store/care/copies.h"
#include "core/store/sqlite/second_name.h"
#include "ui/shared/copies_words.h"
#include "ui/shared/elided_label.h"
#include "ui/shared/prompts.h"
#include "ui/shared/screen_fit.h"
#include "ui/shared/scroll_pane.h"
#include "ui/shared/stray_input.h"
#include "ui/shared/undo_keys.h"
#include "ui/shared/words.h"
#include "ui/shell/menus.h"
#include "ui/shell/recent_files.h"
#include "ui/shell/trouble_bar.h"
#include "ui/shell/welcome_page.h"
#include "ui/shell/workspace.h"

namespace midden::ui {

namespace {

constexpr auto geometryKey = "window/geometry";
constexpr auto lastCopyKey = "copies/trouble";
constexpr int watchMilliseconds = 1'000;

TimeZone zoneOfThisComputer() {
    return TimeZone::named(QTimeZone::systemTimeZoneId().toStdString()).value_or(TimeZone::utc());
}

/// A book keeps its own zone from its first day on, so that it reads the same on every computer. `unknown` is its name
/// where this one does not know it.
TimeZone zoneOf(Logbook& logbook, QString& unknown) {
    const std::string kept = logbook.setting(setting::zone);
    if (!kept.empty()) {
        const auto zone = TimeZone::named(kept);
        unknown = zone ? QString{} : words::text(kept);
        return zone.value_or(TimeZone::utc());
    }
    const TimeZone here = zoneOfThisComputer();
    if (!logbook.isReadOnly()) {
        logbook.setSetting(setting::zone, here.name());
    }
    return here;
}

/// `why` says why it can only be read, where that is not for want of rights.
Logbook openOrRead(const std::filesystem::path& file, Logbook::Mode mode, QString& why) {
    try {
        return Logbook::open(file, mode);
    } catch (const LogbookError& error) {
        if (error.kind != LogbookError::Kind::readOnly) {
            throw;
        }
        why = dynamic_cast<const SecondName*>(&error) != nullptr ? words::sentence(error) : QString{};
        return Logbook::open(file, Logbook::Mode::readOnly);
    }
}

}  // namespace

QString MainWindow::bookFilter() {
    return tr("Logbooks (*.midden);;All files (*)");
}

std::string MainWindow::timeZoneHere() {
    return zoneOfThisComputer().name();
}

MainWindow::MainWindow(Prompts& prompts, Book::Clock clock, QWidget* parent)
    : QMainWindow{parent},
      prompts_{prompts},
      clock_{std::move(clock)},
      trouble_{new TroubleBar},
      pages_{new QStackedWidget},
      welcome_{new WelcomePage},
      welcomePane_{new ScrollPane{welcome_}},
      status_{new ElidedLabel},
      progress_{new QTimer{this}} {
    setObjectName(QStringLiteral("window"));
    setAcceptDrops(true);
    new StrayInput{this};
    qApp->installEventFilter(new UndoKeys{this});
    buildFrame();
    connect(welcome_, &WelcomePage::newWanted, this, &MainWindow::askForNew);
    connect(welcome_, &WelcomePage::openWanted, this, &MainWindow::askForOpen);
    connect(welcome_, &WelcomePage::fileWanted, this, &MainWindow::openBook);
    connect(progress_, &QTimer::timeout, this, [this] {
        if (book_) {
            book_->lookForOutsideChanges();
            lookAfterFile();
        }
    });
    progress_->start(watchMilliseconds);
    welcome_->offer(recent::files());
    refillMenus();
    restoreGeometry(QSettings{}.value(QLatin1String{geometryKey}).toByteArray());
    if (!isMaximized() && !isFullScreen()) {
        fitToScreen(*this);  // it may be smaller than the screen the window was closed on
    }
}

MainWindow::~MainWindow() {
    copies_.reset();
    delete workspace_;  // before the book its screens refer to
}

void MainWindow::buildFrame() {
    auto* body = new QWidget;
    auto* column = new QVBoxLayout{body};
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addWidget(trouble_);
    column->addWidget(pages_, 1);
    pages_->addWidget(welcomePane_);
    setCentralWidget(body);
    status_->setObjectName(QStringLiteral("status"));
    status_->setContentsMargins(16, 0, 16, 0);
    statusBar()->addWidget(status_, 1);
    statusBar()->setSizeGripEnabled(false);
    setWindowTitle(tr("Middenbook"));
    resize(1'180, 760);
}

void MainWindow::askForNew() {
    const QString folder = QStandardPaths::writableLocation(QStandardPaths::DocumentsLocation);
    auto path =
        prompts_.fileToSave(this, tr("Start a new logbook"), folder + QStringLiteral("/compost.midden"), bookFilter());
    if (!path) {
        return;
    }
    if (QFileInfo{*path}.suffix().isEmpty()) {
        *path += QStringLiteral(".midden");
    }
    startBook(*path);
}

void MainWindow::askForOpen() {
    if (const auto path = prompts_.fileToOpen(this, tr("Open a logbook"), bookFilter())) {
        openBook(*path);
    }
}

bool MainWindow::openBook(const QString& path) {
    return take(path, Logbook::Mode::readWrite);
}

bool MainWindow::startBook(const QString& path) {
    if (QFileInfo{path}.size() > 0) {
        say(tr("%1 is there already and was left alone; open it, or choose another name.")
                .arg(QFileInfo{path}.fileName()));
        return false;
    }
    return take(path, Logbook::Mode::createIfAbsent);
}

bool MainWindow::take(const QString& path, Logbook::Mode mode) {
    if (!mayLeave(tr("Open %1").arg(QFileInfo{path}.fileName()), tr("Open it and lose what I typed"))) {
        return false;
    }
    try {
        QString whyOnlyRead;
        Logbook logbook = openOrRead(path.toStdString(), mode, whyOnlyRead);
        QString unknownZone;
        const TimeZone zone = zoneOf(logbook, unknownZone);
        present(std::make_unique<Book>(std::move(logbook), zone, clock_), path);
        QStringList remarks{whyOnlyRead};
        if (!unknownZone.isEmpty()) {
            remarks << tr("This computer does not know “%1”, the time zone of this book. Its times are shown in UTC.")
                           .arg(unknownZone);
        }
        remarks.removeAll(QString{});
        if (!remarks.isEmpty()) {
            say(remarks.join(QLatin1Char{' '}));
        }
        return true;
    } catch (const LogbookError& error) {
        tellOfFile(error, path);
    } catch (const std::exception& error) {
        say(words::sentence(error));
    }
    return false;
}

void MainWindow::present(std::unique_ptr<Book> book, const QString& path) {
    leaveCopies();
    delete workspace_;
    workspace_ = nullptr;
    keepLastCopy();
    book_ = std::move(book);
    fileState_ = Logbook::FileState::inPlace;
    workspace_ = new Workspace{*book_, prompts_};
    pages_->setCurrentIndex(pages_->addWidget(workspace_));
    trouble_->hide();
    connect(book_.get(), &Book::troubled, this, &MainWindow::say);
    connect(book_.get(), &Book::told, this, [this](const QString& sentence) {
        trouble_->hide();
        tell(sentence);
    });
    tell(book_->isReadOnly() ? tr("This file cannot be written: the book is open for reading only.")
                             : tr("Each entry is saved as you make it, unless it says beside it that it is not."));
    const QString name = QFileInfo{path}.fileName();
    setWindowTitle(book_->isReadOnly() ? tr("%1 (read only) – Middenbook").arg(name) : tr("%1 – Middenbook").arg(name));
    recent::remember(path);
    keepCopies();
    tellOfLastCopy();
    // Not at once: one of the old menus may be what asked for this book.
    QMetaObject::invokeMethod(this, &MainWindow::refillMenus, Qt::QueuedConnection);
    workspace_->setFocus();
}

void MainWindow::refillMenus() {
    fillMenus(
        *menuBar(),
        {.window = *this,
         .book = book_.get(),
         .workspace = workspace_,
         .prompts = prompts_,
         .startNew = [this] { askForNew(); },
         .open = [this] { askForOpen(); },
         .copies =
             copiesPlace_.empty()
                 ? std::function<void()>{}
                 : [this] { showCopies(book_ ? QString::fromStdString(book_->log().file().string()) : QString{}); },
         .openFile = [this](const QString& path) { openBook(path); },
         .bringIn = [this] { askForOtherCopy(); },
         .bringInTable = [this] { askForTable(); }});
}

void MainWindow::say(const QString& sentence) {
    trouble_->say(sentence);
}

void MainWindow::keepCopiesIn(std::filesystem::path place, CopyKeeper::Clock clock) {
    copiesPlace_ = std::move(place);
    copiesClock_ = std::move(clock);
    refillMenus();
    keepCopies();
}

void MainWindow::keepCopies() {
    copies_.reset();
    if (copiesPlace_.empty() || !book_ || book_->isReadOnly()) {
        return;
    }
    const auto& file = book_->log().file();
    copies_ = std::make_unique<CopyKeeper>(file, copiesPlace_ / copyFolderName(file), copiesClock_);
    connect(book_.get(), &Book::changed, copies_.get(), &CopyKeeper::noteChange);
    connect(copies_.get(), &CopyKeeper::troubled, this, &MainWindow::say);
}

void MainWindow::keepLastCopy() {
    if (!copies_) {
        return;
    }
    const QString trouble = copies_->copyAndWait();
    copies_.reset();
    if (!trouble.isEmpty()) {
        QSettings{}.setValue(QLatin1String{lastCopyKey}, trouble);
    }
}

void MainWindow::tellOfLastCopy() {
    const QString trouble = QSettings{}.value(QLatin1String{lastCopyKey}).toString();
    if (!trouble.isEmpty()) {
        QSettings{}.remove(QLatin1String{lastCopyKey});
        say(tr("When the book was closed last: %1").arg(trouble));
    }
}

void MainWindow::closeEvent(QCloseEvent* event) {
    if (!mayLeave(tr("Close"), tr("Close and lose it"))) {
        event->ignore();
        return;
    }
    QSettings{}.setValue(QLatin1String{geometryKey}, saveGeometry());
    QMainWindow::closeEvent(event);
    hide();  // the copy may take a moment that nobody needs to watch
    keepLastCopy();
}

}  // namespace midden::ui
