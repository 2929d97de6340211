// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/round/round_sheet.h"

#include <QCoreApplication>
#include <QPageLayout>
#include <QPagedPaintDevice>
#include <QPainter>
#include <algorithm>

#include "ui/round/round_plan.h"
#include "ui/shared/bin_summary.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

QString tr(const char* source) {
    return QCoreApplication::translate("sheet", source);
}

// Lengths in tenths of a millimetre.
constexpr int unit = 254;  ///< of them in an inch
constexpr int headHeight = 110;
constexpr int rowHeight = 90;
constexpr int headRows = 3;  ///< date, time, air outside
constexpr int notesHeight = 420;
constexpr int binWidth = 300;
constexpr int positionWidth = 230;
constexpr int textHeight = 36;

int rowsOnPage(QSizeF tenths) {
    const int room = static_cast<int>(tenths.height()) - headHeight - headRows * rowHeight - notesHeight;
    return std::max(1, room / rowHeight);
}

class Sheet {
  public:
    Sheet(QPainter& painter, QSizeF tenths, const SheetPlan& plan)
        : painter_{painter}, width_{static_cast<int>(tenths.width())}, plan_{plan} {
        QFont font;
        font.setPixelSize(textHeight);
        painter_.setFont(font);
        painter_.setPen(QPen{QColor{0x33, 0x33, 0x33}, 2});
    }

    void drawPage(std::size_t first, std::size_t end) {
        QFont font = painter_.font();
        font.setPixelSize(textHeight * 3 / 2);
        painter_.setFont(font);
        painter_.drawText(QRect{0, 0, width_, headHeight - 30}, Qt::AlignLeft | Qt::AlignVCenter, plan_.title);
        font.setPixelSize(textHeight);
        painter_.setFont(font);
        int y = headHeight;
        for (const QString& heading : {tr("date"), tr("time"), tr("air outside, %1").arg(plan_.columnHint)}) {
            drawRow({heading, {}}, y, true);
            y += rowHeight;
        }
        for (std::size_t row = first; row < end; ++row) {
            drawRow(plan_.rows[row], y, !plan_.rows[row].bin.isEmpty());
            y += rowHeight;
        }
        painter_.drawLine(0, y, width_, y);
        drawNotes(y + 40);
    }

  private:
    void drawRow(const SheetRow& row, int y, bool ruledAcross) {
        painter_.drawLine(ruledAcross ? 0 : binWidth, y, width_, y);
        const auto write = [&](const QString& words, int x, int width) {
            painter_.drawText(QRect{x + 10, y, width - 10, rowHeight}, Qt::AlignLeft | Qt::AlignVCenter, words);
        };
        const bool heads = row.position.isEmpty();
        write(row.bin, 0, heads ? binWidth + positionWidth : binWidth);
        write(row.position, binWidth, positionWidth);
        const int cells = width_ - binWidth - positionWidth;
        for (int round = 0; round <= plan_.rounds; ++round) {
            const int x = binWidth + positionWidth + cells * round / plan_.rounds;
            painter_.drawLine(x, y, x, y + rowHeight);
        }
    }

    void drawNotes(int y) {
        painter_.drawText(QRect{0, y, width_, rowHeight}, Qt::AlignLeft | Qt::AlignVCenter,
                          tr("Added (what, how many kg), turned, forked, watered, lid open, squeeze test, notes:"));
        for (int line = 2; line <= 4; ++line) {
            painter_.drawLine(0, y + line * rowHeight, width_, y + line * rowHeight);
        }
    }

    QPainter& painter_;
    int width_;
    const SheetPlan& plan_;
};

QSizeF tenthsOf(QSizeF millimetres) {
    return millimetres * 10;
}

}  // namespace

SheetPlan planSheet(const Logbook& logbook) {
    SheetPlan plan{.columnHint = words::unitName(unitOf(logbook))};
    const QString group = words::text(logbook.setting(setting::group));
    plan.title = group.isEmpty() ? tr("Round sheet") : tr("Round sheet – %1").arg(group);
    for (const Bin& bin : logbook.bins()) {
        auto places = logbook.places(bin.id);
        if (bin.retired) {
            continue;
        }
        if (places.empty()) {
            places.push_back({.place = {bin.id, "core"}});
        }
        std::stable_sort(places.begin(), places.end(), [](const PlaceSetting& a, const PlaceSetting& b) {
            return (a.place.position == "core") > (b.place.position == "core");
        });
        for (const PlaceSetting& place : places) {
            plan.rows.push_back(
                {&place == &places.front() ? words::text(bin.name) : QString{}, words::text(place.place.position)});
        }
    }
    return plan;
}

int sheetPages(const SheetPlan& plan, QSizeF millimetres) {
    const int onPage = rowsOnPage(tenthsOf(millimetres));
    return std::max(1, (static_cast<int>(plan.rows.size()) + onPage - 1) / onPage);
}

bool paintSheet(QPagedPaintDevice& device, const SheetPlan& plan) {
    QPainter painter;
    if (!painter.begin(&device)) {
        return false;
    }
    const QSizeF millimetres = device.pageLayout().paintRect(QPageLayout::Millimeter).size();
    const auto onPage = static_cast<std::size_t>(rowsOnPage(tenthsOf(millimetres)));
    painter.scale(device.logicalDpiX() / static_cast<double>(unit), device.logicalDpiY() / static_cast<double>(unit));
    Sheet sheet{painter, tenthsOf(millimetres), plan};
    for (std::size_t first = 0; first == 0 || first < plan.rows.size(); first += onPage) {
        if (first > 0 && !device.newPage()) {
            return false;
        }
        sheet.drawPage(first, std::min(first + onPage, plan.rows.size()));
    }
    return painter.end();
}

}  // namespace midden::ui
