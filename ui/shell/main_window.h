// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QMainWindow>
#include <memory>

#include "ui/copies/copy_keeper.h"
#include "ui/shared/background_task.h"
#include "ui/shared/book.h"

class QLabel;
class QStackedWidget;
class QTimer;

namespace midden::ui {

class CopiesPage;
class Prompts;
class TroubleBar;
class WelcomePage;
class Workspace;

/// What came of salvaging a file, in words.
struct Salvaged {
    QString told;
    QString trouble;  ///< empty = there is a fresh book
};

/// The one window: a welcome while no book is open, and its bins and screens while one is.
class MainWindow : public QMainWindow {
    Q_OBJECT

  public:
    MainWindow(Prompts& prompts, Book::Clock clock, QWidget* parent = nullptr);
    MainWindow(const MainWindow&) = delete;
    MainWindow& operator=(const MainWindow&) = delete;
    ~MainWindow() override;

    /// Opens a book that is there; a file that cannot be written is opened for reading only.
    /// False: the person has been told why not, and whatever was open stays open.
    bool openBook(const QString& path);
    /// Starts an empty book in a new file.
    bool startBook(const QString& path);
    /// Asks about a CSV file and brings it into the open book, which can be written.
    void bringInTable(const QString& path);
    /// From now on, keeps copies of every book it opens for writing in folders in `place`, dated by `clock`.
    void keepCopiesIn(std::filesystem::path place, CopyKeeper::Clock clock);
    Book* book() const { return book_.get(); }
    CopyKeeper* copies() const { return copies_.get(); }
    Workspace* workspace() const { return workspace_; }

  protected:
    bool event(QEvent* event) override;
    void closeEvent(QCloseEvent* event) override;
    void dragEnterEvent(QDragEnterEvent* event) override;
    void dropEvent(QDropEvent* event) override;

  private:
    void askForNew();
    void askForOpen();
    void askForOtherCopy();
    void askForTable();
    bool mayDrop(const QString& path) const;
    /// Where copies of the open book are kept; empty = nowhere.
    std::filesystem::path copiesOfBook() const;
    bool take(const QString& path, Logbook::Mode mode);
    void present(std::unique_ptr<Book> book, const QString& path);
    void keepCopies();
    /// Once more before the book is put away.
    void keepLastCopy();
    /// A last copy that failed while the window was closing is told of here.
    void tellOfLastCopy();
    void say(const QString& sentence);
    void tell(const QString& sentence);
    void tellSaved();
    void tellOfFile(const LogbookError& error, const QString& path);
    /// The copies of the file at `path`; empty = of every book.
    void showCopies(const QString& path);
    void leaveCopies();
    void openRestored(const QString& file);
    void keepBeforeReplacing(const std::filesystem::path& book);
    void replaceWithCopy(const QString& path, const QString& copy);
    bool isOpen(const std::filesystem::path& file) const;
    void salvage(const QString& path);
    void waitForSalvage(bool isWaiting);
    void tellOfSalvage(const QString& path, const QString& fresh, const Salvaged& salvaged);
    /// Closes the book and shows the welcome.
    void putAway();
    /// Says so when the file is moved, deleted or replaced, or comes back.
    void lookAfterFile();
    void saveAsNew();
    /// Asked before `act`, which puts what is typed away. False: something typed is not saved, and the person stays to
    /// see to it.
    bool mayLeave(const QString& act, const QString& yes);
    static std::string timeZoneHere();
    static QString bookFilter();
    void buildFrame();
    void refillMenus();

    Prompts& prompts_;
    Book::Clock clock_;
    std::unique_ptr<Book> book_;
    std::filesystem::path copiesPlace_;  ///< empty = no copies are kept
    CopyKeeper::Clock copiesClock_;
    std::unique_ptr<CopyKeeper> copies_;
    TroubleBar* trouble_;
    QStackedWidget* pages_;
    WelcomePage* welcome_;
    QWidget* welcomePane_;
    Workspace* workspace_ = nullptr;
    CopiesPage* copiesPage_ = nullptr;
    QWidget* copiesPane_ = nullptr;
    Logbook::FileState fileState_ = Logbook::FileState::inPlace;
    QLabel* status_;
    QString told_;  ///< what the status says while everything typed is saved
    QTimer* progress_;
    BackgroundTask salvaging_;
};

}  // namespace midden::ui
