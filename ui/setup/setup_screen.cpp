// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/setup/setup_screen.h"

#include <QEvent>
#include <QLineEdit>
#include <QScrollArea>
#include <QVBoxLayout>

#include "ui/setup/air_part.h"
#include "ui/setup/bins_part.h"
#include "ui/setup/checks_part.h"
#include "ui/setup/criteria_part.h"
#include "ui/setup/heights_part.h"
#include "ui/setup/materials_part.h"
#include "ui/setup/positions_part.h"
#include "ui/setup/probes_part.h"
#include "ui/setup/reading_order.h"
#include "ui/setup/settings_part.h"
#include "ui/shared/hairline.h"

namespace midden::ui {

SetupScreen::SetupScreen(Book& book, QWidget* parent) : QWidget{parent}, page_{new QWidget} {
    auto* column = new QVBoxLayout{page_};
    column->setContentsMargins(24, 24, 24, 24);
    column->setSpacing(24);
    const std::initializer_list<QWidget*> parts{new BinsPart{book},
                                                new AirPart{book},
                                                new PositionsPart{book},
                                                new HeightsPart{book},
                                                new ProbesPart{book},
                                                new ChecksPart{book},
                                                makeTargetPart(book, nullptr),
                                                makeThresholdsPart(book, nullptr),
                                                new CriteriaPart{book},
                                                new MaterialsPart{book},
                                                makeMeasuresPart(book, nullptr),
                                                makeBookPart(book, nullptr),
                                                makeUnlikelyPart(book, nullptr)};
    for (QWidget* part : parts) {
        if (column->count() > 0) {
            column->addWidget(new Hairline{Qt::Horizontal});
        }
        column->addWidget(part);
    }
    column->addStretch(1);
    auto* scroll = new QScrollArea{this};
    page_->setObjectName(QStringLiteral("setupPage"));
    scroll->setWidget(page_);
    page_->installEventFilter(this);
    scroll->setWidgetResizable(true);
    scroll->setFocusPolicy(Qt::NoFocus);
    auto* around = new QVBoxLayout{this};
    around->setContentsMargins(0, 0, 0, 0);
    around->addWidget(scroll);
}

/// What is being typed is handed over while there is something to take it.
SetupScreen::~SetupScreen() {
    if (QWidget* typing = focusWidget()) {
        typing->clearFocus();
    }
}

void SetupScreen::focusInEvent(QFocusEvent* event) {
    QWidget::focusInEvent(event);
    findChild<QLineEdit*>()->setFocus();
}

bool SetupScreen::eventFilter(QObject* watched, QEvent* event) {
    if (watched == page_ && event->type() == QEvent::LayoutRequest) {
        tabAsRead(*page_);  // something was added, taken away, shown or hidden
    }
    return QWidget::eventFilter(watched, event);
}

}  // namespace midden::ui
