// SPDX-License-Identifier: GPL-3.0-or-later
#include <QPainter>
#include <QPainterPath>
#include <algorithm>
#include <memory>

#include "ui/certificate/certificate_blocks.h"
#include "ui/certificate/paper_font.h"
#include "ui/certificate/paper_text.h"

namespace midden::ui {

namespace {

constexpr double indent = 8 * mm;  ///< of everything under the verdict, which stands beside its sign

/// A disc for "shown", a half-filled one for "within the error", a ring for "not shown": the same ink for each.
void drawSign(QPainter& painter, QPointF centre, Verdict verdict) {
    constexpr double radius = 1.9 * mm;
    painter.save();
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(QPen{ink::accent, 0.5 * mm});
    painter.setBrush(verdict == Verdict::shown ? ink::accent : ink::paper);
    painter.drawEllipse(centre, radius, radius);
    if (verdict == Verdict::shownWithinError) {
        const QRectF disc{centre.x() - radius, centre.y() - radius, 2 * radius, 2 * radius};
        painter.setPen(Qt::NoPen);
        painter.setBrush(ink::accent);
        QPainterPath half{centre};
        half.arcTo(disc, 180, 180);
        half.closeSubpath();
        painter.drawPath(half);
    }
    painter.restore();
}

PageBlock verdictBlock(const Finding& finding, Measure measure) {
    const Measure inner{measure.left + indent, measure.width - indent};
    const auto sentence = std::make_shared<PaperText>(onOneLine(finding.sentence),
                                                      TextStyle{paperFont(Face::bold, 11.5), ink::text}, inner.width);
    const auto where = std::make_shared<PaperText>(onOneLine(finding.jurisdiction),
                                                   TextStyle{paperFont(Face::regular, 8), ink::quiet}, inner.width);
    PageBlock block{3.2 * mm, sentence->height() + where->height()};
    block.draw = [=, verdict = finding.verdict](QPainter& painter, double top) {
        drawSign(painter, {measure.left + 2.4 * mm, top + 2.7 * mm}, verdict);
        sentence->draw(painter, {inner.left, top});
        where->draw(painter, {inner.left, top + sentence->height()});
    };
    block.withNext = true;
    return block;
}

/// Left edges of the figures' columns, right edges where the text is set to the right.
struct FigureColumns {
    double figure;
    double asked;
    double read;
    double missing;
    double right;
};

FigureColumns columnsOf(Measure inner) {
    const auto at = [&](double part) { return inner.left + inner.width * part; };
    return {inner.left, at(0.36), at(0.62), at(0.80), inner.right()};
}

void drawRule(QPainter& painter, Measure inner, double y) {
    painter.setPen(QPen{ink::hairline, 0.1 * mm});
    painter.drawLine(QPointF{inner.left, y}, QPointF{inner.right(), y});
}

PageBlock figureLine(const FigureRow& row, Measure inner, Face face, const QColor& colour) {
    const auto columns = columnsOf(inner);
    const auto texts = std::make_shared<std::vector<std::pair<PaperText, double>>>();
    const auto put = [&](const std::string& words, double left, double right, Qt::Alignment alignment) {
        const TextStyle how{paperFont(face, 8.5), colour, alignment};
        texts->emplace_back(PaperText{onOneLine(words), how, right - left - 2 * mm}, left);
    };
    put(row.figure, columns.figure, columns.asked, Qt::AlignLeft);
    put(row.asked, columns.asked, columns.read, Qt::AlignLeft);
    put(row.read, columns.read, columns.missing, Qt::AlignRight);
    put(row.missing.empty() ? "–" : row.missing, columns.missing, columns.right + 2 * mm, Qt::AlignRight);
    double height = 0;
    for (const auto& [text, left] : *texts) {
        height = std::max(height, text.height());
    }
    PageBlock block{0.35 * mm, height + 0.35 * mm};
    block.draw = [=](QPainter& painter, double top) {
        for (const auto& [text, left] : *texts) {
            text.draw(painter, {left, top});
        }
        drawRule(painter, inner, top + height + 0.3 * mm);
    };
    return block;
}

/// What a thermometer cannot show, and how the record stands to it.
PageBlock conditionLine(const Fact& condition, Measure inner) {
    constexpr double stateWidth = 52 * mm;
    const TextStyle how{paperFont(Face::regular, 8.5), ink::text};
    TextStyle right = how;
    right.alignment = Qt::AlignRight;
    const auto words = std::make_shared<PaperText>(onOneLine(condition.label), how, inner.width - stateWidth - 3 * mm);
    const auto state = std::make_shared<PaperText>(onOneLine(condition.text), right, stateWidth);
    const double height = std::max(words->height(), state->height());
    PageBlock block{0.35 * mm, height + 0.35 * mm};
    block.draw = [=](QPainter& painter, double top) {
        words->draw(painter, {inner.left, top});
        state->draw(painter, {inner.right() - stateWidth, top});
        drawRule(painter, inner, top + height + 0.3 * mm);
    };
    return block;
}

void addText(std::vector<PageBlock>& blocks, const std::string& words, Measure inner, double points) {
    if (!words.empty()) {
        blocks.push_back(paragraph(words, inner, points));
        blocks.back().space = 0.7 * mm;
    }
}

}  // namespace

std::vector<PageBlock> findingBlocks(const Finding& finding, Measure measure) {
    const Measure inner{measure.left + indent, measure.width - indent};
    std::vector<PageBlock> blocks{verdictBlock(finding, measure)};
    const auto figure = finding.anyIsEnough ? "Any one is enough" : "Temperature";
    blocks.push_back(figureLine({figure, "Time asked", "Time read", "Short by"}, inner, Face::regular, ink::quiet));
    blocks.back().space = 1 * mm;
    blocks.back().withNext = true;
    for (const auto& row : finding.figures) {
        blocks.push_back(figureLine(row, inner, Face::regular, ink::text));
    }
    std::string remarks;
    for (const auto& remark : finding.remarks) {
        remarks += (remarks.empty() ? "" : " ") + remark;
    }
    addText(blocks, remarks, inner, 8.5);
    for (const auto& condition : finding.conditions) {
        blocks.push_back(conditionLine(condition, inner));
    }
    addText(blocks, "Source: " + finding.source + (finding.scope.empty() ? "" : " " + finding.scope), inner, 7.5);
    return blocks;
}

}  // namespace midden::ui
