// SPDX-License-Identifier: GPL-3.0-or-later
// The season's time line: one bar a batch, and the months over them.
#pragma once

#include <QHeaderView>
#include <QStyledItemDelegate>
#include <vector>

#include "core/quantities/zone.h"
#include "core/review/season.h"

namespace midden::ui {

/// Which part of the calendar the line stands for.
struct SeasonScale {
    Interval span;
    TimeZone zone = TimeZone::utc();

    /// 0 at the start of the span, 1 at its end.
    double shareAt(Instant at) const;
};

struct MonthMark {
    Instant at;
    QString label;  ///< "Mar", in January with the year: "Jan 2027"
};
/// The first of every month in the span, or of every third, sixth or twelfth, so that there are `most` at most.
std::vector<MonthMark> monthMarks(const SeasonScale& scale, int most);

/// Draws a batch's bar: an outline while it stood, filled where the whole batch's hold is credited.
class TimeLineDelegate : public QStyledItemDelegate {
    Q_OBJECT

  public:
    using QStyledItemDelegate::QStyledItemDelegate;
    void show(const SeasonScale& scale, const std::vector<SeasonBatch>* batches);
    void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override;

  private:
    SeasonScale scale_;
    const std::vector<SeasonBatch>* batches_ = nullptr;
};

/// A header that writes the months over the column of the time line.
class TimeLineHeader : public QHeaderView {
    Q_OBJECT

  public:
    TimeLineHeader(int column, QWidget* parent);
    void show(const SeasonScale& scale);

  protected:
    void paintSection(QPainter* painter, const QRect& rect, int section) const override;

  private:
    int column_;
    SeasonScale scale_;
};

}  // namespace midden::ui
