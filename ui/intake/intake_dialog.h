// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QDialog>
#include <QPointer>
#include <atomic>
#include <memory>

#include "ui/common/aside.h"
#include "ui/intake/intake_work.h"

class QLabel;
class QPushButton;
class QVBoxLayout;

namespace midden::ui {

class Book;
class IntakeProgress;
class IntakeQuestions;
class ScrollPane;

/// Brings a CSV file into the open book: asks what the file does not say, reads it through, shows what would come, and
/// stores all of it or nothing. The work is done beside the thread of the window.
class IntakeDialog : public QDialog {
    Q_OBJECT

  public:
    /// Copies of the book are kept in `copies`; empty = none.
    IntakeDialog(Book& book, const QString& file, std::filesystem::path copies, QWidget* parent = nullptr);
    IntakeDialog(const IntakeDialog&) = delete;
    IntakeDialog& operator=(const IntakeDialog&) = delete;
    /// Asks the work under way to stop, and does not wait for it.
    ~IntakeDialog() override;

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
    void showFindings(const IntakeFindings& findings);
    void fillFindings();
    void write();
    void finish(const IntakeOutcome& done);
    void enter(Step step);
    void say(const QString& problem);
    QString writingWords(double share) const;
    void fitHeight();

    Book& book_;
    QPointer<Book> watched_;  ///< the same, for when it may be gone
    IntakeTask task_;
    Step step_ = Step::ending;
    IntakeFindings findings_;
    QVBoxLayout* column_;  ///< of all but the buttons
    ScrollPane* pane_ = nullptr;
    QLabel* summary_;
    IntakeQuestions* questions_ = nullptr;
    QWidget* lines_ = nullptr;
    IntakeProgress* progress_;
    QLabel* problem_;
    QLabel* caution_;
    QPushButton* back_;
    QPushButton* close_;
    QPushButton* go_;
    Aside aside_;
    std::shared_ptr<std::atomic<bool>> stop_;  ///< of the writing, whose end is waited for
};

}  // namespace midden::ui
