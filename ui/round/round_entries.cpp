// SPDX-License-Identifier: GPL-3.0-or-later
// What the Round does with what is typed and pressed.
#include <QLabel>
#include <QPushButton>
#include <QScopedValueRollback>
#include <QScrollArea>
#include <QVBoxLayout>
#include <algorithm>

#include "ui/round/batch_forms.h"
#include "ui/round/entry_check.h"
#include "ui/round/reading_cell.h"
#include "ui/round/round_header.h"
#include "ui/round/round_screen.h"
#include "ui/round/round_table.h"
#include "ui/round/safety_line.h"
#include "ui/shared/inline_form.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

std::optional<Celsius> celsiusOf(const std::optional<Reading>& reading) {
    return reading ? std::optional{toCelsius(reading->written)} : std::nullopt;
}

Act actOf(BatchActions::Kind kind) {
    using Kind = BatchActions::Kind;
    switch (kind) {
        case Kind::turned:
        case Kind::forked:
        case Kind::move:
        case Kind::rest:
            return Act::turning;
        case Kind::opened:
            return Act::opening;
        case Kind::added:
        case Kind::squeeze:
            return Act::adding;
        case Kind::finish:
        case Kind::harvested:
            return Act::takingOut;
        default:
            return Act::reading;
    }
}

}  // namespace

/// Puts, amends or withdraws, whichever the cell asks for. True when the book now holds what the cell says.
bool RoundScreen::store(const Reading& wanted, const std::optional<Reading>& stored, const Entry& entry,
                        const QString& label) {
    const QScopedValueRollback storing{isStoring_, true};
    if (!entry.written) {
        return !stored || book_.change(Withdraw<Reading>{stored->id(), {}}, tr("%1 taken back").arg(label));
    }
    const QString named = QStringLiteral("%1 %2").arg(label, words::written(*entry.written));
    if (!stored) {
        Reading fresh = wanted;
        fresh.written = *entry.written;
        return book_.change(Put<Reading>{fresh}, named);
    }
    if (stored->written == *entry.written) {
        return true;
    }
    Reading amended = *stored;
    amended.written = *entry.written;
    return book_.change(Amend<Reading>{stored->id(), amended, {}}, named);
}

void RoundScreen::enterOutside(const QString& text) {
    const Entry entry = readEntry(text, {.unit = plan_.unit, .isOutside = true});
    header_->questionOutside(entry.question);
    const bool refused = !entry.written && !entry.question.isEmpty();
    if (!refused && store({.place = outsidePlace(), .when = plan_.when}, plan_.outsideNow, entry, tr("air outside"))) {
        header_->outside()->setTaken();
        refresh();
        header_->questionOutside(entry.question);
    } else if (!refused) {
        header_->outside()->setRefused();
        header_->questionOutside(tr("Not saved. Enter tries again."));
    }
}

void RoundScreen::enterReading(std::size_t index, const QString& text) {
    const RoundRow row = plan_.rows.at(index);
    EntryContext context{
        .unit = plan_.unit, .last = celsiusOf(row.last), .thresholds = unlikelyThresholdsOf(book_.log())};
    context.outside = celsiusOf(plan_.outsideNow);
    const Entry entry = readEntry(text, context);
    const bool refused = !entry.written && !entry.question.isEmpty();
    table_->question(index, entry.question.isEmpty() ? QString{} : tr("%1 F2 goes back to it.").arg(entry.question));
    if (refused) {
        sayComplete();
        return;
    }
    const QString label = QStringLiteral("%1, %2").arg(words::text(row.bin.name), words::text(row.position));
    if (store({.place = row.place(), .when = row.when, .probe = header_->probeFor(row.last)}, row.now, entry, label)) {
        if (ReadingCell* cell = table_->cell(index)) {  // none when another program's bins came with the entry
            cell->setTaken();
        }
        refresh();
    } else {
        table_->cell(index)->setRefused();
        table_->question(index, tr("Not saved. Enter tries again."));
        sayComplete();
    }
}

void RoundScreen::goOn(std::size_t row) {
    if (const auto next = table_->rowAfter(row, 1)) {
        goTo(*next);
    } else if (const auto empty = table_->firstEmptyCell()) {
        goTo(*empty);
    } else {
        sayComplete();
    }
}

void RoundScreen::goTo(std::size_t row) {
    if (ReadingCell* cell = table_->cell(row)) {
        cell->setFocus();
        scroll_->ensureWidgetVisible(cell);
    }
}

void RoundScreen::goToBin(BinId bin) {
    std::optional<std::size_t> first;
    for (std::size_t i = 0; i < plan_.rows.size(); ++i) {
        const RoundRow& row = plan_.rows[i];
        const bool isHere = row.bin.id == bin && table_->cell(i) != nullptr;
        if (isHere && !row.now) {
            return goTo(i);
        }
        first = isHere && !first ? std::optional{i} : first;
    }
    if (first) {
        goTo(*first);
    }
}

void RoundScreen::returnToCells() {
    if (table_->cell(row_) != nullptr && table_->cell(row_)->text().isEmpty()) {
        goTo(row_);
    } else if (const auto empty = table_->firstEmptyCell()) {
        goTo(*empty);
    } else if (const auto first = table_->cell(row_) != nullptr ? std::optional{row_} : table_->rowAfter(row_, 1)) {
        goTo(*first);
    } else {
        header_->outside()->setFocus();
    }
}

void RoundScreen::goToQuestion() {
    if (const auto row = table_->lastQuestioned()) {
        goTo(*row);
        table_->cell(*row)->selectAll();
    }
}

void RoundScreen::sayComplete() {
    const auto cells =
        std::count_if(plan_.rows.begin(), plan_.rows.end(), [](const RoundRow& row) { return !row.isEmptyBin(); });
    const auto typed =
        std::count_if(plan_.rows.begin(), plan_.rows.end(), [](const RoundRow& row) { return row.now.has_value(); });
    const int refused = refusedIn(*table_);
    if (plan_.readOnly) {
        summary_->setText(tr("This book is open for reading only: nothing can be typed."));
    } else if (refused > 0) {
        summary_->setText(
            tr("%1 of %2 read. %3")
                .arg(typed)
                .arg(cells)
                .arg(refused == 1 ? tr("1 number is not saved.") : tr("%1 numbers are not saved.").arg(refused)));
    } else if (cells > 0 && typed == cells) {
        summary_->setText(typed == 1 ? tr("Round complete: 1 reading, saved.")
                                     : tr("Round complete: %1 readings, all saved.").arg(typed));
    } else {
        summary_->setText(tr("%1 of %2 read. Enter goes to the next cell; every number is saved as you leave it.")
                              .arg(typed)
                              .arg(cells));
    }
}

void RoundScreen::choose(std::size_t row) {
    row_ = row;
    const RoundRow& chosen = plan_.rows.at(row);
    book_.lookAt(chosen.bin.id, chosen.batch);
    showTarget();
}

Place RoundScreen::placeOfRow() const {
    return row_ < plan_.rows.size() ? plan_.rows[row_].place() : Place{};
}

/// Stays at that place as long as it is one of the bin looked at; else goes to the first of that bin.
void RoundScreen::follow(const Place& before) {
    std::optional<std::size_t> first;
    row_ = 0;
    for (std::size_t i = plan_.rows.size(); i-- > 0;) {
        if (plan_.rows[i].bin.id == book_.bin()) {
            first = i;
            row_ = plan_.rows[i].place() == before ? i : row_;
        }
    }
    if (first && plan_.rows[row_].bin.id != book_.bin()) {
        row_ = *first;
    }
}

/// What the buttons act on: the bin that is looked at, none where it is out of use.
FormTarget RoundScreen::target() const {
    FormTarget target{.book = book_, .when = plan_.when, .bin = {}, .batch = {}};
    if (row_ < plan_.rows.size() && plan_.rows[row_].bin.id == book_.bin()) {
        const RoundRow& row = plan_.rows[row_];
        target.when = row.when;
        target.bin = row.bin;
        target.batch = row.batch ? book_.log().batch(*row.batch) : std::nullopt;
    }
    return target;
}

void RoundScreen::showTarget() {
    const FormTarget on = target();
    actions_->actOn(on.batch ? words::text(on.batch->name) : QString{}, on.batch && on.batch->fed, !plan_.readOnly);
    const SafetyLine line = safetyLineFor(Act::reading);
    caution_->setText(line.words);
    caution_->setToolTip(line.source);
}

void RoundScreen::caution(BatchActions::Kind kind) {
    const SafetyLine line = safetyLineFor(actOf(kind));
    caution_->setText(line.words);
    caution_->setToolTip(line.source);
}

void RoundScreen::act(BatchActions::Kind kind) {
    using Kind = BatchActions::Kind;
    const FormTarget on = target();
    switch (kind) {
        case Kind::turned:
            enterAeration(on, AerationKind::turned);
            break;
        case Kind::forked:
            if (on.batch->fed) {
                openForm(makeForkedForm(on, this));
            } else {
                enterAeration(on, AerationKind::forked);
            }
            break;
        case Kind::harvested:
            openForm(makeHarvestForm(on, this));
            break;
        case Kind::rest:
            openForm(makeRestForm(on, this));
            break;
        case Kind::feeding:
            openForm(makeFeedingForm(on, this));
            break;
        case Kind::watered:
            enterAeration(on, AerationKind::watered);
            break;
        case Kind::opened:
            enterAeration(on, AerationKind::opened);
            break;
        case Kind::added:
            openForm(makeAddedForm(on, this));
            break;
        case Kind::squeeze:
            openForm(makeSqueezeForm(on, this));
            break;
        case Kind::ripening:
            openForm(makeRipeningForm(on, this));
            break;
        case Kind::note:
            openForm(makeNoteForm(on, this));
            break;
        case Kind::finish:
            openForm(makeFinishForm(on, this));
            break;
        case Kind::move:
            openForm(makeMoveForm(on, this));
            break;
        case Kind::start:
            startBatch(on.bin ? std::optional{on.bin->id} : std::nullopt);
            break;
    }
    const bool isSaidInForm = kind == Kind::added || kind == Kind::move || kind == Kind::finish ||
                              kind == Kind::harvested || kind == Kind::rest;
    caution(isSaidInForm ? Kind::note : kind);
}

void RoundScreen::startBatch(std::optional<BinId> bin) {
    for (std::size_t i = 0; bin && i < plan_.rows.size(); ++i) {
        if (plan_.rows[i].bin.id == *bin) {
            choose(plan_.rows[row_].bin.id == *bin ? row_ : i);
            break;
        }
    }
    FormTarget on = target();
    if (!bin) {
        on.bin.reset();
        on.batch.reset();
    }
    openForm(makeStartForm(on, this));
}

void RoundScreen::openForm(InlineForm* form) {
    delete form_;
    form_ = form;
    formPlace_->addWidget(form);
    connect(form, &InlineForm::closed, this, [this, form] {
        form->hide();
        form->deleteLater();
        form_ = form_ == form ? nullptr : form_;
        refresh();
        takeKeyboard(false);
    });
    refreshEmpty();
    form->begin();
}

}  // namespace midden::ui
