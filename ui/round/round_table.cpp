// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/round/round_table.h"

#include <QGridLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include "ui/round/reading_cell.h"
#include "ui/shared/elided_label.h"
#include "ui/shared/fed_words.h"
#include "ui/shared/hairline.h"
#include "ui/shared/kept_typing.h"
#include "ui/shared/late.h"
#include "ui/shared/speak.h"
#include "ui/shared/tone.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

constexpr int nameLetters = 22;

enum Column { binColumn, positionColumn, lastColumn, agoColumn, nowColumn, changeColumn, meaningColumn, columns };

QString shapeOf(const RoundPlan& plan) {
    QString shape = plan.readOnly ? QStringLiteral("read only") : QString{};
    shape += words::unitName(plan.unit);
    for (const RoundRow& row : plan.rows) {
        shape += QStringLiteral("|%1/%2/%3/%4")
                     .arg(words::text(row.bin.name), words::text(row.position))
                     .arg(static_cast<qlonglong>(row.bin.id))
                     .arg(row.batch ? static_cast<qlonglong>(*row.batch) : 0);
    }
    return shape;
}

/// "23 h ago", "3 days ago, typed late"
QString agoWords(const Reading& reading, Moment now) {
    const QString ago = words::ago(now.at - reading.when.at);
    return isLate(reading.provenance, reading.when.at) ? RoundTable::tr("%1, typed late").arg(ago) : ago;
}

/// What this round's reading itself makes worth saying.
QString withLateness(const RoundRow& row, const QString& means) {
    if (!row.now || !isLate(row.now->provenance, row.now->when.at)) {
        return means;
    }
    return means.isEmpty() ? RoundTable::tr("typed late") : RoundTable::tr("%1; typed late").arg(means);
}

}  // namespace

QString cellText(const Reading& reading, TemperatureUnit unit) {
    return reading.written.unit == unit ? words::localised(writtenNumber(reading.written))
                                        : words::written(reading.written);
}

QString meaningOf(const RoundRow& row, const BinSummary& summary, TemperatureUnit unit, Moment now) {
    if (row.spotCheck) {
        return RoundTable::tr("spot check");
    }
    if (!row.firstOfBin || (!summary.isPending && !summary.lastRead)) {
        return {};
    }
    if (summary.fed) {
        return words::lastFed(*summary.fed, now);
    }
    return summary.isPending || summary.outlook.stall ? words::phase(summary, unit) : words::credit(summary, unit);
}

RoundTable::RoundTable(QWidget* parent) : QWidget{parent} {
    setObjectName(QStringLiteral("roundTable"));
    auto* around = new QVBoxLayout{this};
    around->setContentsMargins(0, 0, 0, 0);
}

void RoundTable::show(const RoundPlan& plan, const std::map<BinId, BinSummary>& summaries, Moment now) {
    const bool isNew = shapeOf(plan) != shape_;
    if (isNew) {
        shape_ = shapeOf(plan);
        rebuild(plan);
    }
    for (std::size_t i = 0; i < plan.rows.size(); ++i) {
        const RoundRow& row = plan.rows[i];
        if (lines_[i].cell == nullptr) {
            continue;
        }
        const auto summary = summaries.find(row.bin.id);
        lines_[i].means =
            withLateness(row, summary == summaries.end() ? QString{} : meaningOf(row, summary->second, plan.unit, now));
        fill(row, lines_[i], plan.unit, now);
    }
}

void RoundTable::rebuild(const RoundPlan& plan) {
    QWidget* old = body_;
    const KeptTyping typing{old};
    lines_.assign(plan.rows.size(), {});
    stops_.clear();
    body_ = new QWidget{this};
    layout()->addWidget(body_);
    grid_ = new QGridLayout{body_};
    grid_->setContentsMargins(0, 0, 0, 0);
    grid_->setHorizontalSpacing(12);
    grid_->setVerticalSpacing(8);
    grid_->setColumnStretch(meaningColumn, 1);
    addHeadings(plan);
    int gridRow = 1;
    for (std::size_t i = 0; i < plan.rows.size(); ++i) {
        const RoundRow& row = plan.rows[i];
        if (row.firstOfBin) {
            grid_->addWidget(new Hairline{Qt::Horizontal, body_}, gridRow++, 0, 1, columns);
            auto* name = putName(words::text(row.bin.name), gridRow, binColumn);
            QFont bold = name->font();
            bold.setWeight(QFont::DemiBold);
            name->setFont(bold);
        }
        if (row.isEmptyBin()) {
            addEmptyBin(row, gridRow++, i);
        } else {
            addLine(row, gridRow++, i);
            lines_[i].cell->setReadOnly(plan.readOnly);
        }
    }
    body_->show();
    if (!typing.goOnIn(*body_)) {
        window()->focusWidget()->clearFocus();  // else Qt gives it to any other cell
    }
    if (old != nullptr) {
        old->hide();
        old->setParent(nullptr);
        old->deleteLater();  // one of its cells may be what asked for this
    }
}

QLabel* RoundTable::put(const QString& words, int row, int column, Qt::Alignment alignment) {
    auto* label = new QLabel{words, body_};
    grid_->addWidget(label, row, column, alignment | Qt::AlignVCenter);
    return label;
}

QLabel* RoundTable::putName(const QString& name, int row, int column) {
    auto* label = new ElidedLabel{name, body_, nameLetters};
    grid_->addWidget(label, row, column, Qt::AlignVCenter);
    return label;
}

void RoundTable::addHeadings(const RoundPlan& plan) {
    const QString unit = words::unitName(plan.unit);
    const auto heading = [&](const QString& words, Column column, Qt::Alignment alignment = Qt::AlignLeft) {
        setTone(*put(words, 0, column, alignment), Tone::quiet);
    };
    heading(tr("bin"), binColumn);
    heading(tr("position"), positionColumn);
    heading(tr("last, %1").arg(unit), lastColumn, Qt::AlignRight);
    heading(tr("now, %1").arg(unit), nowColumn, Qt::AlignRight);
    heading(tr("since last"), changeColumn, Qt::AlignRight);
    heading(tr("what it means"), meaningColumn);
}

void RoundTable::addLine(const RoundRow& row, int gridRow, std::size_t index) {
    Line& line = lines_[index];
    putName(words::text(row.position), gridRow, positionColumn);
    line.last = put({}, gridRow, lastColumn, Qt::AlignRight);
    line.ago = put({}, gridRow, agoColumn);
    setTone(*line.ago, Tone::quiet);
    line.cell = new ReadingCell{body_};
    line.cell->setObjectName(QStringLiteral("cell_%1_%2").arg(words::text(row.bin.name), words::text(row.position)));
    line.cell->setAccessibleName(tr("%1, %2, now").arg(words::text(row.bin.name), words::text(row.position)));
    line.cell->setFixedWidth(line.cell->fontMetrics().horizontalAdvance(QStringLiteral("137.50 °F")) + 32);
    grid_->addWidget(line.cell, gridRow, nowColumn);
    stops_.push_back(line.cell);
    line.change = put({}, gridRow, changeColumn, Qt::AlignRight);
    line.meaning = new QLabel{body_};
    line.meaning->setWordWrap(true);
    line.meaning->setObjectName(line.cell->objectName().replace(0, 4, QStringLiteral("meaning")));
    grid_->addWidget(line.meaning, gridRow, meaningColumn, Qt::AlignVCenter);
    connect(line.cell, &ReadingCell::typed, this, [this, index](const QString& text) { emit typed(index, text); });
    connect(line.cell, &ReadingCell::enterPressed, this, [this, index] { emit enterPressed(index); });
    connect(line.cell, &ReadingCell::moveOn, this, [this, index](int rows) { emit moveOn(index, rows); });
    connect(line.cell, &ReadingCell::entered, this, [this, index] { emit entered(index); });
}

void RoundTable::addEmptyBin(const RoundRow& row, int gridRow, std::size_t index) {
    setTone(*put(tr("empty"), gridRow, positionColumn), Tone::quiet);
    auto* start = new QPushButton{tr("Start a batch…"), body_};
    start->setObjectName(QStringLiteral("start_") + words::text(row.bin.name));
    start->setAccessibleName(tr("Start a batch in %1").arg(words::text(row.bin.name)));
    start->setAutoDefault(true);
    stops_.push_back(start);
    grid_->addWidget(start, gridRow, meaningColumn, Qt::AlignLeft);
    connect(start, &QPushButton::clicked, this, [this, index] { emit startWanted(index); });
}

void RoundTable::fill(const RoundRow& row, Line& line, TemperatureUnit unit, Moment now) {
    line.last->setText(row.last ? words::degrees(toCelsius(row.last->written), unit) : QString{});
    line.ago->setText(row.last ? agoWords(*row.last, now) : tr("no reading yet"));
    line.cell->setStored(row.now ? cellText(*row.now, unit) : QString{});
    const bool both = row.now && row.last;
    line.change->setText(both ? words::change(toCelsius(row.now->written) - toCelsius(row.last->written), unit)
                              : QString{});
    showMeaning(line);
}

void RoundTable::question(std::size_t row, const QString& words) {
    Line& line = lines_.at(row);
    line.question = words;
    line.cell->setAccessibleDescription(words);
    showMeaning(line);
    if (!words.isEmpty()) {
        readOut(*line.meaning);
    }
}

void RoundTable::showMeaning(Line& line) {
    setTone(*line.meaning, line.question.isEmpty() ? Tone::plain : Tone::question);
    line.meaning->setText(line.question.isEmpty() ? line.means : line.question);
}

ReadingCell* RoundTable::cell(std::size_t row) const {
    return row < lines_.size() ? lines_[row].cell : nullptr;
}

std::optional<std::size_t> RoundTable::firstEmptyCell() const {
    for (std::size_t i = 0; i < lines_.size(); ++i) {
        if (lines_[i].cell != nullptr && lines_[i].cell->text().isEmpty()) {
            return i;
        }
    }
    return std::nullopt;
}

std::optional<std::size_t> RoundTable::rowAfter(std::size_t row, int step) const {
    for (auto i = static_cast<std::ptrdiff_t>(row) + step; i >= 0 && i < std::ssize(lines_); i += step) {
        if (lines_[static_cast<std::size_t>(i)].cell != nullptr) {
            return static_cast<std::size_t>(i);
        }
    }
    return std::nullopt;
}

std::optional<std::size_t> RoundTable::lastQuestioned() const {
    for (std::size_t i = lines_.size(); i-- > 0;) {
        if (!lines_[i].question.isEmpty()) {
            return i;
        }
    }
    return std::nullopt;
}

}  // namespace midden::ui
