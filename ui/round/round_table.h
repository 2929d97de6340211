// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <map>
#include <vector>

#include "ui/round/round_plan.h"
#include "ui/shared/bin_summary.h"

class QGridLayout;
class QLabel;
class QPushButton;

namespace midden::ui {

class ReadingCell;

/// The rows of the Round as a grid of lines: thin, all it shows comes from the plan.
class RoundTable : public QWidget {
    Q_OBJECT

  public:
    explicit RoundTable(QWidget* parent = nullptr);

    /// Shows the plan; the same places as before keep their cells, the cursor and what is half typed.
    void show(const RoundPlan& plan, const std::map<BinId, BinSummary>& summaries, Moment now);
    /// Words beside a cell in place of what it means; empty = none.
    void question(std::size_t row, const QString& words);

    /// What the Tab key stops at, in reading order, one a row.
    const std::vector<QWidget*>& stops() const { return stops_; }
    ReadingCell* cell(std::size_t row) const;  ///< null for an empty bin
    std::optional<std::size_t> firstEmptyCell() const;
    std::optional<std::size_t> rowAfter(std::size_t row, int step) const;
    std::optional<std::size_t> lastQuestioned() const;

  signals:
    void typed(std::size_t row, const QString& text);
    void enterPressed(std::size_t row);
    void moveOn(std::size_t row, int rows);
    void entered(std::size_t row);
    void startWanted(std::size_t row);

  private:
    struct Line {
        QLabel* last = nullptr;
        QLabel* ago = nullptr;
        ReadingCell* cell = nullptr;
        QLabel* change = nullptr;
        QLabel* meaning = nullptr;
        QString question;
        QString means;
    };
    void rebuild(const RoundPlan& plan);
    void addHeadings(const RoundPlan& plan);
    void addLine(const RoundRow& row, int gridRow, std::size_t index);
    void addEmptyBin(const RoundRow& row, int gridRow, std::size_t index);
    void fill(const RoundRow& row, Line& line, TemperatureUnit unit, Moment now);
    void showMeaning(Line& line);
    QLabel* putName(const QString& name, int row, int column);
    QLabel* put(const QString& words, int row, int column, Qt::Alignment alignment = Qt::AlignLeft);

    QGridLayout* grid_ = nullptr;
    QWidget* body_ = nullptr;
    QString shape_;  ///< which places stand in which row; another one means building anew
    std::vector<Line> lines_;
    std::vector<QWidget*> stops_;
};

/// The words of the column "what it means" for a row.
QString meaningOf(const RoundRow& row, const BinSummary& summary, TemperatureUnit unit);
/// How a reading stands in its cell: the number alone, with its unit only when that is not the column's.
QString cellText(const Reading& reading, TemperatureUnit unit);

}  // namespace midden::ui
