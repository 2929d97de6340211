// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/common/house_style.h"

#include <QPainter>
#include <QStyleOption>

#include "ui/common/palette.h"

namespace midden::ui {

HouseStyle::HouseStyle() : QProxyStyle{QStringLiteral("Fusion")} {}

void HouseStyle::drawPrimitive(PrimitiveElement element, const QStyleOption* option, QPainter* painter,
                               const QWidget* widget) const {
    if (element != PE_IndicatorCheckBox || widget == nullptr) {
        QProxyStyle::drawPrimitive(element, option, painter, widget);
        return;
    }
    const Palette& look = Palette::of(*widget);
    const bool enabled = option->state.testFlag(State_Enabled);
    const bool focused = option->state.testFlag(State_HasFocus);
    const bool checked = option->state.testFlag(State_On);
    const QColor colour = enabled ? look.accent : look.muted;
    const QRectF box = QRectF{option->rect}.adjusted(1.5, 1.5, -1.5, -1.5);
    painter->save();
    painter->setRenderHint(QPainter::Antialiasing);
    painter->setPen(QPen{checked || focused ? colour : look.edge, focused ? 2.0 : 1.0});
    painter->setBrush(checked ? colour : look.ground);
    painter->drawRoundedRect(box, 2, 2);
    if (checked) {
        painter->setPen(QPen{look.onAccent, 1.8, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin});
        const auto at = [&](double x, double y) {
            return QPointF{box.left() + x * box.width(), box.top() + y * box.height()};
        };
        painter->drawPolyline(QPolygonF{{at(0.22, 0.52), at(0.43, 0.74), at(0.80, 0.28)}});
    }
    painter->restore();
}

}  // namespace midden::ui
