// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/recipe/to_hand_panel.h"

#include <QCheckBox>
#include <QComboBox>
#include <QCompleter>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>
#include <algorithm>

#include "core/exchange/csv/cells.h"
#include "ui/shared/flow_layout.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

QLabel* heading(const QString& words) {
    auto* label = new QLabel{words};
    QFont bold = label->font();
    bold.setBold(true);
    label->setFont(bold);
    return label;
}

}  // namespace

ToHandPanel::ToHandPanel(QWidget* parent)
    : QWidget{parent},
      choicesRow_{new FlowLayout{24}},
      aim_{new QComboBox{this}},
      another_{new QLineEdit{this}},
      answer_{new QLabel{this}},
      take_{new QPushButton{tr("&Put it in"), this}} {
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(8);
    column->addWidget(heading(tr("What would mend it")));
    auto* tick = new QLabel{tr("Tick what is to hand, with the most there is of it in kilograms; empty is plenty.")};
    tick->setWordWrap(true);
    column->addWidget(tick);
    choicesRow_->setInColumns();
    choicesRow_->setLineSpacing(4);
    column->addLayout(choicesRow_);
    layOutFoot();
    answer_->setObjectName(QStringLiteral("mend"));
    answer_->setWordWrap(true);
    column->addWidget(answer_);
    take_->setObjectName(QStringLiteral("take"));
    column->addWidget(take_, 0, Qt::AlignLeft);
    connect(take_, &QPushButton::clicked, this, &ToHandPanel::taken);
}

void ToHandPanel::layOutFoot() {
    aim_->addItems({tr("Least to add"), tr("Fewest materials"), tr("Most kitchen waste used")});
    aim_->setObjectName(QStringLiteral("aim"));
    aim_->setAccessibleName(tr("What is wanted of the mend"));
    another_->setObjectName(QStringLiteral("another"));
    another_->setAccessibleName(tr("Another material to hand"));
    another_->setPlaceholderText(tr("another material to hand"));
    another_->setFixedWidth(36 * fontMetrics().averageCharWidth());
    auto* row = new FlowLayout{16};
    row->addWidget(another_);
    row->addWidget(aim_);
    static_cast<QVBoxLayout*>(layout())->addLayout(row);
    connect(aim_, &QComboBox::currentIndexChanged, this, &ToHandPanel::typed);
    connect(another_, &QLineEdit::returnPressed, this, [this] {
        emit anotherAsked(another_->text());
        another_->setText({});  // unlike clear(), with nothing to undo
    });
}

void ToHandPanel::setMaterials(const Materials& materials, const QStringList& offered, const QStringList& ticked) {
    for (const Choice& choice : choices_) {
        choicesRow_->removeWidget(choice.line);
        choice.line->hide();
        choice.line->deleteLater();  // something in it may be what asked for this
    }
    choices_.clear();
    QStringList names;
    for (const Material& material : materials.all()) {
        names += words::text(material.name);
    }
    auto* completer = new QCompleter{names, another_};
    completer->setCaseSensitivity(Qt::CaseInsensitive);
    completer->setFilterMode(Qt::MatchContains);
    another_->setCompleter(completer);
    for (const QString& id : offered) {
        if (const Material* material = materials.find(words::utf8(id))) {
            addChoice(*material, ticked.contains(id));
        }
    }
}

void ToHandPanel::addChoice(const Material& material, bool ticked) {
    const QString id = words::text(material.id);
    auto* line = new QWidget{this};
    Choice choice{id, line, new QCheckBox{words::text(material.name), line}, new QLineEdit{line}};
    choice.here->setObjectName(QStringLiteral("here-") + id);
    choice.here->setChecked(ticked);
    choice.here->setToolTip(tr("%1. How checked: %2").arg(words::text(material.source), words::text(material.checked)));
    choice.most->setObjectName(QStringLiteral("most-") + id);
    choice.most->setAccessibleName(tr("Most there is of %1, kg").arg(words::text(material.name)));
    choice.most->setPlaceholderText(tr("kg"));
    choice.most->setFixedWidth(8 * fontMetrics().averageCharWidth());
    choice.most->setEnabled(ticked);
    auto* row = new QHBoxLayout{line};
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(8);
    row->addWidget(choice.here, 1);
    row->addWidget(choice.most);
    choicesRow_->addWidget(line);
    line->show();
    connect(choice.here, &QCheckBox::toggled, choice.most, &QWidget::setEnabled);
    connect(choice.here, &QCheckBox::toggled, this, &ToHandPanel::typed);
    connect(choice.most, &QLineEdit::textChanged, this, &ToHandPanel::typed);
    choices_.push_back(choice);
}

QStringList ToHandPanel::offered() const {
    QStringList ids;
    for (const Choice& choice : choices_) {
        ids += choice.id;
    }
    return ids;
}

QStringList ToHandPanel::ticked() const {
    QStringList ids;
    for (const Choice& choice : choices_) {
        if (choice.here->isChecked()) {
            ids += choice.id;
        }
    }
    return ids;
}

std::vector<ToHand> ToHandPanel::toHand(const Materials& materials) const {
    std::vector<ToHand> all;
    for (const Choice& choice : choices_) {
        const Material* material = materials.find(words::utf8(choice.id));
        if (!choice.here->isChecked() || material == nullptr) {
            continue;
        }
        const auto most = parseDecimal(words::utf8(choice.most->text().trimmed()));
        const std::optional<double> limit = most && *most >= 0 ? std::optional{*most} : std::nullopt;
        all.push_back({portionOf(*material, 0), 0, limit, material->isKitchenWaste()});
    }
    return all;
}

Aim ToHandPanel::aim() const {
    constexpr std::array aims{Aim::leastMass, Aim::fewestMaterials, Aim::mostKitchenWaste};
    return aims.at(static_cast<std::size_t>(std::max(aim_->currentIndex(), 0)));
}

void ToHandPanel::setAnswer(const QString& words, bool canBeTaken) {
    answer_->setText(words);
    answer_->setVisible(!words.isEmpty());
    take_->setVisible(!words.isEmpty());
    take_->setEnabled(canBeTaken);
}

}  // namespace midden::ui
