// SPDX-License-Identifier: GPL-3.0-or-later
// Names of sixty letters: they give way, the figures stay.
#include <QScreen>
#include <QTableView>

#include "tests/ui/screens/busy_book.h"
#include "ui/round/reading_cell.h"
#include "ui/season/season_screen.h"
#include "ui/shared/elided_label.h"
#include "ui/shell/screens.h"

using namespace midden;
using midden::testing::BusyDesk;
using midden::testing::Namer;

namespace {

constexpr Namer sixty{60};
const QSize sizes[] = {{800, 600}, {1'366, 768}};

QRect within(const QWidget& widget, const QWidget& window) {
    return {widget.mapTo(&window, QPoint{}), widget.size()};
}

/// Has a label that does not wrap room for all of its words?
bool isWhole(const QLabel& label) {
    const QString words = label.buddy() != nullptr ? QString{label.text()}.remove(QLatin1Char{'&'}) : label.text();
    return label.wordWrap() || label.fontMetrics().horizontalAdvance(words) <= label.contentsRect().width() + 1;
}

}  // namespace

TEST_CASE("long names push no figure of the round out of the window") {
    const QSize size = GENERATE(from_range(std::begin(sizes), std::end(sizes)));
    BusyDesk desk{size, sixty};
    CAPTURE(size.width());
    desk.show("round");
    CHECK(desk.window->size() == size);
    const auto& table = desk.find<QWidget>("roundTable");
    const QWidget& viewport = *table.parentWidget()->parentWidget()->parentWidget();
    int figures = 0;
    for (const auto* cell : table.findChildren<ui::ReadingCell*>()) {
        INFO(cell->objectName().toStdString());
        CHECK(within(*cell, *desk.window).left() >= within(viewport, *desk.window).left());
        CHECK(within(*cell, *desk.window).right() <= within(viewport, *desk.window).right());
        ++figures;
    }
    CHECK(figures == 9);
    int names = 0;
    for (const auto* label : table.findChildren<QLabel*>()) {
        INFO(label->text().toStdString());
        if (qobject_cast<const ui::ElidedLabel*>(label) != nullptr) {
            ++names;
            continue;
        }
        CHECK(within(*label, *desk.window).right() <= within(viewport, *desk.window).right());
        CHECK(isWhole(*label));
    }
    CHECK(names == 12);
}

TEST_CASE("long names push no figure of the season out of its table") {
    const QSize size = GENERATE(from_range(std::begin(sizes), std::end(sizes)));
    BusyDesk desk{size, sixty};
    CAPTURE(size.width());
    desk.show("season");
    auto& screen = *desk.window->findChild<ui::SeasonScreen*>();
    REQUIRE(midden::testing::waitUntil([&] { return !screen.isLoading(); }));
    BusyDesk::settle();
    for (const char* name : {"seasonBatches", "seasonBins"}) {
        auto& table = desk.find<QTableView>(name);
        const int rows = table.model()->rowCount();
        REQUIRE(rows > 0);
        for (int column = 0; column < table.model()->columnCount(); ++column) {
            INFO(name << " column " << column);
            const QModelIndex last = table.model()->index(rows - 1, column);
            CHECK(table.columnViewportPosition(column) + table.columnWidth(column) <= table.viewport()->width());
            const bool isFigure = last.data(Qt::TextAlignmentRole).toInt() & Qt::AlignRight;
            const int needed = table.fontMetrics().horizontalAdvance(last.data().toString());
            CHECK((!isFigure || needed < table.columnWidth(column)));
        }
    }
    CHECK(desk.find<QTableView>("seasonBatches").model()->index(0, 0).data(Qt::ToolTipRole).toString().size() == 60);
}

TEST_CASE("no screen is wider than its window and no line is cut without saying so") {
    const QSize size = GENERATE(from_range(std::begin(sizes), std::end(sizes)));
    BusyDesk desk{size, sixty};
    CAPTURE(size.width());
    for (const ui::ScreenEntry& screen : ui::screens()) {
        desk.show(screen.id);
        CHECK(desk.window->size() == size);
        for (const auto* label : desk.window->findChildren<QLabel*>()) {
            if (label->isVisible() && qobject_cast<const ui::ElidedLabel*>(label) == nullptr &&
                label->textFormat() != Qt::RichText) {
                INFO(screen.id << ": " << label->objectName().toStdString() << ": " << label->text().toStdString());
                CHECK(isWhole(*label));
            }
        }
    }
}

TEST_CASE("a name that is cut ends in an ellipsis and is heard whole") {
    const QString name = QString::fromStdString(sixty("North"));
    ui::ElidedLabel label{name};
    CHECK(label.sizeHint().width() < label.fontMetrics().horizontalAdvance(name));
    CHECK(label.text() == name);
    CHECK(ui::shortened(name).size() <= 32);
    CHECK(ui::shortened(name).contains(QChar{0x2026}));
    CHECK(ui::shortened("North") == "North");
}
