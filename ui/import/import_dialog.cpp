// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/import/import_dialog.h"

#include <QHBoxLayout>
#include <QLabel>
#include <QLocale>
#include <QPushButton>
#include <QUndoStack>
#include <QVBoxLayout>
#include <algorithm>

#include "ui/import/import_lines.h"
#include "ui/import/import_progress.h"
#include "ui/import/import_questions.h"
#include "ui/import/import_words.h"
#include "ui/shared/book.h"
#include "ui/shared/copies_words.h"
#include "ui/shared/deliberate.h"
#include "ui/shared/looked_at.h"
#include "ui/shared/named_button.h"
#include "ui/shared/screen_fit.h"
#include "ui/shared/scroll_pane.h"
#include "ui/shared/speak.h"
#include "ui/shared/tone.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

constexpr int usualWidth = 620;

QLabel* wrapped(const char* name, QWidget* parent) {
    auto* label = new QLabel{parent};
    label->setObjectName(QLatin1String{name});
    label->setWordWrap(true);
    return label;
}

}  // namespace

ImportDialog::ImportDialog(Book& book, const QString& file, std::filesystem::path copies, QWidget* parent)
    : QDialog{parent},
      book_{book},
      watched_{&book},
      task_{.book = book.log().file(),
            .file = file.toStdString(),
            .copies = std::move(copies),
            .who = words::utf8(book.setting(setting::who)),
            .now = book.now().at},
      column_{new QVBoxLayout},
      summary_{wrapped("intakeSummary", this)},
      progress_{new ImportProgressLine{[this] { return background_.share(); }, this}},
      problem_{wrapped("intakeProblem", this)},
      caution_{wrapped("intakeCaution", this)},
      back_{namedButton(tr("Bac&k"), "intakeBack", this)},
      close_{namedButton(tr("Leave it"), "intakeClose", this)},
      go_{namedButton(tr("&Read it through"), "intakeGo", this)} {
    setObjectName(QStringLiteral("intake"));
    setWindowTitle(tr("Bring in %1").arg(words::fileName(task_.file)));
    build();
    recognise();
}

ImportDialog::~ImportDialog() {
    if (watched_) {  // the window may close its book first
        watched_->setWatching(true);
    }
}

void ImportDialog::build() {
    setTone(*problem_, Tone::question);
    setTone(*caution_, Tone::quiet);
    const QString undone = tr(
        "Undo does not reach back behind this step: take back what should not have come in History, entry by entry.");
    caution_->setText(task_.copies.empty()
                          ? undone
                          : tr("A copy of this book as it is now is kept first. Undo does not reach back behind this "
                               "step: take back what should not have come in History, entry by entry, or restore that "
                               "copy."));
    go_->setProperty("leading", true);
    go_->setDefault(true);
    wantDeliberatePress(*go_);
    connect(progress_, &ImportProgressLine::appeared, this, &ImportDialog::fitHeight);
    connect(go_, &QPushButton::clicked, this, &ImportDialog::go);
    connect(back_, &QPushButton::clicked, this, &ImportDialog::ask);
    connect(close_, &QPushButton::clicked, this, &ImportDialog::reject);
    auto* buttons = new QHBoxLayout;
    buttons->setSpacing(8);
    buttons->addWidget(back_);
    buttons->addStretch(1);
    buttons->addWidget(close_);
    buttons->addWidget(go_);
    column_->setContentsMargins(24, 24, 24, 16);
    column_->setSpacing(16);
    column_->addWidget(summary_);
    column_->addWidget(progress_);
    column_->addWidget(problem_);
    column_->addWidget(caution_);
    column_->addStretch(1);
    auto* content = new QWidget;
    content->setLayout(column_);
    auto* whole = new QVBoxLayout{this};
    whole->setContentsMargins(0, 0, 0, 0);
    whole->setSpacing(0);
    pane_ = new ScrollPane{content, this};
    whole->addWidget(pane_, 1);
    buttons->setContentsMargins(24, 0, 24, 16);
    whole->addLayout(buttons);
    resize(QSize{usualWidth, 200}.boundedTo(roomOnScreen(*this)));
}

void ImportDialog::recognise() {
    const auto head = sniffHeader(task_.file);
    if (!head) {
        summary_->setText(tr("%1 cannot be brought in.").arg(words::fileName(task_.file)));
        enter(Step::ending);
        say(words::troubleOf({head.error(), {}}, task_.file));
        return;
    }
    task_.kind = head->kind;
    questions_ = new ImportQuestions{book_, *head, this};
    column_->insertWidget(1, questions_);
    connect(questions_, &ImportQuestions::reshaped, this, &ImportDialog::fitHeight);
    setTabOrder(questions_, back_);
    setTabOrder(back_, close_);
    setTabOrder(close_, go_);
    ask();
}

void ImportDialog::enter(Step step) {
    step_ = step;
    const bool isBusy = step == Step::reading || step == Step::writing;
    const bool showsLines = step == Step::deciding || step == Step::writing;
    if (!isBusy) {
        progress_->end();
    }
    if (questions_ != nullptr) {
        questions_->setVisible(step == Step::asking || step == Step::reading);
        questions_->setEnabled(step == Step::asking);
    }
    if (lines_ != nullptr) {
        lines_->setVisible(showsLines || step == Step::ending);
    }
    problem_->hide();
    caution_->setVisible(showsLines);
    back_->setVisible(!isBusy && step != Step::asking && questions_ != nullptr);
    go_->setVisible(step == Step::asking || step == Step::deciding);
    go_->setText(step == Step::deciding ? tr("&Bring in") : tr("&Read it through"));
    close_->setText(isBusy ? tr("Stop") : step == Step::ending ? tr("Close") : tr("Leave it"));
    close_->setEnabled(true);
    const bool isHarmless = step == Step::asking || (step == Step::deciding && !takesAway_);
    (isHarmless ? go_ : close_)->setDefault(true);
    (isHarmless && step == Step::deciding ? go_ : close_)->setFocus();
    fitHeight();
}

/// Only now does the style say how tall everything is.
void ImportDialog::showEvent(QShowEvent* event) {
    QDialog::showEvent(event);
    fitHeight();
}

void ImportDialog::fitHeight() {
    column_->activate();
    const int buttons = layout()->totalMinimumSize().height() - pane_->minimumSizeHint().height();
    resize(QSize{width(), pane_->leastHeight(width()) + buttons}.boundedTo(roomOnScreen(*this)));
}

void ImportDialog::say(const QString& problem) {
    speak(*problem_, problem);
    fitHeight();
}

QString ImportDialog::writingWords(double share) const {
    if (*stop_) {
        return tr("Stopping: what was written is taken back…");
    }
    if (share == 0) {
        return tr("Keeping a copy of the book as it is now…");
    }
    return share < 1 ? tr("Writing into the book…") : tr("Finishing…");
}

void ImportDialog::go() {
    if (step_ == Step::asking) {
        read();
    } else if (step_ == Step::deciding) {
        write();
    }
}

void ImportDialog::ask() {
    summary_->setText(words::whatItHolds(task_.file, task_.kind) + QLatin1Char{' '} +
                      tr("It is read through first; nothing is written before you have seen what would come."));
    enter(Step::asking);
    questions_->begin();
}

void ImportDialog::read() {
    auto answers = questions_->answers();
    if (!answers) {
        say(words::text(answers.error().wrong));
        return;
    }
    task_.answers = *std::move(answers);
    findings_ = {};
    enter(Step::reading);
    progress_->begin([](double /*share*/) { return tr("Reading the file…"); });
    background_.start([this, task = task_](const BackgroundTask::TaskProgress& progress) {
        auto findings = std::make_shared<ImportFindings>(readThrough(task, progress));
        return [this, findings] { showFindings(*findings); };
    });
}

void ImportDialog::showFindings(const ImportFindings& findings) {
    const ImportTrouble& trouble = findings.trouble;
    if (!trouble.isNone()) {
        ask();
        const bool lacksZone =
            trouble.refusal && trouble.refusal->wrongUsage && trouble.refusal->line > 0 && !task_.answers.zone;
        if (lacksZone) {
            questions_->askForZone();
        }
        say(lacksZone ? tr("Line %1 has a time without its offset from UTC. Say in which time zone such times are.")
                            .arg(QLocale{}.toString(static_cast<qulonglong>(trouble.refusal->line)))
                      : words::troubleOf(trouble, task_.file));
        return;
    }
    findings_ = findings;
    delete lines_;
    const auto lines = linesOf(book_, findings_, task_.file);
    lines_ = makeLines(lines, this);
    column_->insertWidget(1, lines_);
    takesAway_ = std::ranges::any_of(lines, &words::ImportLine::takesAway);
    const bool brings = words::bringsAnything(findings_.previewed.outcome);
    summary_->setText(brings
                          ? tr("This is what %1 brings. Nothing has been written yet.").arg(words::fileName(task_.file))
                          : tr("The book has all that is in %1 already.").arg(words::fileName(task_.file)));
    enter(brings ? Step::deciding : Step::ending);
}

void ImportDialog::write() {
    enter(Step::writing);
    stop_ = std::make_shared<std::atomic<bool>>(false);
    progress_->begin([this](double share) { return writingWords(share); });
    emit book_.aboutToWrite();
    book_.setWatching(false);  // the file is not free to read while it is written to
    background_.start([this, task = task_, staged = findings_.staged,
                       stop = stop_](const BackgroundTask::TaskProgress& progress) {
        auto done =
            std::make_shared<TakenIn>(takeIn(task, *staged, [&](double share) { return progress(share) && !*stop; }));
        return [this, done] { finish(*done); };
    });
}

void ImportDialog::finish(const TakenIn& done) {
    book_.setWatching(true);
    if (!done.trouble.isNone()) {
        enter(Step::deciding);
        say(words::troubleOf(done.trouble, task_.file));
        return;
    }
    book_.undoStack().clear();  // what it would put back is no longer what stood before
    book_.lookForOutsideChanges();
    if (const auto batch = book_.log().batchNamed(done.outcome.batch)) {
        lookAtBatch(book_, batch->id);
    }
    emit broughtIn();
    emit book_.told(words::cameIn(done.outcome));
    accept();
}

void ImportDialog::reject() {
    if (step_ == Step::reading) {
        background_.drop();
        ask();
        say(words::troubleOf({stoppedImport(), {}}, task_.file));
    } else if (step_ == Step::writing) {
        *stop_ = true;
        close_->setEnabled(false);
    } else {
        QDialog::reject();
    }
}

}  // namespace midden::ui
