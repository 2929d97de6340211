// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/recipe/recipe_screen.h"

#include <QComboBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QScrollArea>
#include <QVBoxLayout>

#include "ui/recipe/gauge.h"
#include "ui/recipe/recipe_lines.h"
#include "ui/recipe/to_hand_panel.h"
#include "ui/shared/hairline.h"
#include "ui/shared/in_view.h"
#include "ui/shared/named_button.h"
#include "ui/shared/question_bar.h"

namespace midden::ui {

RecipeScreen::RecipeScreen(Book& book, QWidget* parent)
    : QWidget{parent},
      book_{book},
      into_{new QComboBox{this}},
      lines_{new RecipeLines{this}},
      ratio_{new Gauge{{tr("Carbon to nitrogen, C:N"), {}, {0, 80}, acceptableCarbonNitrogen, preferredCarbonNitrogen},
                       this}},
      moisture_{
          new Gauge{{tr("Moisture"), QStringLiteral(" %"), {0, 100}, acceptableMoisture, preferredMoisture}, this}},
      showSources_{namedButton(tr("Their sources"), "showSources", this)},
      toHand_{new ToHandPanel{this}},
      log_{new QPushButton{this}},
      question_{new QuestionBar{this}} {
    layOut();
    connectParts();
    refreshBook();
}

QLabel* RecipeScreen::quietLine(QVBoxLayout* column, const char* name) {
    auto* label = new QLabel{this};
    label->setObjectName(QLatin1String{name});
    label->setWordWrap(true);
    column->addWidget(label);
    return label;
}

void RecipeScreen::layOut() {
    auto* page = new QWidget;
    auto* column = new QVBoxLayout{page};
    column->setContentsMargins(24, 16, 24, 16);
    column->setSpacing(12);
    auto* head = new QHBoxLayout;
    auto* intoLabel = new QLabel{tr("&Into")};
    intoLabel->setBuddy(into_);
    into_->setObjectName(QStringLiteral("into"));
    into_->setAccessibleName(tr("Into which batch"));
    into_->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    into_->setMinimumContentsLength(32);
    head->addWidget(intoLabel);
    head->addWidget(into_);
    head->addStretch(1);
    column->addLayout(head);
    column->addWidget(lines_);
    layOutGauges(column);
    doubts_ = quietLine(column, "doubts");
    known_ = quietLine(column, "known");
    column->addWidget(showSources_, 0, Qt::AlignLeft);
    sources_ = quietLine(column, "sources");
    sources_->hide();
    room_ = quietLine(column, "room");
    column->addWidget(new Hairline{Qt::Horizontal});
    column->addWidget(toHand_);
    layOutFoot(column);
    column->addStretch(1);
    auto* scroll = new QScrollArea{this};
    scroll->setObjectName(QStringLiteral("recipeScroll"));
    scroll->setFocusPolicy(Qt::NoFocus);
    scroll->setWidgetResizable(true);
    scroll->setFrameShape(QFrame::NoFrame);
    scroll->setWidget(page);
    auto* whole = new QVBoxLayout{this};
    whole->setContentsMargins(0, 0, 0, 0);
    whole->addWidget(scroll);
    setFocusPolicy(Qt::StrongFocus);
    setAccessibleName(tr("Recipe"));
}

void RecipeScreen::layOutGauges(QVBoxLayout* column) {
    auto* gauges = new QHBoxLayout;
    gauges->setSpacing(40);
    for (auto [gauge, words, name] :
         {std::tuple{ratio_, &ratioWords_, "ratio"}, {moisture_, &moistureWords_, "moisture"}}) {
        auto* side = new QVBoxLayout;
        side->setSpacing(4);
        side->addWidget(gauge);
        *words = quietLine(side, name);
        side->addStretch(1);
        gauges->addLayout(side, 1);
    }
    column->addLayout(gauges);
}

void RecipeScreen::layOutFoot(QVBoxLayout* column) {
    column->addWidget(new Hairline{Qt::Horizontal});
    cautions_ = quietLine(column, "cautions");
    log_->setObjectName(QStringLiteral("log"));
    column->addWidget(log_, 0, Qt::AlignLeft);
    column->addWidget(question_);
    new InView{question_, {}};
}

void RecipeScreen::connectParts() {
    connect(lines_, &RecipeLines::typed, this, &RecipeScreen::refresh);
    connect(showSources_, &QPushButton::clicked, sources_, [this] { sources_->setVisible(sources_->isHidden()); });
    connect(toHand_, &ToHandPanel::typed, this, &RecipeScreen::keepTicked);
    connect(toHand_, &ToHandPanel::taken, this, &RecipeScreen::takeMend);
    connect(toHand_, &ToHandPanel::anotherAsked, this, &RecipeScreen::offer);
    connect(into_, &QComboBox::currentIndexChanged, this, &RecipeScreen::refresh);
    connect(log_, &QPushButton::clicked, this, &RecipeScreen::askAndLog);
    connect(question_, &QuestionBar::agreed, this, &RecipeScreen::logAdditions);
    connect(question_, &QuestionBar::declined, log_, [this] { log_->setFocus(); });
    for (const auto answered : {&QuestionBar::agreed, &QuestionBar::declined}) {
        connect(question_, answered, question_, &QWidget::hide);
    }
    connect(&book_, &Book::changed, this, &RecipeScreen::refreshBook);
    connect(&book_, &Book::looksAtChanged, this, &RecipeScreen::refreshBatches);
}

void RecipeScreen::focusInEvent(QFocusEvent* event) {
    QWidget::focusInEvent(event);
    lines_->begin();
}

}  // namespace midden::ui
