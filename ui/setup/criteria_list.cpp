// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/setup/criteria_list.h"

#include <QPainter>
#include <QScrollBar>
#include <QStyledItemDelegate>

#include "ui/setup/criterion_words.h"
#include "ui/shared/palette.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

constexpr int idRole = Qt::UserRole;
constexpr int originRole = Qt::UserRole + 1;
constexpr int ownRole = Qt::UserRole + 2;
constexpr int margin = 8;
constexpr int rows = 11;  ///< seen at once
constexpr int mark = 3;   ///< width of the bar beside the group's own

int rowHeight(const QFontMetrics& metrics) {
    return 2 * metrics.height() + 2 + margin;
}

/// Two lines: the title, and more quietly whose it is.
class Lines : public QStyledItemDelegate {
  public:
    using QStyledItemDelegate::QStyledItemDelegate;

    QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& /*index*/) const override {
        return {0, rowHeight(option.fontMetrics)};
    }

    void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override {
        const Palette& look = Palette::of(*option.widget);
        const bool isChosen = (option.state & QStyle::State_Selected) != 0;
        painter->save();
        painter->fillRect(option.rect, isChosen ? look.chosen : look.ground);
        if (index.data(ownRole).toBool()) {
            painter->fillRect(QRect{option.rect.topLeft(), QSize{mark, option.rect.height()}}, look.accent);
        }
        const int height = option.fontMetrics.height();
        QRect line = option.rect.adjusted(margin + mark, margin / 2, -margin, 0);
        line.setHeight(height);
        write(*painter, line, index.data(Qt::DisplayRole).toString(), look.text);
        line.translate(0, height + 2);
        write(*painter, line, index.data(originRole).toString(), look.muted);
        if (isChosen && (option.state & QStyle::State_HasFocus) != 0) {
            painter->setPen(QPen{look.accent, 2});
            painter->drawRect(option.rect.adjusted(1, 1, -1, -1));
        }
        painter->restore();
    }

  private:
    static void write(QPainter& painter, const QRect& line, const QString& words, const QColor& colour) {
        painter.setPen(colour);
        painter.drawText(line, Qt::AlignLeft | Qt::AlignVCenter,
                         painter.fontMetrics().elidedText(words, Qt::ElideRight, line.width()));
    }
};

}  // namespace

CriteriaList::CriteriaList(QWidget* parent) : QListWidget{parent} {
    setObjectName(QStringLiteral("criteriaList"));
    setAccessibleName(tr("Criteria"));
    setItemDelegate(new Lines{this});
    setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    setVerticalScrollMode(QAbstractItemView::ScrollPerPixel);
    setTabKeyNavigation(false);
    setSizePolicy(QSizePolicy::Preferred, QSizePolicy::Fixed);
}

void CriteriaList::add(const std::string& id, const QString& title, const QString& origin, bool isOwn) {
    auto* item = new QListWidgetItem{title, this};
    item->setData(idRole, words::text(id));
    item->setData(originRole, origin);
    item->setData(ownRole, isOwn);
    item->setToolTip(title);
    item->setData(Qt::AccessibleTextRole, tr("%1, %2").arg(title, origin));
}

void CriteriaList::fill(const std::vector<Criterion>& criteria, const std::vector<Information>& information) {
    const QString had = chosen();
    const QSignalBlocker quiet{this};
    clear();
    for (const Criterion& criterion : criteria) {
        add(criterion.id, words::text(criterion.title), originWords(criterion), criterion.ofTheGroup);
    }
    for (const Information& row : information) {
        add(row.id, words::text(row.title), tr("%1 · told, not judged").arg(words::text(row.jurisdiction)), false);
    }
    setCurrentRow(0);
    choose(had);
    updateGeometry();
}

void CriteriaList::choose(const QString& id) {
    for (int row = 0; row < count(); ++row) {
        if (item(row)->data(idRole).toString() == id) {
            setCurrentRow(row);
            return;
        }
    }
}

QString CriteriaList::chosen() const {
    return currentItem() == nullptr ? QString{} : currentItem()->data(idRole).toString();
}

/// As wide as its longest title, and half as wide at least.
QSize CriteriaList::sizeHint() const {
    int longest = 0;
    for (int row = 0; row < count(); ++row) {
        longest = qMax(longest, fontMetrics().horizontalAdvance(item(row)->text()));
    }
    const int beside = 2 * margin + mark + 2 * frameWidth() + verticalScrollBar()->sizeHint().width();
    const int most = fontMetrics().averageCharWidth() * 70;  // people's own may be longer
    return {qMin(longest, most) + beside, rows * rowHeight(fontMetrics()) + 2 * frameWidth()};
}

QSize CriteriaList::minimumSizeHint() const {
    return {sizeHint().width() / 2, sizeHint().height()};
}

}  // namespace midden::ui
