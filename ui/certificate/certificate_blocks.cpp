// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/certificate/certificate_blocks.h"

#include <QPainter>
#include <algorithm>
#include <memory>

#include "ui/certificate/paper_font.h"
#include "ui/certificate/paper_text.h"

namespace midden::ui {

namespace {

constexpr double labelWidth = 25 * mm;
constexpr double factPoints = 8.5;
constexpr double betweenFacts = 0.8 * mm;

/// A piece of text at its place in a block.
struct PlacedText {
    PaperText text;
    QPointF at;
};
using Texts = std::vector<PlacedText>;

TextStyle style(Face face, double points, const QColor& colour, Qt::Alignment alignment = Qt::AlignLeft,
                int mostLines = 0) {
    return {paperFont(face, points), colour, alignment, mostLines};
}

/// Puts a text down and returns where the next may begin.
double put(Texts& texts, const std::string& words, const TextStyle& how, QPointF at, double width) {
    PaperText text{onOneLine(words), how, width};
    const double bottom = at.y() + text.height();
    texts.push_back({std::move(text), at});
    return bottom;
}

PageBlock blockOf(Texts texts, double height) {
    auto shared = std::make_shared<Texts>(std::move(texts));
    return {0, height, [shared](QPainter& painter, double top) {
                for (const auto& [text, at] : *shared) {
                    text.draw(painter, at + QPointF{0, top});
                }
            }};
}

/// A label and its text; returns the lower edge.
double putFact(Texts& texts, const Fact& fact, QPointF at, double width) {
    const double label =
        put(texts, fact.label, style(Face::regular, factPoints, ink::quiet, Qt::AlignLeft, 2), at, labelWidth - 2 * mm);
    const double text = put(texts, fact.text, style(Face::regular, factPoints, ink::text), at + QPointF{labelWidth, 0},
                            width - labelWidth);
    return std::max(label, text);
}

double factHeight(const Fact& fact, double width) {
    Texts unused;
    return putFact(unused, fact, {}, width);
}

/// How many facts go into the left column so that the higher column is as low as can be.
std::size_t inLeftColumn(const std::vector<double>& heights) {
    double all = 0;
    for (const double height : heights) {
        all += height;
    }
    std::size_t best = 0;
    double lowest = all;
    double left = 0;
    for (std::size_t i = 0; i < heights.size(); ++i) {
        left += heights[i];
        const double higher = std::max(left, all - left);
        if (higher < lowest) {
            lowest = higher;
            best = i + 1;
        }
    }
    return best;
}

/// The right-hand side of the heading: number, date, what it replaces.
double putIssue(Texts& texts, const Certificate& certificate, Measure measure) {
    const double width = 62 * mm;
    const double left = measure.right() - width;
    const auto quiet = style(Face::regular, 8, ink::quiet, Qt::AlignRight);
    if (certificate.number.empty()) {
        return put(texts, "Preview – not issued", quiet, {left, 6 * mm}, width);
    }
    double at = put(texts, certificate.kind + " " + certificate.number, style(Face::bold, 9, ink::text, Qt::AlignRight),
                    {left, 5.5 * mm}, width);
    at = put(texts, "Issued " + certificate.issued, quiet, {left, at}, width);
    return certificate.supersedes.empty() ? at : put(texts, certificate.supersedes, quiet, {left, at}, width);
}

}  // namespace

PageBlock headingBlock(const Certificate& certificate, Measure measure) {
    Texts texts;
    const double issueBottom = putIssue(texts, certificate, measure);
    const double width = measure.width - 66 * mm;
    double at = 3 * mm;
    at = put(texts, certificate.title, style(Face::light, 23, ink::text), {measure.left, at}, width);
    const bool longName = certificate.batch.size() > 70;
    at = put(texts, certificate.batch, style(Face::bold, longName ? 10 : 14, ink::text, Qt::AlignLeft, 5),
             {measure.left, at}, width);
    if (!certificate.group.empty()) {
        at = put(texts, certificate.group, style(Face::regular, 10, ink::quiet, Qt::AlignLeft, 3), {measure.left, at},
                 width);
    }
    at = std::max(at, issueBottom) + 2 * mm;
    at = put(texts, certificate.stance, style(Face::regular, 7.6, ink::quiet), {measure.left, at}, measure.width);
    if (!certificate.interim.empty()) {
        at = put(texts, certificate.interim, style(Face::bold, 8.5, ink::text), {measure.left, at}, measure.width);
    }
    auto block = blockOf(std::move(texts), at);
    block.draw = [words = std::move(block.draw), measure](QPainter& painter, double top) {
        painter.fillRect(QRectF{measure.left, top, 14 * mm, 0.9 * mm}, ink::accent);
        words(painter, top);
    };
    return block;
}

PageBlock factsInColumns(const std::vector<Fact>& facts, Measure measure) {
    constexpr double between = 8 * mm;
    const double width = (measure.width - between) / 2;
    std::vector<double> heights;
    heights.reserve(facts.size());
    for (const auto& fact : facts) {
        heights.push_back(factHeight(fact, width) + betweenFacts);
    }
    const auto left = inLeftColumn(heights);
    Texts texts;
    double at = 0;
    double bottom = 0;
    for (std::size_t i = 0; i < facts.size(); ++i) {
        at = i == left ? 0 : at;
        const double x = measure.left + (i < left ? 0 : width + between);
        at = putFact(texts, facts[i], {x, at}, width) + betweenFacts;
        bottom = std::max(bottom, at);
    }
    return blockOf(std::move(texts), bottom);
}

std::vector<PageBlock> factRows(const std::vector<Fact>& facts, Measure measure) {
    std::vector<PageBlock> rows;
    for (const auto& fact : facts) {
        Texts texts;
        const double height = putFact(texts, fact, {measure.left, 0}, measure.width);
        auto row = blockOf(std::move(texts), height);
        row.space = betweenFacts;
        rows.push_back(std::move(row));
    }
    return rows;
}

PageBlock paragraph(const std::string& text, Measure measure, double points) {
    Texts texts;
    const double height = put(texts, text, style(Face::regular, points, ink::quiet), {measure.left, 0}, measure.width);
    return blockOf(std::move(texts), height);
}

PageBlock signatureBlock(const std::vector<Fact>& signatures, Measure measure) {
    constexpr double between = 8 * mm;
    constexpr double lineAt = 12.5 * mm;
    Texts texts;
    const auto count = static_cast<double>(signatures.size());
    const double width = (measure.width - between * (count - 1)) / count;
    double left = measure.left;
    for (const auto& [label, names] : signatures) {
        auto words = label;
        if (!names.empty()) {
            words.append(": ").append(names);
        }
        put(texts, words, style(Face::regular, factPoints, ink::quiet, Qt::AlignLeft, 2), {left, 0}, width);
        put(texts, "Name, date, signature", style(Face::regular, 7, ink::quiet), {left, lineAt + 0.4 * mm}, width);
        left += width + between;
    }
    auto block = blockOf(std::move(texts), lineAt + 4 * mm);
    block.draw = [words = std::move(block.draw), measure, width, count](QPainter& painter, double top) {
        painter.setPen(QPen{ink::quiet, 0.15 * mm});
        for (double i = 0; i < count; ++i) {
            const double from = measure.left + i * (width + between);
            painter.drawLine(QPointF{from, top + lineAt}, QPointF{from + width, top + lineAt});
        }
        words(painter, top);
    };
    return block;
}

}  // namespace midden::ui
