// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shared/house_style.h"

#include <QPainter>
#include <QStyleOption>

#include "ui/shared/palette.h"

namespace midden::ui {

namespace {

// Of the chevron of a choice.
constexpr double arrowSize = 4;
constexpr double arrowInset = 14;

}  // namespace

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

void HouseStyle::drawComplexControl(ComplexControl control, const QStyleOptionComplex* option, QPainter* painter,
                                    const QWidget* widget) const {
    if (control != CC_ComboBox || widget == nullptr) {
        QProxyStyle::drawComplexControl(control, option, painter, widget);
        return;
    }
    const Palette& look = Palette::of(*widget);
    const bool focused = option->state.testFlag(State_HasFocus);
    const double pen = focused ? 2.0 : 1.0;
    const QRectF frame = QRectF{option->rect}.adjusted(pen / 2, pen / 2, -pen / 2, -pen / 2);
    const QPointF tip{frame.right() - arrowInset, frame.center().y() + arrowSize / 2};
    painter->save();
    painter->setRenderHint(QPainter::Antialiasing);
    painter->setPen(QPen{focused ? look.accent : look.edge, pen});
    painter->setBrush(option->state.testFlag(State_Enabled) ? look.ground : look.side);
    painter->drawRoundedRect(frame, 4, 4);
    painter->setPen(QPen{look.muted, 1.5, Qt::SolidLine, Qt::RoundCap, Qt::RoundJoin});
    painter->drawPolyline(QPolygonF{{tip - QPointF{arrowSize, arrowSize}, tip, tip + QPointF{arrowSize, -arrowSize}}});
    painter->restore();
}

/// A choice that is too narrow for what it shows says so.
void HouseStyle::drawControl(ControlElement element, const QStyleOption* option, QPainter* painter,
                             const QWidget* widget) const {
    const auto* choice = qstyleoption_cast<const QStyleOptionComboBox*>(option);
    if (element != CE_ComboBoxLabel || choice == nullptr || choice->editable) {
        QProxyStyle::drawControl(element, option, painter, widget);
        return;
    }
    QStyleOptionComboBox shown{*choice};
    const int room = subControlRect(CC_ComboBox, choice, SC_ComboBoxEditField, widget).width() - 2;
    shown.currentText = choice->fontMetrics.elidedText(choice->currentText, Qt::ElideRight, room);
    QProxyStyle::drawControl(element, &shown, painter, widget);
}

QSize HouseStyle::sizeFromContents(ContentsType type, const QStyleOption* option, const QSize& size,
                                   const QWidget* widget) const {
    QSize wanted = QProxyStyle::sizeFromContents(type, option, size, widget);
    if (type == CT_ComboBox) {
        wanted.rwidth() += 16;
        wanted.setHeight(qMax(wanted.height(), option->fontMetrics.height() + 12));  // as tall as a line
    }
    return wanted;
}

}  // namespace midden::ui
