// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/setup/setup_screen.h"

#include <QLineEdit>
#include <QScrollArea>
#include <QVBoxLayout>

#include "ui/common/hairline.h"
#include "ui/setup/bins_part.h"
#include "ui/setup/positions_part.h"
#include "ui/setup/probes_part.h"
#include "ui/setup/settings_part.h"

namespace midden::ui {

SetupScreen::SetupScreen(Book& book, QWidget* parent) : QWidget{parent} {
    auto* page = new QWidget;
    auto* column = new QVBoxLayout{page};
    column->setContentsMargins(24, 24, 24, 24);
    column->setSpacing(24);
    const std::initializer_list<QWidget*> parts{
        new BinsPart{book},          new PositionsPart{book},       new ProbesPart{book},
        makeBookPart(book, nullptr), makeTargetPart(book, nullptr), makeUnlikelyPart(book, nullptr)};
    for (QWidget* part : parts) {
        if (column->count() > 0) {
            column->addWidget(new Hairline{Qt::Horizontal});
        }
        column->addWidget(part);
    }
    column->addStretch(1);
    auto* scroll = new QScrollArea{this};
    scroll->setWidget(page);
    scroll->setWidgetResizable(true);
    scroll->setFocusPolicy(Qt::NoFocus);
    auto* around = new QVBoxLayout{this};
    around->setContentsMargins(0, 0, 0, 0);
    around->addWidget(scroll);
}

void SetupScreen::focusInEvent(QFocusEvent* event) {
    QWidget::focusInEvent(event);
    findChild<QLineEdit*>()->setFocus();
}

}  // namespace midden::ui
