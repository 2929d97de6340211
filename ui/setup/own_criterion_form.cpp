// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/setup/own_criterion_form.h"

#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <algorithm>
#include <array>

#include "core/criteria/gap_rule.h"
#include "core/criteria/phrases.h"
#include "core/store/read/book_rules.h"
#include "ui/setup/criterion_words.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

constexpr std::array continuities{Continuity::consecutive, Continuity::cumulative, Continuity::silent};

int indexOf(Continuity continuity) {
    return static_cast<int>(std::find(continuities.begin(), continuities.end(), continuity) - continuities.begin());
}

}  // namespace

OwnCriterionForm::OwnCriterionForm(const Book& book, std::optional<Criterion> amended, Keep keep, QWidget* parent)
    : ExplainedForm{amended ? tr("Edit the group’s own criterion") : tr("A criterion of the group’s own"),
                    tr("&Save this criterion"), parent},
      unit_{unitOf(book.log())},
      amended_{std::move(amended)},
      others_{criteriaOf(book.log())} {
    addLead(
        tr("It is kept in this logbook, is judged like the published ones, and certificates that quote it say that it "
           "is the group’s own rule. Readings that reach its figures show just that: that they reached them."),
        {});
    build();
    if (amended_) {
        fill(draftOf(*amended_));
    }
    connect(this, &ExplainedForm::typed, this, &OwnCriterionForm::explain);
    onSave([this, keep = std::move(keep)] { return save(keep); });
    explain();
}

void OwnCriterionForm::build() {
    title_ = addLine("ownTitle", tr("Title"), 44);
    threshold_ = addLine("ownThreshold", tr("Every position is kept at"), 10);
    exceeds_ = addChoiceBeside(threshold_, "ownExceeds", tr("The temperature itself counts, or only above it"),
                               {tr("or above"), tr("exceeded")});
    ceiling_ = addLine("ownCeiling", tr("and no hotter than"), 10);
    hold_ = addLine("ownHold", tr("for"), 10);
    holdUnit_ = addChoiceBeside(hold_, "ownHoldUnit", tr("The time is in"), {tr("hours"), tr("days")});
    continuity_ = addChoice("ownContinuity", tr("counted"),
                            {tr("without a break"), tr("in all, breaks allowed"), tr("not said: as without a break")});
    turnings_ = addLine("ownTurnings", tr("Turnings in that time"), 10);
    apart_ = addLine("ownApart", tr("each this many hours after the last"), 10);
    gap_ = addLine("ownGap", tr("Hours between readings, at most"), 10);
    source_ = addLine("ownSource", tr("Where it comes from"), 44);
    note_ = addLine("ownNote", tr("Note"), 44);
    outcome_ = addOutcome("ownOutcome");
    for (QLineEdit* optional : {ceiling_, turnings_, apart_, gap_, source_, note_}) {
        optional->setPlaceholderText(tr("optional"));
    }
    gap_->setToolTip(
        tr("Longer silences are not credited. Left out: %1 for a hold of 72 h or more, %2 from 48 h, "
           "half the hold below. Our own rule, no source.")
            .arg(words::text(durationWords(ordinaryMaxGap)), words::text(durationWords(maxGapForHold(hours(48))))));
}

void OwnCriterionForm::fill(const OwnDraft& draft) {
    title_->setText(draft.title);
    exceeds_->setCurrentIndex(draft.exceeds ? 1 : 0);
    threshold_->setText(draft.threshold);
    ceiling_->setText(draft.ceiling);
    hold_->setText(draft.hold);
    holdUnit_->setCurrentIndex(draft.holdInDays ? 1 : 0);
    continuity_->setCurrentIndex(indexOf(draft.continuity));
    turnings_->setText(draft.turnings);
    apart_->setText(draft.apartHours);
    gap_->setText(draft.gapHours);
    source_->setText(draft.source);
    note_->setText(draft.note);
}

OwnDraft OwnCriterionForm::draft() const {
    OwnDraft draft;
    draft.unit = unit_;
    draft.title = title_->text();
    draft.exceeds = exceeds_->currentIndex() == 1;
    draft.threshold = threshold_->text();
    draft.ceiling = ceiling_->text();
    draft.hold = hold_->text();
    draft.holdInDays = holdUnit_->currentIndex() == 1;
    draft.continuity = continuities.at(static_cast<std::size_t>(continuity_->currentIndex()));
    draft.turnings = turnings_->text();
    draft.apartHours = apart_->text();
    draft.gapHours = gap_->text();
    draft.source = source_->text();
    draft.note = note_->text();
    return draft;
}

OwnReading OwnCriterionForm::reading() const {
    return readOwn(draft(), amended_, others_);
}

void OwnCriterionForm::explain() {
    const OwnReading read = reading();
    const std::initializer_list<std::pair<QLineEdit*, OwnField>> fields{
        {title_, OwnField::title}, {threshold_, OwnField::threshold}, {ceiling_, OwnField::ceiling},
        {hold_, OwnField::hold},   {turnings_, OwnField::turnings},   {apart_, OwnField::apart},
        {gap_, OwnField::gap}};
    for (const auto& [line, field] : fields) {
        const auto wrong = read.wrong.find(field);
        remark(line, wrong == read.wrong.end() ? QString{} : wrong->second);
    }
    outcome_->setText(
        read.criterion
            ? tr("As it will be judged: %1").arg(stepWords(read.criterion->alternatives.front().steps.front()))
            : QString{});
    outcome_->setAccessibleName(outcome_->text());
    outcome_->setVisible(read.criterion.has_value());
}

QString OwnCriterionForm::save(const Keep& keep) {
    const OwnReading read = reading();
    if (read.criterion) {
        return keep(*read.criterion) ? QString{} : tr("The book could not take it; see the line at the top.");
    }
    if (!read.wrong.empty()) {
        return tr("Not saved: what stands beside the fields has to be put right first.");
    }
    return title_->text().trimmed().isEmpty() ? tr("Not saved: it needs a title.")
                                              : tr("Not saved: it needs a temperature and a time.");
}

}  // namespace midden::ui
