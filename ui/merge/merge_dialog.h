// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QDialog>
#include <QPointer>
#include <functional>

#include "ui/merge/merge_work.h"

class QLabel;
class QProgressBar;
class QPushButton;
class QTableView;
class QThread;

namespace midden::ui {

class Book;
class ConflictsModel;

/// Brings the entries of another copy into the open book: looks it through, shows what will come and what differs,
/// and does it in one step when the person says so. The work is done beside the thread of the window.
class MergeDialog : public QDialog {
    Q_OBJECT

  public:
    /// Copies of the book are kept in `copies`; empty = none.
    MergeDialog(Book& book, const QString& other, std::filesystem::path copies, QWidget* parent = nullptr);
    MergeDialog(const MergeDialog&) = delete;
    MergeDialog& operator=(const MergeDialog&) = delete;
    /// Waits for the work under way.
    ~MergeDialog() override;

    void reject() override;

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    using Done = void (MergeDialog::*)(const MergeFindings&);
    void build();
    QWidget* buildChoices();
    void prepareTable();
    void start(const QString& words, std::function<MergeFindings()> work, Done next);
    void showFindings(const MergeFindings& findings);
    void bringEntriesIn();
    void finish(const MergeFindings& findings);
    void sayTrouble(const QString& trouble);
    void chooseHere(Stands side);
    void goOn();

    Book& book_;
    QPointer<Book> watched_;  ///< the same, for when it may be gone
    MergeTask task_;
    QLabel* summary_;
    QLabel* caution_;
    QProgressBar* progress_;
    QWidget* choices_;
    QTableView* table_;
    ConflictsModel* model_;
    QPushButton* go_;
    QPushButton* close_;
    QThread* working_ = nullptr;
    bool isWriting_ = false;
    std::size_t shown_ = 0;  ///< conflicts the person has seen
};

}  // namespace midden::ui
