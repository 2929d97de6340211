// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QColor>
#include <QFont>
#include <QString>
#include <QTextLayout>
#include <memory>
#include <string>

class QPainter;

namespace midden::ui {

/// How a piece of text on a page is set.
struct TextStyle {
    QFont font;
    QColor colour;
    Qt::Alignment alignment = Qt::AlignLeft;
    int mostLines = 0;  ///< 0 = as many as it takes; else the last one is elided
};

/// Plain text, never markup, wrapped to a width in page units and ready to be drawn.
class PaperText {
  public:
    PaperText(const QString& text, const TextStyle& style, double width);
    double height() const { return height_; }
    double naturalWidth() const;  ///< of its longest line
    bool isEmpty() const { return lines_ == 0; }
    void draw(QPainter& painter, QPointF topLeft) const;

  private:
    void layOut(const TextStyle& style, double width);

    std::unique_ptr<QTextLayout> layout_;
    QString elided_;  ///< the last line, where not all of the text went in
    TextStyle style_;
    double width_ = 0;
    double height_ = 0;
    int lines_ = 0;
};

/// UTF-8 as core writes it, on one line: control characters become spaces.
QString onOneLine(const std::string& text);

}  // namespace midden::ui
