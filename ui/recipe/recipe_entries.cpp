// SPDX-License-Identifier: GPL-3.0-or-later
// What the recipe screen shows of the book and of what is typed, and what it writes into the book.
#include <QComboBox>
#include <QLabel>
#include <QPushButton>
#include <QSignalBlocker>
#include <algorithm>

#include "core/store/read/book_rules.h"
#include "ui/recipe/gauge.h"
#include "ui/recipe/recipe_lines.h"
#include "ui/recipe/recipe_screen.h"
#include "ui/recipe/to_hand_panel.h"
#include "ui/shared/hold_loss.h"
#include "ui/shared/known_words.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

QStringList idsOf(const QString& text) {
    return text.split(QLatin1Char{' '}, Qt::SkipEmptyParts);
}

/// What could not be read stays, to be put right.
std::vector<TypedLine> linesLeft(const std::vector<TypedLine>& typed, const std::vector<ReadLine>& read) {
    std::vector<TypedLine> left;
    for (std::size_t i = 0; i < typed.size() && i < read.size(); ++i) {
        if (!read[i].addition) {
            left.push_back(typed[i]);
        }
    }
    return left;
}

}  // namespace

void RecipeScreen::keepTicked() {
    book_.setSetting(setting::recipeToHand, toHand_->ticked().join(QLatin1Char{' '}));
    refresh();
}

void RecipeScreen::refreshBook() {
    materials_ = materialsOf(book_.log());
    measures_ = measuresOf(book_);
    QStringList names;
    for (const Material& material : materials_.all()) {
        names += words::text(material.name);
    }
    lines_->setKnown(names);
    refreshToHand();
    refreshBatches();
}

void RecipeScreen::refreshToHand() {
    const QStringList offered = idsOf(book_.setting(setting::recipeOffered));
    const QStringList ticked = idsOf(book_.setting(setting::recipeToHand));
    if (offered != toHand_->offered()) {
        toHand_->setMaterials(materials_, offered, ticked);
    }
}

/// The running batches, newest first, and the plan of a new one; the batch the window looks at is chosen.
void RecipeScreen::refreshBatches() {
    {
        const QSignalBlocker quiet{into_};
        const QVariant chosen = book_.batch() ? QVariant{static_cast<qlonglong>(*book_.batch())} : into_->currentData();
        into_->clear();
        into_->addItem(tr("a new batch, nothing in it yet"));
        auto batches = book_.log().batches();
        std::ranges::reverse(batches);
        for (const Batch& batch : batches) {
            if (!batch.finished) {
                into_->addItem(words::text(batch.name), static_cast<qlonglong>(batch.id));
            }
        }
        into_->setCurrentIndex(std::max(0, chosen.isValid() ? into_->findData(chosen) : 0));
    }
    refresh();
}

std::optional<Batch> RecipeScreen::chosenBatch() const {
    for (const Batch& batch : book_.log().batches()) {
        if (into_->currentData() == QVariant{static_cast<qlonglong>(batch.id)}) {
            return batch;
        }
    }
    return std::nullopt;
}

std::vector<Addition> RecipeScreen::alreadyIn() const {
    const auto batch = chosenBatch();
    return batch ? book_.log().additions(batch->id) : std::vector<Addition>{};
}

std::optional<double> RecipeScreen::binLitres() const {
    const auto batch = chosenBatch();
    for (const Bin& bin : book_.log().bins()) {
        if (batch && !batch->stays.empty() && bin.id == batch->stays.back().bin) {
            return bin.volumeLitres;
        }
    }
    return std::nullopt;
}

void RecipeScreen::refresh() {
    read_.clear();
    std::vector<Portion> portions;
    for (const Addition& addition : alreadyIn()) {
        portions.push_back(portionOf(addition, materials_));
    }
    for (const TypedLine& line : lines_->lines()) {
        read_.push_back(readLine(line, measures_, materials_));
        if (read_.back().addition) {
            portions.push_back(portionOf(*read_.back().addition, materials_));
        }
    }
    lines_->setRemarks(read_);
    showMixture(mixtureOf(portions));
    showKnown();
    showMend(portions);
    showCautions();
    question_->hide();  // it spoke of what was typed before
    const auto batch = chosenBatch();
    const bool any = std::ranges::any_of(read_, [](const ReadLine& line) { return line.addition.has_value(); });
    log_->setText(batch ? tr("&Log these into %1").arg(words::text(batch->name)) : tr("&Log these into a batch"));
    log_->setToolTip(batch ? QString{} : tr("Start a batch in a bin first, then choose it above."));
    log_->setEnabled(batch && any && !book_.isReadOnly());
}

void RecipeScreen::showMixture(const Mixture& mixture) {
    if (mixture.wetMassKilograms <= 0) {
        ratio_->setFigure({}, {}, {});
        moisture_->setFigure({}, {}, {});
        ratioWords_->setText(tr("Write down the first bucket: the figures come as you type."));
        for (QLabel* label : {moistureWords_, doubts_, room_}) {
            label->clear();
        }
    } else {
        const QString ratio =
            figureInWords(tr("C:N"), mixture.carbonNitrogen, mixture.carbonNitrogenRange, preferredCarbonNitrogen);
        const QString moisture =
            figureInWords(tr("Moisture"), mixture.moisturePercent, mixture.moistureRange, preferredMoisture);
        ratio_->setFigure(mixture.carbonNitrogen, mixture.carbonNitrogenRange, ratio);
        moisture_->setFigure(mixture.moisturePercent, mixture.moistureRange, moisture);
        ratioWords_->setText(ratio);
        moistureWords_->setText(moisture);
        doubts_->setText(doubtsInWords(mixture));
        room_->setText(tr("%1 kg in all. ").arg(words::number(mixture.wetMassKilograms, 1)) +
                       roomInWords(mixture, binLitres()));
    }
    for (QLabel* label : {doubts_, room_, moistureWords_}) {
        label->setVisible(!label->text().isEmpty());
    }
}

/// How the figures of what is in and typed are known: a word for each, their sources a click further.
void RecipeScreen::showKnown() {
    std::vector<const Material*> materials;
    const auto take = [&](const Addition& addition) {
        if (const Material* material = materials_.find(addition)) {
            materials.push_back(material);
        }
    };
    std::ranges::for_each(alreadyIn(), take);
    for (const ReadLine& line : read_) {
        if (line.addition) {
            take(*line.addition);
        }
    }
    known_->setText(knownInWords(materials));
    sources_->setText(sourcesInWords(materials) + QLatin1Char{'\n'} + airSourceInWords());
    known_->setVisible(!materials.empty());
    showSources_->setVisible(!materials.empty());
    if (materials.empty()) {
        sources_->hide();
    }
}

void RecipeScreen::showMend(const std::vector<Portion>& portions) {
    if (portions.empty()) {
        mend_ = {};
        toHand_->setAnswer({}, false);
        return;
    }
    mend_ = mendFor(portions, toHand_->toHand(materials_), toHand_->aim());
    const bool any = std::ranges::any_of(mend_.balance.kilograms, [](double mass) { return mass >= 0.005; });
    toHand_->setAnswer(mend_.words, mend_.reached && any);
}

void RecipeScreen::showCautions() {
    QStringList names;
    for (const TypedLine& line : lines_->lines()) {
        if (!line.material.trimmed().isEmpty()) {
            names += line.material.trimmed();
        }
    }
    QStringList lines;
    QStringList sources;
    for (const CautionLine& caution : cautionLines(names, materials_)) {
        lines += caution.words;
        sources += caution.source;
    }
    cautions_->setText(lines.join(QStringLiteral("\n")));
    cautions_->setToolTip(sources.join(QStringLiteral("\n")));
    cautions_->setVisible(!lines.isEmpty());
}

void RecipeScreen::takeMend() {
    const Mend mend = mend_;
    {
        const QSignalBlocker quiet{lines_};
        for (std::size_t i = 0; i < mend.toHand.size(); ++i) {
            if (mend.balance.kilograms[i] >= 0.005) {
                lines_->append({words::text(mend.toHand[i].material.material),
                                tr("%1 kg").arg(words::number(mend.balance.kilograms[i], 2))});
            }
        }
    }
    refresh();
    log_->setFocus();
}

void RecipeScreen::offer(const QString& name) {
    const Material* material = materials_.find(words::utf8(name));
    if (material == nullptr) {
        toHand_->setAnswer(tr("%1 is not in the list of materials.").arg(name), false);
        return;
    }
    const QString id = words::text(material->id);
    QStringList offered = toHand_->offered();
    QStringList ticked = toHand_->ticked();
    if (!offered.contains(id)) {
        offered += id;
    }
    if (!ticked.contains(id)) {
        ticked += id;
    }
    book_.setSetting(setting::recipeOffered, offered.join(QLatin1Char{' '}));
    book_.setSetting(setting::recipeToHand, ticked.join(QLatin1Char{' '}));
    toHand_->setMaterials(materials_, offered, ticked);
    refresh();
}

std::vector<Addition> RecipeScreen::typedFor(BatchId batch) const {
    std::vector<Addition> typed;
    for (const ReadLine& line : read_) {
        if (line.addition) {
            typed.push_back(*line.addition);
            typed.back().batch = batch;
            typed.back().when = book_.now();
        }
    }
    return typed;
}

void RecipeScreen::askAndLog() {
    const auto batch = chosenBatch();
    const Question question = batch ? holdLossQuestion(book_, batch->id, typedFor(batch->id)) : Question{};
    if (question.words.isEmpty()) {
        logAdditions();
    } else {
        question_->ask(question);
    }
}

void RecipeScreen::logAdditions() {
    const auto batch = chosenBatch();
    if (!batch) {
        return;
    }
    const auto typed = typedFor(batch->id);
    const auto read = read_;
    const bool done = book_.changeTogether(tr("add %1").arg(tr("a recipe")), [&](const Book::Apply& apply) {
        for (const Addition& addition : typed) {
            apply(Put<Addition>{addition});
        }
    });
    if (done) {
        lines_->setLines(linesLeft(lines_->lines(), read));
        refresh();
        lines_->begin();
        emit book_.told(tr("Saved into %1.").arg(words::text(batch->name)));
    }
}

}  // namespace midden::ui
