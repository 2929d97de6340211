// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/certificate/certificate_sheet.h"

#include <QPagedPaintDevice>
#include <QPainter>
#include <algorithm>

#include "ui/certificate/certificate_blocks.h"
#include "ui/certificate/paper_font.h"
#include "ui/certificate/paper_text.h"

namespace midden::ui {

namespace {

constexpr double sideMargin = 19 * mm;
constexpr double topMargin = 13 * mm;
constexpr double laterTop = 20 * mm;  ///< of pages under a running head
constexpr double footerHeight = 16.5 * mm;
constexpr double ordinaryChart = 58 * mm;
constexpr double lowestChart = 40 * mm;
constexpr double highestChart = 78 * mm;

Measure measureOf(QSizeF paper) {
    return {sideMargin, paper.width() - 2 * sideMargin};
}

void drawLine(QPainter& painter, Measure measure, double y) {
    painter.setPen(QPen{ink::hairline, 0.12 * mm});
    painter.drawLine(QPointF{measure.left, y}, QPointF{measure.right(), y});
}

PageBlock hairlineBlock(Measure measure, double space) {
    PageBlock block{space, 0.2 * mm};
    block.draw = [measure](QPainter& painter, double top) { drawLine(painter, measure, top); };
    block.withNext = true;
    return block;
}

void write(QPainter& painter, QPointF at, const std::string& words, Qt::Alignment alignment, double width) {
    const PaperText text{onOneLine(words), {paperFont(Face::regular, 7), ink::quiet, alignment, 1}, width};
    text.draw(painter, at);
}

/// A printed page is whole when it fits on one sheet; the chart gives and takes within limits.
double chartHeightFor(double rest, double page) {
    const double left = page - rest;
    return left < lowestChart ? ordinaryChart : std::clamp(left, lowestChart, highestChart);
}

}  // namespace

CertificateSheet::CertificateSheet(Certificate certificate, DrawChart drawChart, QSizeF paper)
    : certificate_{std::move(certificate)}, drawChart_{std::move(drawChart)}, paper_{paper * mm} {
    layOut();
}

void CertificateSheet::layOut() {
    const double bottom = paper_.height() - footerHeight;
    const double rest = heightOf(blocks(0));
    blocks_ = blocks(chartHeightFor(rest, bottom - topMargin));
    pages_ = flow(blocks_, {topMargin, laterTop, bottom});
}

std::vector<PageBlock> CertificateSheet::blocks(double chartHeight) const {
    const auto measure = measureOf(paper_);
    std::vector<PageBlock> all{headingBlock(certificate_, measure)};
    const auto add = [&](PageBlock block, double space) {
        block.space = space;
        all.push_back(std::move(block));
    };
    add(hairlineBlock(measure, 0), 2.4 * mm);
    add(factsInColumns(certificate_.batchFacts, measure), 2.4 * mm);
    add(factRows({certificate_.materials}, measure).front(), 0);
    add(hairlineBlock(measure, 0), 1.6 * mm);
    for (const auto& finding : certificate_.findings) {
        for (auto& block : findingBlocks(finding, measure)) {
            all.push_back(std::move(block));
        }
    }
    for (auto& row : factRows(certificate_.information, measure)) {
        add(std::move(row), 2.4 * mm);
    }
    PageBlock chart{3.2 * mm, chartHeight};
    chart.draw = [this, measure, chartHeight](QPainter& painter, double top) {
        drawChart_(painter, {measure.left, top, measure.width, chartHeight});
    };
    all.push_back(std::move(chart));
    double space = 2.4 * mm;
    for (auto& row : factRows(certificate_.course, measure)) {
        add(std::move(row), space);
        space = 0.8 * mm;
    }
    add(paragraph(certificate_.creditRule, measure, 7.5), 1.8 * mm);
    add(signatureBlock(certificate_.signatures, measure), 4.5 * mm);
    all.back().atFoot = true;
    add(paragraph(certificate_.cautions, measure, 7.5), 2.4 * mm);
    all.back().atFoot = true;
    return all;
}

void CertificateSheet::drawRunningHead(QPainter& painter, int page) const {
    if (page == 0) {
        return;
    }
    const auto measure = measureOf(paper_);
    const auto number = certificate_.number.empty() ? "not issued" : certificate_.number;
    write(painter, {measure.left, topMargin - 3 * mm}, certificate_.title + " – " + certificate_.batch, Qt::AlignLeft,
          measure.width * 0.7);
    write(painter, {measure.left + measure.width * 0.7, topMargin - 3 * mm}, number, Qt::AlignRight,
          measure.width * 0.3);
    drawLine(painter, measure, topMargin + 1 * mm);
}

void CertificateSheet::drawFooter(QPainter& painter, int page) const {
    const auto measure = measureOf(paper_);
    const double top = paper_.height() - footerHeight + 2 * mm;
    drawLine(painter, measure, top);
    write(painter, {measure.left, top + 1 * mm}, "Record (SHA-256): " + certificate_.digest, Qt::AlignLeft,
          measure.width);
    const auto how = certificate_.number.empty()
                         ? std::string{"A number is given when this page is saved or printed."}
                         : "Whoever has the logbook can check this page: middenbook verify LOGBOOK --certificate " +
                               certificate_.number;
    write(painter, {measure.left, top + 4.2 * mm}, how, Qt::AlignLeft, measure.width * 0.85);
    write(painter, {measure.left + measure.width * 0.85, top + 4.2 * mm},
          "page " + std::to_string(page + 1) + " of " + std::to_string(pageCount()), Qt::AlignRight,
          measure.width * 0.15);
}

void CertificateSheet::drawPage(QPainter& painter, int page) const {
    painter.save();
    painter.fillRect(QRectF{QPointF{}, paper_}, ink::paper);
    drawRunningHead(painter, page);
    for (const auto& [block, top] : pages_.at(static_cast<std::size_t>(page))) {
        block->draw(painter, top);
    }
    drawFooter(painter, page);
    painter.restore();
}

bool CertificateSheet::print(QPagedPaintDevice& device) const {
    QPainter painter;
    if (!painter.begin(&device)) {
        return false;
    }
    const double unit = device.logicalDpiX() / 25.4 / mm;
    painter.scale(unit, unit);
    for (int page = 0; page < pageCount(); ++page) {
        if (page > 0 && !device.newPage()) {
            return false;
        }
        drawPage(painter, page);
    }
    return painter.end();
}

}  // namespace midden::ui
