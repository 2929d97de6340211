// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/certificate/paper_text.h"

#include <QFontMetricsF>
#include <QPainter>
#include <algorithm>

namespace midden::ui {

namespace {
constexpr double leading = 1.32;  ///< from one baseline to the next, in font sizes
}

PaperText::PaperText(const QString& text, const TextStyle& style, double width)
    : layout_{std::make_unique<QTextLayout>(text, style.font)}, style_{style}, width_{width} {
    if (!text.isEmpty()) {
        layOut(style, width);
    }
}

void PaperText::layOut(const TextStyle& style, double width) {
    QTextOption option{style.alignment};
    option.setWrapMode(QTextOption::WrapAtWordBoundaryOrAnywhere);
    layout_->setTextOption(option);
    const double step = style.font.pixelSize() * leading;
    layout_->beginLayout();
    while (true) {
        auto line = layout_->createLine();
        if (!line.isValid()) {
            break;
        }
        line.setLineWidth(width);
        line.setPosition({0, lines_ * step + (step - line.height()) / 2});
        ++lines_;
        const bool last = style.mostLines > 0 && lines_ == style.mostLines;
        if (last && line.textStart() + line.textLength() < layout_->text().size()) {
            const auto rest = layout_->text().mid(line.textStart());
            elided_ = QFontMetricsF{style.font}.elidedText(rest, Qt::ElideRight, width);
        }
        if (last) {
            break;
        }
    }
    layout_->endLayout();
    height_ = lines_ * step;
}

double PaperText::naturalWidth() const {
    double widest = 0;
    for (int i = 0; i < layout_->lineCount(); ++i) {
        widest = std::max(widest, layout_->lineAt(i).naturalTextWidth());
    }
    return widest;
}

void PaperText::draw(QPainter& painter, QPointF topLeft) const {
    painter.setPen(style_.colour);
    for (int i = 0; i < layout_->lineCount(); ++i) {
        const auto line = layout_->lineAt(i);
        if (i + 1 == layout_->lineCount() && !elided_.isEmpty()) {
            painter.setFont(style_.font);
            const QPointF baseline = topLeft + line.position() + QPointF{0, line.ascent()};
            painter.drawText(baseline, elided_);
        } else {
            line.draw(&painter, topLeft);
        }
    }
}

QString onOneLine(const std::string& text) {
    auto line = QString::fromStdString(text);
    for (auto& c : line) {
        if (c.category() == QChar::Other_Control || c == QChar::LineSeparator || c == QChar::ParagraphSeparator) {
            c = QLatin1Char{' '};
        }
    }
    return line;
}

}  // namespace midden::ui
