// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QDialog>
#include <QPointer>
#include <atomic>
#include <memory>

#include "ui/import/import_work.h"
#include "ui/shared/background_task.h"

class QLabel;
class QPushButton;
class QVBoxLayout;

namespace midden::ui {

class Book;
class ImportProgressLine;
class ImportQuestions;
class ScrollPane;

/// Brings a CSV file into the open book: asks what the file does not say, reads it through, shows what would come, and
/// stores all of it or nothing. The work is done beside the thread of the window.
class ImportDialog : public QDialog {
    Q_OBJECT

  public:
    /// Copies of the book are kept in `copies`; empty = none.
    ImportDialog(Book& book, const QString& file, std::filesystem::path copies, QWidget* parent = nullptr);
    ImportDialog(const ImportDialog&) = delete;
    ImportDialog& operator=(const ImportDialog&) = delete;
    /// Asks the work under way to stop, and does not wait for it.
    ~ImportDialog() override;

    /// Stops the work under way, else closes.
    void reject() override;

  protected:
    void showEvent(QShowEvent* event) override;

  signals:
    /// The window looks at its batch now.
    void broughtIn();

  private:
    enum class Step {
        asking,
        reading,
        deciding,
        writing,
        ending  ///< nothing is left but to close
    };
    void build();
    void recognise();
    void go();
    void ask();
    void read();
    void showFindings(const ImportFindings& findings);
    void write();
    void finish(const TakenIn& done);
    void enter(Step step);
    void say(const QString& problem);
    QString writingWords(double share) const;
    void fitHeight();

    Book& book_;
    QPointer<Book> watched_;  ///< the same, for when it may be gone
    ImportTask task_;
    Step step_ = Step::ending;
    ImportFindings findings_;
    bool takesAway_ = false;  ///< what would come ends something that runs in the book
    QVBoxLayout* column_;     ///< of all but the buttons
    ScrollPane* pane_ = nullptr;
    QLabel* summary_;
    ImportQuestions* questions_ = nullptr;
    QWidget* lines_ = nullptr;
    ImportProgressLine* progress_;
    QLabel* problem_;
    QLabel* caution_;
    QPushButton* back_;
    QPushButton* close_;
    QPushButton* go_;
    BackgroundTask background_;
    std::shared_ptr<std::atomic<bool>> stop_;  ///< of the writing, whose end is waited for
};

}  // namespace midden::ui
