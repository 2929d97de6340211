// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/merge/merge_dialog.h"

#include <QFileInfo>
#include <QHBoxLayout>
#include <QHeaderView>
#include <QKeyEvent>
#include <QLabel>
#include <QProgressBar>
#include <QPushButton>
#include <QTableView>
#include <QThread>
#include <QUndoStack>
#include <QVBoxLayout>
#include <memory>

#include "core/store/merge/merge_words.h"
#include "ui/merge/conflicts_model.h"
#include "ui/shared/book.h"
#include "ui/shared/deliberate.h"
#include "ui/shared/flow_layout.h"
#include "ui/shared/screen_fit.h"
#include "ui/shared/speak.h"
#include "ui/shared/tone.h"
#include "ui/shared/words.h"

namespace midden::ui {

MergeDialog::MergeDialog(Book& book, const QString& other, std::filesystem::path copies, QWidget* parent)
    : QDialog{parent},
      book_{book},
      watched_{&book},
      task_{book.log().file(), other.toStdString(), std::move(copies), words::utf8(book.setting(setting::who)),
            book.now().at},
      summary_{new QLabel{this}},
      caution_{new QLabel{this}},
      progress_{new QProgressBar{this}},
      choices_{buildChoices()},
      table_{new QTableView{this}},
      model_{new ConflictsModel{book.zone(), this}},
      go_{new QPushButton{tr("&Bring in"), this}},
      close_{new QPushButton{tr("Leave it"), this}} {
    setObjectName(QStringLiteral("merge"));
    setWindowTitle(tr("Bring in from %1").arg(QFileInfo{other}.fileName()));
    build();
    prepareTable();
    start(
        tr("Looking through the other copy…"), [task = task_] { return lookThrough(task); },
        &MergeDialog::showFindings);
}

MergeDialog::~MergeDialog() {
    if (working_ != nullptr) {
        working_->wait();
        delete working_;
    }
    if (watched_) {  // the window may close its book first
        watched_->setWatching(true);
    }
}

void MergeDialog::build() {
    summary_->setObjectName(QStringLiteral("mergeSummary"));
    summary_->setWordWrap(true);
    caution_->setObjectName(QStringLiteral("mergeCaution"));
    caution_->setWordWrap(true);
    setTone(*caution_, Tone::quiet);
    caution_->setText(
        tr("A copy of this book as it is now is kept first. Undo does not reach back behind this step: take back what "
           "should not have come in History, entry by entry, or restore that copy."));
    progress_->setRange(0, 0);
    progress_->setTextVisible(false);
    go_->setObjectName(QStringLiteral("mergeGo"));
    go_->setAutoDefault(true);
    wantDeliberatePress(*go_);
    close_->setDefault(true);
    close_->setObjectName(QStringLiteral("mergeClose"));
    connect(go_, &QPushButton::clicked, this, &MergeDialog::bringEntriesIn);
    connect(close_, &QPushButton::clicked, this, &MergeDialog::reject);
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(24, 24, 24, 16);
    column->setSpacing(16);
    column->addWidget(summary_);
    column->addWidget(progress_);
    column->addWidget(choices_);
    column->addWidget(table_, 1);
    column->addWidget(caution_);
    auto* buttons = new QHBoxLayout;
    buttons->addStretch(1);
    buttons->addWidget(close_);
    buttons->addWidget(go_);
    column->addLayout(buttons);
    resize(QSize{880, 200}.boundedTo(roomOnScreen(*this)));
}

QWidget* MergeDialog::buildChoices() {
    auto* line = new QWidget{this};
    auto* row = new FlowLayout{8, line};
    row->addWidget(new QLabel{tr("Of all, let stand:"), line});
    const auto offer = [&](const char* name, const QString& words, Stands side) {
        auto* button = new QPushButton{words, line};
        button->setObjectName(QLatin1String{name});
        button->setAutoDefault(false);
        connect(button, &QPushButton::clicked, this, [this, side] {
            model_->chooseAll(side);
            table_->setFocus();
        });
        row->addWidget(button);
    };
    offer("mergeAllLater", tr("the &later"), Stands::byTheRule);
    offer("mergeAllOurs", tr("&this book's"), Stands::ours);
    offer("mergeAllTheirs", tr("the &other copy's"), Stands::theirs);
    return line;
}

void MergeDialog::prepareTable() {
    table_->setObjectName(QStringLiteral("mergeConflicts"));
    table_->setAccessibleName(tr("Entries that differ"));
    table_->setAccessibleDescription(
        tr("Left: this book's value stands. Right: the other copy's. Space: the other way."));
    table_->setModel(model_);
    table_->setSelectionBehavior(QAbstractItemView::SelectRows);
    table_->setSelectionMode(QAbstractItemView::SingleSelection);
    table_->setEditTriggers(QAbstractItemView::NoEditTriggers);
    table_->setTabKeyNavigation(false);
    table_->setShowGrid(false);
    table_->setFrameShape(QFrame::NoFrame);
    table_->setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    table_->verticalHeader()->hide();
    table_->verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    table_->verticalHeader()->setDefaultSectionSize(2 * fontMetrics().lineSpacing() + 12);
    table_->horizontalHeader()->setSectionResizeMode(QHeaderView::Stretch);
    table_->horizontalHeader()->setHighlightSections(false);
    table_->installEventFilter(this);
    connect(table_, &QTableView::clicked, this, [this](const QModelIndex& at) {
        if (at.column() == ConflictsModel::ours || at.column() == ConflictsModel::theirs) {
            chooseHere(at.column() == ConflictsModel::theirs ? Stands::theirs : Stands::ours);
        }
    });
}

void MergeDialog::start(const QString& words, std::function<MergeFindings()> work, Done next) {
    summary_->setText(words);
    progress_->show();
    choices_->hide();
    table_->hide();
    caution_->hide();
    go_->hide();
    auto findings = std::make_shared<MergeFindings>();
    working_ = QThread::create([findings, work = std::move(work)] { *findings = work(); });
    connect(working_, &QThread::finished, this, [this, findings, next] {
        working_->wait();
        working_->deleteLater();
        working_ = nullptr;
        progress_->hide();
        (this->*next)(*findings);
    });
    working_->start();
}

void MergeDialog::showFindings(const MergeFindings& findings) {
    if (!findings.trouble.isEmpty()) {
        sayTrouble(findings.trouble);
        return;
    }
    const MergeOutcome& outcome = findings.outcome;
    if (outcome.added + outcome.changed + outcome.certificates == 0 && outcome.conflicts.empty()) {
        sayTrouble(tr("The other copy holds nothing that this book does not have already."));
        return;
    }
    shown_ = outcome.conflicts.size();
    QString words = words::text(arrivalsInWords(outcome));
    if (shown_ > 0) {
        const QString differing = shown_ == 1 ? tr("1 entry differs in the two copies.")
                                              : tr("%1 entries differ in the two copies.").arg(shown_);
        words += QLatin1Char{'\n'} + differing + QLatin1Char{' '} +
                 tr("Left and right choose which value stands; the other stays in the book, struck through.");
    }
    summary_->setText(words);
    model_->show(outcome.conflicts);
    choices_->setVisible(shown_ > 1);
    table_->setVisible(shown_ > 0);
    caution_->show();
    go_->show();
    resize(QSize{width(), shown_ > 0 ? 480 : sizeHint().height()}.boundedTo(roomOnScreen(*this)));
    if (shown_ > 0) {
        table_->setCurrentIndex(model_->index(0, ConflictsModel::entry));
        table_->setFocus();
    } else {
        close_->setFocus();
    }
}

void MergeDialog::bringEntriesIn() {
    isWriting_ = true;
    close_->setEnabled(false);
    book_.setWatching(false);  // the file is not free to read while it is written to
    start(
        tr("Bringing the entries in…"), [task = task_, choices = model_->choices()] { return bringIn(task, choices); },
        &MergeDialog::finish);
}

void MergeDialog::finish(const MergeFindings& findings) {
    isWriting_ = false;
    close_->setEnabled(true);
    book_.setWatching(true);
    if (!findings.trouble.isEmpty()) {
        sayTrouble(findings.trouble);
        return;
    }
    book_.undoStack().clear();  // what it would put back is no longer what stood before
    book_.lookForOutsideChanges();
    QString words = words::text(arrivalsInWords(findings.outcome));
    if (findings.outcome.conflicts.size() > shown_) {
        words += QLatin1Char{' '} + tr("More entries had come to differ meanwhile; of these the later values stand.");
    }
    emit book_.told(words);
    accept();
}

void MergeDialog::sayTrouble(const QString& trouble) {
    summary_->setText(trouble);
    readOut(*summary_);
    close_->setText(tr("Close"));
    close_->setDefault(true);
    close_->setFocus();
}

void MergeDialog::reject() {
    if (!isWriting_) {
        QDialog::reject();
    }
}

void MergeDialog::chooseHere(Stands side) {
    const QModelIndex current = table_->currentIndex();
    if (current.isValid()) {
        model_->choose(current.row(), side);
    }
}

/// To the next entry; behind the last one, to the button, which must be pressed by itself.
void MergeDialog::goOn() {
    const int next = table_->currentIndex().row() + 1;
    if (next < model_->rowCount()) {
        table_->setCurrentIndex(model_->index(next, ConflictsModel::entry));
    } else {
        go_->setFocus(Qt::TabFocusReason);
    }
}

bool MergeDialog::eventFilter(QObject* watched, QEvent* event) {
    if (watched != table_ || event->type() != QEvent::KeyPress || !table_->currentIndex().isValid()) {
        return QDialog::eventFilter(watched, event);
    }
    switch (static_cast<QKeyEvent*>(event)->key()) {
        case Qt::Key_Left:
            chooseHere(Stands::ours);
            return true;
        case Qt::Key_Right:
            chooseHere(Stands::theirs);
            return true;
        case Qt::Key_Space:
            model_->turn(table_->currentIndex().row());
            return true;
        case Qt::Key_Return:
        case Qt::Key_Enter:
            goOn();
            return true;
        default:
            return QDialog::eventFilter(watched, event);
    }
}

}  // namespace midden::ui
