// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <set>

#include "ui/history/batch_loader.h"

class QComboBox;
class QLabel;
class QMenu;
class QPushButton;
class QStackedWidget;
class QToolButton;

namespace midden::ui {

class Book;
class EntriesPart;
class FiguresPanel;
class LayersPanel;
class TraceView;
class WaitingBar;
class WhyPanel;

/// A batch as it went: its chart, why hours count, and its entries.
class HistoryScreen : public QWidget {
    Q_OBJECT

  public:
    explicit HistoryScreen(Book& book, QWidget* parent = nullptr);

    TraceView& trace() { return *trace_; }
    EntriesPart& entries() { return *entries_; }
    /// The sentence about the reading that is pointed at or marked.
    QString spoken() const;
    bool isLoading() const { return loader_.isBusy(); }

  signals:
    /// The empty screen's button: the first reading is typed in Round.
    void roundWanted();
    void stallWanted(const midden::Stall& stall);

  protected:
    void showEvent(QShowEvent* event) override;

  private:
    QWidget* buildChart();
    QWidget* buildHead();
    void fillZoom();
    QWidget* buildEmpty();
    void listen();
    void refresh();
    void fillBatches();
    void load();
    void take(const LoadedPtr& batch);
    void fillCriteria();
    void present();
    void showFace();
    void describe(std::optional<ReadingSpot> spot);
    void explain(const QString& criterion, Instant at);
    void showBusy();
    void tellHours();
    void openStall(Instant from);
    void letGo();
    void stop();
    void showNothing(const QString& sentence, bool offersRound);

    Book& book_;
    BatchLoader loader_;
    LoadedPtr batch_;
    std::set<std::string> strips_;  ///< criteria with a strip
    bool outdated_ = true;          ///< the book has changed while nobody looked
    QComboBox* batches_;
    QToolButton* criteria_;
    QWidget* zoom_;  ///< its buttons
    QMenu* criteriaMenu_;
    QLabel* line_;
    TraceView* trace_;
    QLabel* hours_;
    QToolButton* layersButton_;
    LayersPanel* layers_;
    QToolButton* figuresButton_;
    FiguresPanel* figures_;
    WhyPanel* why_;
    EntriesPart* entries_;
    WaitingBar* waiting_;
    QLabel* emptySentence_;
    QPushButton* emptyButton_;
    QStackedWidget* pages_;
    QWidget* full_;
    QWidget* empty_;
};

}  // namespace midden::ui
