// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/certificate/criteria_choice.h"

#include <QCheckBox>
#include <QLabel>
#include <QSignalBlocker>
#include <QVBoxLayout>

#include "core/criteria/phrases.h"
#include "ui/certificate/paper_text.h"
#include "ui/shared/palette.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

constexpr int underTheBox = 26;  ///< pixels, so that words stand under the title, not under its box

QString figuresOf(const Judgement& judgement) {
    const auto read = judgement.credited == Seconds{} ? std::string{"0 h"} : durationWords(judgement.credited);
    return CriteriaChoice::tr("%1 – %2 of %3")
        .arg(verdictWords(judgement.verdict), QString::fromStdString(read),
             QString::fromStdString(durationWords(judgement.required)));
}

bool sameCriteria(const std::vector<Judgement>& judgements, const std::function<QString(std::size_t)>& idAt,
                  std::size_t count) {
    if (judgements.size() != count) {
        return false;
    }
    for (std::size_t i = 0; i < count; ++i) {
        if (QString::fromStdString(judgements[i].criterion.id) != idAt(i)) {
            return false;
        }
    }
    return true;
}

}  // namespace

QString verdictWords(Verdict verdict) {
    switch (verdict) {
        case Verdict::shown:
            return CriteriaChoice::tr("shown");
        case Verdict::shownWithinError:
            return CriteriaChoice::tr("only within the thermometer's error");
        case Verdict::notShown:
            break;
    }
    return CriteriaChoice::tr("not shown");
}

CriteriaChoice::CriteriaChoice(QWidget* parent) : QWidget{parent}, column_{new QVBoxLayout{this}} {
    column_->setContentsMargins(0, 0, 0, 0);
    column_->setSpacing(0);
}

void CriteriaChoice::show(const std::vector<Judgement>& judgements,
                          const std::function<bool(const std::string&)>& isChosen) {
    if (!sameCriteria(
            judgements, [&](std::size_t i) { return lines_[i].id; }, lines_.size())) {
        for (const auto& line : lines_) {
            line.box->deleteLater();
            line.words->deleteLater();
        }
        lines_.clear();
        for (const auto& judgement : judgements) {
            addLine(judgement);
        }
        fitTitles();
    }
    for (std::size_t i = 0; i < lines_.size(); ++i) {
        const auto& judgement = judgements[i];
        const QSignalBlocker quiet{lines_[i].box};
        lines_[i].box->setChecked(isChosen(judgement.criterion.id));
        const auto figures = figuresOf(judgement);
        const auto where = onOneLine(judgement.criterion.jurisdiction);
        auto* words = qobject_cast<QLabel*>(lines_[i].words);
        words->setText(where.isEmpty() ? figures : where + QStringLiteral(" · ") + figures);
        lines_[i].box->setAccessibleDescription(words->text());
    }
}

void CriteriaChoice::addLine(const Judgement& judgement) {
    const auto id = QString::fromStdString(judgement.criterion.id);
    auto* box = new QCheckBox{words::onButton(onOneLine(judgement.criterion.title)), this};
    box->setObjectName(QStringLiteral("criterion-") + id);
    box->setAccessibleName(onOneLine(judgement.criterion.title));
    box->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Fixed);  // a long title does not push the list wide
    box->setToolTip(words::onSeveralLines(onOneLine(judgement.criterion.title + ". " + judgement.criterion.scope)));
    auto* words = new QLabel{this};
    words->setTextFormat(Qt::PlainText);
    words->setWordWrap(true);
    words->setForegroundRole(QPalette::PlaceholderText);
    words->setContentsMargins(underTheBox, 0, 0, 8);
    column_->addWidget(box);
    column_->addWidget(words);
    connect(box, &QCheckBox::toggled, this, [this, id](bool on) { emit chosen(id, on); });
    lines_.push_back({id, onOneLine(judgement.criterion.title), box, words});
}

/// A title too long for its line ends in an ellipsis; the tip has all of it.
void CriteriaChoice::fitTitles() {
    for (const auto& line : lines_) {
        const int room = width() - underTheBox;
        line.box->setText(words::onButton(line.box->fontMetrics().elidedText(line.title, Qt::ElideRight, room)));
    }
}

void CriteriaChoice::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    fitTitles();
}

}  // namespace midden::ui
