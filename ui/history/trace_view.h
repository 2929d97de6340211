// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QGraphicsView>

#include "ui/chart/chart_picture.h"
#include "ui/history/loaded_batch.h"

namespace midden::ui {

/// What the chart needs to know of the book.
struct TraceSettings {
    TimeZone zone = TimeZone::utc();
    TemperatureUnit unit = TemperatureUnit::celsius;
    std::vector<std::string> criteria;  ///< those with a strip
    bool withHeat = true;               ///< the heat it made, where outside temperatures are known
};

/// The chart to look around in: wheel, drag and keys zoom and move, pointing and arrow keys pick readings.
class TraceView : public QGraphicsView {
    Q_OBJECT

  public:
    explicit TraceView(QWidget* parent = nullptr);

    /// Null empties it. The same batch loaded again keeps what is looked at.
    void show(LoadedPtr batch, const TraceSettings& settings);
    Interval visible() const { return visible_; }
    void look(Interval visible);
    void lookAtWholeBatch();
    void zoom(double factor);
    /// Marks a reading and moves so that it can be seen. Says nothing of it.
    void mark(std::optional<ReadingSpot> spot);
    /// Marks an hour somebody asked about.
    void markHour(std::optional<Instant> hour);
    std::optional<ReadingSpot> marked() const { return marked_; }
    /// The picture as it stands now.
    const ChartPlan& plan();
    const ChartLayout& layoutNow();
    QSize sizeHint() const override { return {900, 420}; }
    QSize minimumSizeHint() const override { return {320, 220}; }

  signals:
    void pointedAt(std::optional<midden::ui::ReadingSpot> spot);
    void chosen(std::optional<midden::ui::ReadingSpot> spot);
    void hourAsked(const QString& criterion, midden::Instant at);  ///< empty criterion: any
    void stallAsked(midden::Instant from);                         ///< a stretch marked as stalled
    void visibleChanged();

  protected:
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;
    void wheelEvent(QWheelEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void mouseMoveEvent(QMouseEvent* event) override;
    void mouseReleaseEvent(QMouseEvent* event) override;
    void leaveEvent(QEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void drawForeground(QPainter* painter, const QRectF& rect) override;
    void paintEvent(QPaintEvent* event) override;

  private:
    void outdate();
    void redraw();
    void choose(std::optional<ReadingSpot> spot);
    void point(QPointF at);
    void click(QPointF at);
    bool stepTo(int key);
    const Stall* stallAt(Instant at) const;
    bool askStall();
    bool askHour(int key);
    bool lookAround(const QKeyEvent& event);
    std::optional<ReadingSpot> firstInSight() const;
    QPointF placeOf(ReadingSpot spot) const;
    void drawRing(QPainter& painter, ReadingSpot spot) const;

    ChartPicture picture_;
    LoadedPtr batch_;
    TraceSettings settings_;
    Interval visible_;
    bool outdated_ = false;
    std::optional<ReadingSpot> pointed_;
    std::optional<ReadingSpot> marked_;
    std::optional<Instant> hour_;
    std::optional<QPointF> pressed_;
    Interval visibleWhenPressed_;
    bool dragging_ = false;
};

}  // namespace midden::ui
