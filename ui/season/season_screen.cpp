// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/season/season_screen.h"

#include <QFocusEvent>
#include <QHeaderView>
#include <QLabel>
#include <QLocale>
#include <QPushButton>
#include <QStackedWidget>
#include <QStandardItemModel>
#include <QTableView>
#include <QVBoxLayout>
#include <utility>

#include "core/recipe/fact.h"
#include "core/store/read/book_rules.h"
#include "ui/certificate/criteria_choice.h"
#include "ui/season/season_columns.h"
#include "ui/season/time_line.h"
#include "ui/shared/bin_summary.h"
#include "ui/shared/book.h"
#include "ui/shared/looked_at.h"
#include "ui/shared/tone.h"
#include "ui/shared/waiting_bar.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

constexpr int lineColumn = 2;

QStandardItem* written(const QString& text) {
    auto* item = new QStandardItem{text};
    item->setEditable(false);
    return item;
}

/// Other people's words, which may be cut: the tip says them whole.
QStandardItem* named(const QString& name) {
    auto* item = written(name);
    item->setToolTip(name);
    return item;
}

QStandardItem* figure(const QString& text) {
    auto* item = written(text);
    item->setTextAlignment(Qt::AlignRight | Qt::AlignVCenter);
    return item;
}

QStandardItem* kilograms(std::optional<double> mass) {
    return figure(mass ? words::number(*mass, 1) : QStringLiteral("–"));
}

QStandardItem* wholeHours(Seconds duration) {
    return figure(QLocale{}.toString(duration.count / 3'600));
}

QStandardItem* verdict(const SeasonBatch& batch) {
    if (batch.fed) {
        return named(SeasonScreen::tr("fed"));
    }
    if (!batch.target || !batch.peak) {
        return named(SeasonScreen::tr("not read yet"));
    }
    const bool mayStillCome = !batch.finished && *batch.target == Verdict::notShown;
    return named(mayStillCome ? SeasonScreen::tr("not yet") : verdictWords(*batch.target));
}

QString spokenLine(const SeasonBatch& batch, const TimeZone& zone) {
    const QString from = QString::fromStdString(longDate(zone.momentAt(batch.stood.from)));
    const QString to = QString::fromStdString(longDate(zone.momentAt(batch.stood.to)));
    return batch.finished ? SeasonScreen::tr("from %1 to %2").arg(from, to)
                          : SeasonScreen::tr("from %1, still standing").arg(from);
}

void prepare(QTableView& table, const QString& name, const QString& spoken) {
    table.setObjectName(name);
    table.setAccessibleName(spoken);
    table.setSelectionBehavior(QAbstractItemView::SelectRows);
    table.setSelectionMode(QAbstractItemView::SingleSelection);
    table.setEditTriggers(QAbstractItemView::NoEditTriggers);
    table.setShowGrid(false);
    table.setTabKeyNavigation(false);
    table.setWordWrap(false);
    table.setFrameShape(QFrame::NoFrame);
    table.verticalHeader()->hide();
    table.verticalHeader()->setSectionResizeMode(QHeaderView::Fixed);
    table.verticalHeader()->setDefaultSectionSize(table.fontMetrics().height() + 12);
    table.horizontalHeader()->setHighlightSections(false);
}

void alignHeadings(QStandardItemModel& model, int firstFigure) {
    for (int column = 0; column < model.columnCount(); ++column) {
        const auto side = column >= firstFigure ? Qt::AlignRight : Qt::AlignLeft;
        model.setHeaderData(column, Qt::Horizontal, QVariant{side | Qt::AlignVCenter}, Qt::TextAlignmentRole);
    }
}

/// How many households' food waste of a year the kitchen waste of all bins comes to; empty without any.
QString householdsInWords(const std::vector<SeasonSum>& sums) {
    const double kitchen = sums.empty() ? 0 : sums.back().kitchenKilograms;
    const TradeFact& fact = tradeFact("household-food-waste");
    if (kitchen <= 0) {
        return {};
    }
    return SeasonScreen::tr(
               "\n%1 kg of kitchen waste was kept out of collection: about what %2 households throw away in a "
               "year, at %3 kg each (common practice, no source). %4")
        .arg(words::number(kitchen, 0), words::number(kitchen / fact.value, 1), words::number(fact.value, 0),
             words::text(fact.limits));
}

}  // namespace

SeasonScreen::SeasonScreen(Book& book, QWidget* parent)
    : QWidget{parent},
      book_{book},
      batches_{new QStandardItemModel{this}},
      sums_{new QStandardItemModel{this}},
      batchTable_{new QTableView{this}},
      sumTable_{new QTableView{this}},
      months_{new TimeLineHeader{lineColumn, batchTable_}},
      line_{new TimeLineDelegate{batchTable_}},
      legend_{new QLabel{this}},
      waiting_{new WaitingBar{tr("Judging the last batch …"), [this] { return task_.share(); }, this}},
      pages_{new QStackedWidget{this}} {
    prepareTables();
    pages_->addWidget(buildFull());
    pages_->addWidget(buildEmpty());
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(16, 16, 16, 16);
    column->setSpacing(8);
    column->addWidget(waiting_);
    column->addWidget(pages_, 1);
    connect(&book_, &Book::changed, this, &SeasonScreen::refresh);
    connect(waiting_, &WaitingBar::stopWanted, this, [this] {
        task_.drop();
        waiting_->end();
        outdated_ = true;  // tried again when the screen is shown anew
    });
}

void SeasonScreen::prepareTables() {
    prepare(*batchTable_, QStringLiteral("seasonBatches"), tr("Batches of the season"));
    batchTable_->setAccessibleDescription(tr("Enter: the batch's history."));
    batchTable_->setToolTip(tr("Enter shows the batch in History."));
    batchTable_->setModel(batches_);
    batchTable_->setHorizontalHeader(months_);
    months_->setHighlightSections(false);
    batchTable_->setItemDelegateForColumn(lineColumn, line_);
    connect(batchTable_, &QTableView::activated, this, [this](const QModelIndex& index) { open(index.row()); });
    prepare(*sumTable_, QStringLiteral("seasonBins"), tr("Bins compared"));
    sumTable_->setModel(sums_);
    batchTable_->viewport()->installEventFilter(this);
    sumTable_->viewport()->installEventFilter(this);
}

QWidget* SeasonScreen::buildFull() {
    legend_->setObjectName(QStringLiteral("seasonLegend"));
    legend_->setWordWrap(true);
    setTone(*legend_, Tone::quiet);
    auto* explained = new QLabel{
        tr("Hold: the longest run credited at every place as it was read, since raw material was added last. Shown: "
           "batches whose readings show the target. Went cold: too early. In: all "
           "material weighed in. Waste: of it the kitchen "
           "and garden material, which would otherwise have gone to a collection. Made: compost written down in kg at "
           "a screening."),
        this};
    explained->setWordWrap(true);
    setTone(*explained, Tone::quiet);
    auto* full = new QWidget{this};
    auto* column = new QVBoxLayout{full};
    column->setContentsMargins({});
    column->setSpacing(8);
    column->addWidget(batchTable_, 2);
    column->addWidget(legend_);
    column->addSpacing(16);
    column->addWidget(sumTable_, 1);
    column->addWidget(explained);
    return full;
}

QWidget* SeasonScreen::buildEmpty() {
    auto* sentence = new QLabel{tr("No batch stands on the time line yet."), this};
    auto* button = new QPushButton{tr("Start a batch in the Round"), this};
    button->setObjectName(QStringLiteral("seasonToRound"));
    connect(button, &QPushButton::clicked, this, &SeasonScreen::roundWanted);
    auto* empty = new QWidget{this};
    auto* column = new QVBoxLayout{empty};
    column->addStretch();
    column->addWidget(sentence, 0, Qt::AlignHCenter);
    column->addWidget(button, 0, Qt::AlignHCenter);
    column->addStretch();
    return empty;
}

void SeasonScreen::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    if (outdated_) {
        load();
    }
}

void SeasonScreen::focusInEvent(QFocusEvent* event) {
    QWidget::focusInEvent(event);
    if (pages_->currentIndex() == 0) {
        batchTable_->setFocus(event->reason());
    } else {
        findChild<QPushButton*>(QStringLiteral("seasonToRound"))->setFocus(event->reason());
    }
}

void SeasonScreen::refresh() {
    outdated_ = true;
    if (isVisible()) {
        load();
    }
}

void SeasonScreen::load() {
    outdated_ = false;
    if (book_.log().file().empty()) {  // a book in memory is read on the spot
        take(loadSeason(book_.log(), [](double) { return true; }), {});
        return;
    }
    task_.start(
        [this, file = book_.log().file()](const BackgroundTask::TaskProgress& progress) -> BackgroundTask::Delivery {
            try {
                auto season = loadSeason(Logbook::open(file, Logbook::Mode::readOnly), progress);
                return [this, season = std::move(season)] { take(season, {}); };
            } catch (const std::exception& error) {
                return [this, sentence = QString::fromUtf8(error.what())] { take({}, sentence); };
            }
        });
    waiting_->begin();
}

/// What was loaded; without it, why it could not be.
void SeasonScreen::take(std::optional<Season> season, const QString& trouble) {
    waiting_->end();
    if (!trouble.isEmpty()) {
        emit book_.troubled(trouble);
    }
    if (!season) {
        return;
    }
    season_ = std::move(*season);
    const auto span = season_.span();
    pages_->setCurrentIndex(span ? 0 : 1);
    if (!span) {
        return;
    }
    const QString threshold = words::written(targetOf(book_.log()).alternatives.front().steps.front().threshold);
    legend_->setText(tr("A bar is a batch while it stood, dashed while it still does; filled where every place read "
                        "has credited time at %1 or above.")
                         .arg(threshold) +
                     householdsInWords(sumsOf(season_.batches)));
    const SeasonScale scale{*span, book_.zone()};
    line_->show(scale, &season_.batches);
    months_->show(scale);
    fillBatches();
    fillSums();
}

void SeasonScreen::fillBatches() {
    const TemperatureUnit unit = unitOf(book_.log());
    batches_->clear();
    for (const SeasonBatch& batch : season_.batches) {
        auto* line = written({});
        line->setData(spokenLine(batch, book_.zone()), Qt::AccessibleTextRole);
        batches_->appendRow({named(words::text(batch.name)), named(words::text(batch.bin)), line, verdict(batch),
                             figure(batch.peak ? words::degrees(batch.peak->temperature, unit) : QString{}),
                             batch.fed ? figure(QStringLiteral("–")) : wholeHours(batch.longestRun),
                             kilograms(batch.materialKilograms), kilograms(batch.wasteKilograms),
                             kilograms(batch.compostKilograms)});
    }
    batches_->setHorizontalHeaderLabels({tr("Batch"), tr("Bin"), tr("Time line"), tr("Target"),
                                         tr("Hottest, %1").arg(words::unitName(unit)), tr("Hold, h"), tr("In, kg"),
                                         tr("Waste, kg"), tr("Made, kg")});
    alignHeadings(*batches_, lineColumn + 2);
    months_->setMinimumSectionSize(fontMetrics().averageCharWidth() * 5);
    fitTables();
    batchTable_->selectRow(0);
}

void SeasonScreen::fillSums() {
    sums_->clear();
    for (const SeasonSum& sum : sumsOf(season_.batches)) {
        sums_->appendRow(
            {named(sum.bin.empty() ? tr("All bins") : words::text(sum.bin)), figure(QLocale{}.toString(sum.batches)),
             figure(QLocale{}.toString(sum.shown)), figure(QLocale{}.toString(sum.stalls)), wholeHours(sum.longestRun),
             kilograms(sum.materialKilograms), kilograms(sum.wasteKilograms), kilograms(sum.compostKilograms)});
    }
    sums_->setHorizontalHeaderLabels({tr("Bin"), tr("Batches"), tr("Shown"), tr("Went cold"), tr("Hold, h"),
                                      tr("In, kg"), tr("Waste, kg"), tr("Made, kg")});
    alignHeadings(*sums_, 1);
    fitTables();
}

/// The figures get what they take, the names and the time line share the rest.
void SeasonScreen::fitTables() {
    fitColumns(*batchTable_, {0, 1, lineColumn + 1}, lineColumn);
    fitColumns(*sumTable_, {0}, {});
}

bool SeasonScreen::eventFilter(QObject* watched, QEvent* event) {
    if (event->type() == QEvent::Resize && batches_->columnCount() > 0) {
        // Later: a table that is being laid out may be about to get a scroll bar.
        QMetaObject::invokeMethod(this, &SeasonScreen::fitTables, Qt::QueuedConnection);
    }
    return QWidget::eventFilter(watched, event);
}

void SeasonScreen::open(int row) {
    lookAtBatch(book_, season_.batches[static_cast<std::size_t>(row)].id);
    emit historyWanted();
}

}  // namespace midden::ui
