// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/layers/layers_panel.h"

#include <QHBoxLayout>
#include <QHeaderView>
#include <QLabel>
#include <QStackedWidget>
#include <QTableView>
#include <QToolButton>
#include <QVBoxLayout>

#include "ui/layers/layers_table.h"
#include "ui/layers/layers_view.h"

namespace midden::ui {

namespace {

QLabel* line(const QString& name, QWidget* parent) {
    auto* label = new QLabel{parent};
    label->setObjectName(name);
    label->setWordWrap(true);
    label->setTextFormat(Qt::PlainText);
    return label;
}

}  // namespace

LayersPanel::LayersPanel(QWidget* parent)
    : QWidget{parent},
      lacking_{line(QStringLiteral("layersLacking"), this)},
      story_{line(QStringLiteral("layerStory"), this)},
      now_{line(QStringLiteral("layersNow"), this)},
      asTable_{new QToolButton{this}},
      view_{new LayersView{this}},
      layers_{new LayersTable{this}},
      table_{new QTableView{this}},
      faces_{new QStackedWidget{this}} {
    asTable_->setObjectName(QStringLiteral("layersAsTable"));
    asTable_->setText(tr("As a table"));
    asTable_->setToolTip(tr("The layers as they stand now, one a row"));
    asTable_->setCheckable(true);
    table_->setObjectName(QStringLiteral("layersTable"));
    table_->setAccessibleName(tr("Layers as they stand now, the highest first"));
    table_->setModel(layers_);
    table_->setSelectionBehavior(QAbstractItemView::SelectRows);
    table_->setTabKeyNavigation(false);
    table_->verticalHeader()->hide();
    table_->horizontalHeader()->setSectionResizeMode(QHeaderView::ResizeToContents);
    faces_->addWidget(view_);
    faces_->addWidget(table_);
    story_->setMinimumHeight(3 * fontMetrics().lineSpacing());  // so that the picture does not jump with each story
    story_->setAlignment(Qt::AlignTop | Qt::AlignLeft);
    auto* below = new QHBoxLayout;
    below->addWidget(story_, 1);
    below->addWidget(asTable_, 0, Qt::AlignTop);
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins({});
    column->setSpacing(4);
    column->addWidget(lacking_);
    column->addWidget(faces_, 1);
    column->addLayout(below);
    column->addWidget(now_);
    setTabOrder(view_, table_);
    setTabOrder(table_, asTable_);
    connect(asTable_, &QToolButton::toggled, this,
            [this](bool on) { faces_->setCurrentWidget(on ? static_cast<QWidget*>(table_) : view_); });
    connect(view_, &LayersView::pointedAt, this,
            [this](std::optional<LayerSpot> spot) { spot ? tell(spot, false) : tell(view_->spot(), true); });
    connect(view_, &LayersView::chosen, this, [this](std::optional<LayerSpot> spot) { tell(spot, true); });
}

void LayersPanel::show(const LayersPtr& source, const LayersTongue& tongue) {
    source_ = source;
    tongue_ = tongue;
    view_->show(source, tongue);
    layers_->show(source, tongue);
    const QString lacking = source ? lackingSentences(*source).join(QLatin1Char{'\n'}) : QString{};
    lacking_->setText(lacking);
    lacking_->setVisible(!lacking.isEmpty());
    QStringList now;
    if (source) {
        for (const QString& sentence : {bucketSentence(*source, tongue.unit), gapSentence(*source)}) {
            if (!sentence.isEmpty()) {
                now += sentence;
            }
        }
    }
    now_->setText(now.join(QLatin1Char{'\n'}));
    now_->setVisible(!now.isEmpty());
    tell({}, false);
}

/// Of what is pointed at a line, of what was clicked on, or stepped to, the whole story.
void LayersPanel::tell(std::optional<LayerSpot> spot, bool wholeStory) {
    if (!source_ || !spot) {
        story_->setText(source_ && !source_->isEmpty()
                            ? tr("Point at a layer, or step from one to the next with the arrow keys.")
                            : QString{});
        return;
    }
    story_->setText(wholeStory ? layerStory(*source_, *spot, tongue_) : layerLine(*source_, *spot, tongue_));
}

}  // namespace midden::ui
