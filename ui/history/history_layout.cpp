// SPDX-License-Identifier: GPL-3.0-or-later
// How the parts of History are put together.
#include <QComboBox>
#include <QHBoxLayout>
#include <QLabel>
#include <QMenu>
#include <QPushButton>
#include <QSplitter>
#include <QStackedWidget>
#include <QToolButton>
#include <QVBoxLayout>

#include "ui/history/entries_part.h"
#include "ui/history/figures_panel.h"
#include "ui/history/history_screen.h"
#include "ui/history/trace_view.h"
#include "ui/history/why_panel.h"
#include "ui/layers/layers_panel.h"
#include "ui/shared/book.h"
#include "ui/shared/flow_layout.h"
#include "ui/shared/waiting_bar.h"

namespace midden::ui {

namespace {

constexpr int leastChartLines = 13;  ///< a lower chart cannot be read

QToolButton* zoomButton(const QString& text, const QString& name, const QString& tip, QWidget* parent) {
    auto* button = new QToolButton{parent};
    button->setText(text);
    button->setObjectName(name);
    button->setAccessibleName(tip);
    button->setToolTip(tip);
    button->setAutoRaise(true);
    return button;
}

}  // namespace

HistoryScreen::HistoryScreen(Book& book, QWidget* parent)
    : QWidget{parent},
      book_{book},
      batches_{new QComboBox{this}},
      criteria_{new QToolButton{this}},
      zoom_{new QWidget{this}},
      criteriaMenu_{new QMenu{this}},
      line_{new QLabel{this}},
      trace_{new TraceView{this}},
      hours_{new QLabel{this}},
      layersButton_{new QToolButton{this}},
      layers_{new LayersPanel{this}},
      figuresButton_{new QToolButton{this}},
      figures_{new FiguresPanel{this}},
      why_{new WhyPanel{this}},
      entries_{new EntriesPart{book, this}},
      waiting_{new WaitingBar{tr("Judging the batch …"), [this] { return loader_.share(); }, this}},
      emptySentence_{new QLabel{this}},
      emptyButton_{new QPushButton{tr("Type the first reading"), this}},
      pages_{new QStackedWidget{this}},
      full_{buildChart()},
      empty_{buildEmpty()} {
    pages_->addWidget(full_);
    pages_->addWidget(empty_);
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(16, 16, 16, 16);
    column->setSpacing(8);
    column->addWidget(buildHead());
    column->addWidget(waiting_);
    column->addWidget(pages_, 1);
    listen();
}

QWidget* HistoryScreen::buildHead() {
    auto* head = new QWidget{this};
    auto* line = new FlowLayout{8, head};
    batches_->setObjectName(QStringLiteral("batch"));
    batches_->setAccessibleName(tr("Batch"));
    batches_->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    batches_->setMinimumContentsLength(36);
    criteria_->setObjectName(QStringLiteral("criteria"));
    criteria_->setText(tr("Criteria"));
    criteria_->setToolTip(tr("Choose the criteria that have a strip under the chart"));
    criteria_->setPopupMode(QToolButton::InstantPopup);
    criteria_->setMenu(criteriaMenu_);
    criteriaMenu_->setToolTipsVisible(true);
    figuresButton_->setObjectName(QStringLiteral("figures"));
    figuresButton_->setText(tr("Figures"));
    figuresButton_->setToolTip(tr("The heat it makes, and figures for teaching"));
    figuresButton_->setCheckable(true);
    connect(figuresButton_, &QToolButton::toggled, this, [this](bool shown) {
        figures_->setVisible(shown);
        entries_->setHidden(shown);  // there is not room for everything
    });
    layersButton_->setObjectName(QStringLiteral("showLayers"));
    layersButton_->setText(tr("Layers"));
    layersButton_->setToolTip(tr("The layers of this bin over time, in place of its temperatures"));
    layersButton_->setCheckable(true);
    connect(layersButton_, &QToolButton::toggled, this, &HistoryScreen::showFace);
    fillZoom();
    line->addWidget(batches_);
    line->addWidget(layersButton_);
    line->addWidget(figuresButton_);
    line->addWidget(criteria_);
    line->addWidget(zoom_);
    return head;
}

void HistoryScreen::fillZoom() {
    auto* closer = zoomButton(QStringLiteral("+"), QStringLiteral("closer"), tr("Closer (+, or the wheel)"), zoom_);
    auto* further = zoomButton(QStringLiteral("−"), QStringLiteral("further"), tr("Further (−, or the wheel)"), zoom_);
    auto* whole = zoomButton(tr("Whole batch"), QStringLiteral("whole"), tr("The whole batch (Home)"), zoom_);
    connect(closer, &QToolButton::clicked, trace_, [this] { trace_->zoom(2.0 / 3); });
    connect(further, &QToolButton::clicked, trace_, [this] { trace_->zoom(3.0 / 2); });
    connect(whole, &QToolButton::clicked, trace_, &TraceView::lookAtWholeBatch);
    auto* line = new QHBoxLayout{zoom_};
    line->setContentsMargins({});
    line->setSpacing(8);
    for (QWidget* button : {closer, further, whole}) {
        line->addWidget(button);
    }
}

QWidget* HistoryScreen::buildChart() {
    line_->setObjectName(QStringLiteral("readingLine"));
    line_->setWordWrap(true);
    line_->setMinimumHeight(fontMetrics().height() + 4);
    hours_->setObjectName(QStringLiteral("hoursLeft"));
    hours_->setWordWrap(true);
    hours_->setTextFormat(Qt::PlainText);
    figures_->hide();
    auto* upper = new QWidget;
    auto* column = new QVBoxLayout{upper};
    column->setContentsMargins({});
    column->setSpacing(4);
    column->addWidget(line_);
    column->addWidget(hours_);
    column->addWidget(figures_);
    trace_->setMinimumHeight(fontMetrics().height() * leastChartLines);
    column->addWidget(trace_, 1);
    layers_->hide();
    column->addWidget(layers_, 1);
    column->addWidget(why_);
    auto* split = new QSplitter{Qt::Vertical, this};
    split->setChildrenCollapsible(false);
    split->addWidget(upper);
    split->addWidget(entries_);
    split->setStretchFactor(0, 3);
    split->setStretchFactor(1, 2);
    return split;
}

QWidget* HistoryScreen::buildEmpty() {
    auto* page = new QWidget{this};
    auto* column = new QVBoxLayout{page};
    emptySentence_->setAlignment(Qt::AlignCenter);
    emptyButton_->setObjectName(QStringLiteral("firstReading"));
    connect(emptyButton_, &QPushButton::clicked, this, &HistoryScreen::roundWanted);
    column->addStretch();
    column->addWidget(emptySentence_);
    column->addWidget(emptyButton_, 0, Qt::AlignCenter);
    column->addStretch();
    return page;
}

void HistoryScreen::showBusy() {
    loader_.isBusy() ? waiting_->begin() : waiting_->end();
}

/// Of the batch that was shown before, once the one that is wanted takes its time.
void HistoryScreen::letGo() {
    if (batch_ && batch_->record.batch.id != book_.batch()) {
        take(nullptr);
        showNothing({}, false);
    }
}

void HistoryScreen::stop() {
    loader_.cancel();
    take(nullptr);
    showNothing(tr("Reading was stopped. Choose the batch again to read it."), false);
}

void HistoryScreen::showNothing(const QString& sentence, bool offersRound) {
    emptySentence_->setText(sentence);
    emptyButton_->setVisible(offersRound);
}

}  // namespace midden::ui
