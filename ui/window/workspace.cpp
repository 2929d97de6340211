// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/window/workspace.h"

#include <QFrame>
#include <QHBoxLayout>
#include <QKeySequence>
#include <QStackedWidget>
#include <QTabBar>
#include <QVBoxLayout>
#include <algorithm>

#include "ui/common/book.h"
#include "ui/common/hairline.h"
#include "ui/common/looked_at.h"
#include "ui/history/history_screen.h"
#include "ui/round/round_screen.h"
#include "ui/season/season_screen.h"
#include "ui/stall/stall_panel.h"
#include "ui/today/today_screen.h"
#include "ui/window/bin_cards.h"
#include "ui/window/screens.h"

namespace midden::ui {

Workspace::Workspace(Book& book, Prompts& prompts, QWidget* parent)
    : QWidget{parent},
      book_{book},
      prompts_{prompts},
      lookedAt_{new LookedAt{book, this}},
      cards_{new BinCards{book, this}},
      tabs_{new QTabBar{this}},
      stall_{new StallPanel{book, this}},
      pages_{new QStackedWidget{this}} {
    setObjectName(QStringLiteral("workspace"));
    tabs_->setObjectName(QStringLiteral("tabs"));
    tabs_->setAccessibleName(tr("Screens"));
    tabs_->setDocumentMode(true);
    tabs_->setDrawBase(false);
    tabs_->setExpanding(false);
    addTabs();
    layOut();
    connect(tabs_, &QTabBar::currentChanged, this, &Workspace::showPage);
    showFirst();
}

/// What is being typed is handed over while there is something to take it.
Workspace::~Workspace() {
    if (QWidget* typing = focusWidget()) {
        typing->clearFocus();
    }
}

/// A new book begins where its first bin is named, any other with what needs doing.
void Workspace::showFirst() {
    const auto bins = book_.log().bins();
    const bool hasBins = std::any_of(bins.begin(), bins.end(), [](const Bin& bin) { return !bin.retired; });
    const int first = pages_->indexOf(page(hasBins ? QStringLiteral("today") : QStringLiteral("round")));
    tabs_->setCurrentIndex(first);
    showPage(first);
}

void Workspace::addTabs() {
    for (const ScreenEntry& entry : screens()) {
        auto* place = new QWidget{pages_};  // kept for the screen
        place->setObjectName(QLatin1String{entry.id});
        pages_->addWidget(place);
        const int tab = tabs_->addTab(QCoreApplication::translate("screens", entry.title));
        tabs_->setTabToolTip(tab, QKeySequence{Qt::CTRL | entry.key}.toString(QKeySequence::NativeText));
    }
    isBuilt_.assign(screens().size(), false);
}

void Workspace::showPage(int index) {
    const auto place = static_cast<std::size_t>(index);
    if (!isBuilt_.at(place)) {
        isBuilt_[place] = true;
        QWidget* kept = pages_->widget(index);
        pages_->insertWidget(index, build(index));
        pages_->removeWidget(kept);
        delete kept;
    }
    pages_->setCurrentIndex(index);
    stall_->setDiscreet(screen() == QStringLiteral("today"));
}

QWidget* Workspace::build(int index) {
    const ScreenEntry& entry = screens()[static_cast<std::size_t>(index)];
    QWidget* page = entry.make(book_, prompts_, pages_);
    page->setObjectName(QLatin1String{entry.id});
    if (const auto* history = qobject_cast<HistoryScreen*>(page)) {
        connect(history, &HistoryScreen::roundWanted, this, [this] { showScreen(QStringLiteral("round")); });
        connect(history, &HistoryScreen::stallWanted, stall_, &StallPanel::showStall);
    }
    if (const auto* today = qobject_cast<TodayScreen*>(page)) {
        connect(today, &TodayScreen::wanted, this, &Workspace::go);
    }
    if (const auto* season = qobject_cast<SeasonScreen*>(page)) {
        connect(season, &SeasonScreen::roundWanted, this, [this] { showScreen(QStringLiteral("round")); });
        connect(season, &SeasonScreen::historyWanted, this, [this] { showScreen(QStringLiteral("history")); });
    }
    return page;
}

void Workspace::layOut() {
    auto* right = new QVBoxLayout;
    right->setSpacing(0);
    right->addWidget(tabs_);
    right->addWidget(new Hairline{Qt::Horizontal, this});
    right->addWidget(stall_);
    right->addWidget(pages_, 1);
    auto* row = new QHBoxLayout{this};
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(0);
    row->addWidget(cards_);
    row->addWidget(new Hairline{Qt::Vertical, this});
    row->addLayout(right, 1);
}

QWidget* Workspace::page(const QString& id) const {
    return pages_->findChild<QWidget*>(id, Qt::FindDirectChildrenOnly);
}

void Workspace::showScreen(const QString& id) {
    if (QWidget* wanted = page(id)) {
        const int index = pages_->indexOf(wanted);
        tabs_->setCurrentIndex(index);
        pages_->widget(index)->setFocus();  // built by now
    }
}

void Workspace::go(TaskPlace place, std::optional<BinId> bin) {
    switch (place) {
        case TaskPlace::certificate:
            return showScreen(QStringLiteral("certificate"));
        case TaskPlace::setup:
            return showScreen(QStringLiteral("setup"));
        case TaskPlace::round:
        case TaskPlace::stall:
            break;
    }
    showScreen(QStringLiteral("round"));
    auto* round = qobject_cast<RoundScreen*>(page(QStringLiteral("round")));
    if (round != nullptr && bin) {
        round->goToBin(*bin);
    }
    if (place == TaskPlace::stall) {
        stall_->takeKeyboard();
    }
}

QString Workspace::screen() const {
    return pages_->currentWidget()->objectName();
}

void Workspace::switchPane() {
    QWidget* there = cards_->hasKeyboard() ? pages_->currentWidget() : static_cast<QWidget*>(cards_);
    there->setFocus();
}

void Workspace::focusInEvent(QFocusEvent* event) {
    QWidget::focusInEvent(event);
    pages_->currentWidget()->setFocus();
}

}  // namespace midden::ui
