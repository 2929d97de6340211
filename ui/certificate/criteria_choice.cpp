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

/// With line breaks between words; a word too long for a line ends in an ellipsis.
QString wrapped(const QString& words, const QFontMetrics& metrics, int room) {
    QStringList lines;
    QString line;
    for (const QString& word : words.split(QLatin1Char{' '})) {
        const QString longer = line.isEmpty() ? word : line + QLatin1Char{' '} + word;
        if (!line.isEmpty() && metrics.horizontalAdvance(longer) > room) {
            lines += line;
            line = word;
        } else {
            line = longer;
        }
    }
    lines += line;
    for (QString& one : lines) {
        one = metrics.elidedText(one, Qt::ElideRight, room);
    }
    return lines.join(QLatin1Char{'\n'});
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
    const std::size_t told = shippedInformation().size();
    const std::size_t judged = lines_.size() < told ? 0 : lines_.size() - told;
    if (lines_.empty() || !sameCriteria(
                              judgements, [&](std::size_t i) { return lines_[i].id; }, judged)) {
        for (const auto& line : lines_) {
            line.box->deleteLater();
            line.words->deleteLater();
        }
        lines_.clear();
        for (const auto& judgement : judgements) {
            addLine(judgement);
        }
        for (const auto& row : shippedInformation()) {
            addInformation(row);
        }
        fitTitles();
    }
    for (const auto& line : lines_) {
        const QSignalBlocker quiet{line.box};
        line.box->setChecked(isChosen(line.id.toStdString()));
    }
    for (std::size_t i = 0; i < judgements.size(); ++i) {
        const auto& judgement = judgements[i];
        const auto figures = figuresOf(judgement);
        const auto where = onOneLine(judgement.criterion.jurisdiction);
        auto* words = qobject_cast<QLabel*>(lines_[i].words);
        words->setText(where.isEmpty() ? figures : where + QStringLiteral(" · ") + figures);
        lines_[i].box->setAccessibleDescription(words->text());
    }
}

QLabel* CriteriaChoice::addBox(const std::string& id, const std::string& title, const std::string& scope) {
    const auto name = QString::fromStdString(id);
    auto* box = new QCheckBox{words::onButton(onOneLine(title)), this};
    box->setObjectName(QStringLiteral("criterion-") + name);
    box->setAccessibleName(onOneLine(title));
    box->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Fixed);  // a long title does not push the list wide
    box->setToolTip(words::onSeveralLines(onOneLine(title + ". " + scope)));
    auto* words = new QLabel{this};
    words->setTextFormat(Qt::PlainText);
    words->setWordWrap(true);
    words->setForegroundRole(QPalette::PlaceholderText);
    words->setContentsMargins(underTheBox, 0, 0, 8);
    column_->addWidget(box);
    column_->addWidget(words);
    connect(box, &QCheckBox::toggled, this, [this, name](bool on) { emit chosen(name, on); });
    lines_.push_back({name, onOneLine(title), box, words});
    return words;
}

void CriteriaChoice::addLine(const Judgement& judgement) {
    addBox(judgement.criterion.id, judgement.criterion.title, judgement.criterion.scope);
}

void CriteriaChoice::addInformation(const Information& row) {
    auto* words = addBox(row.id, row.title, row.scope);
    words->setText(tr("%1 · told, not judged").arg(onOneLine(row.jurisdiction)));
    lines_.back().box->setAccessibleDescription(words->text());
}

/// A title too long for its line goes on in the next: a check box does not wrap by itself.
void CriteriaChoice::fitTitles() {
    for (const auto& line : lines_) {
        line.box->setText(words::onButton(wrapped(line.title, line.box->fontMetrics(), width() - underTheBox)));
    }
}

void CriteriaChoice::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    fitTitles();
}

}  // namespace midden::ui
