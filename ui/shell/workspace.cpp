// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shell/workspace.h"

#include <QApplication>
#include <QFrame>
#include <QHBoxLayout>
#include <QKeyEvent>
#include <QKeySequence>
#include <QStackedWidget>
#include <QTabBar>
#include <QVBoxLayout>
#include <algorithm>

#include "ui/history/history_screen.h"
#include "ui/round/round_screen.h"
#include "ui/season/season_screen.h"
#include "ui/shared/book.h"
#include "ui/shared/hairline.h"
#include "ui/shared/looked_at.h"
#include "ui/shared/scroll_pane.h"
#include "ui/shell/bin_cards.h"
#include "ui/shell/screens.h"
#include "ui/stall/stall_panel.h"
#include "ui/today/today_screen.h"

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
    const int first = indexOf(hasBins ? QStringLiteral("today") : QStringLiteral("round"));
    tabs_->setCurrentIndex(first);
    showPage(first);
}

void Workspace::addTabs() {
    for (const ScreenEntry& entry : screens()) {
        pages_->addWidget(new QWidget{pages_});  // kept for the screen
        const int tab = tabs_->addTab(QCoreApplication::translate("screens", entry.title));
        tabs_->setTabToolTip(tab, QKeySequence{Qt::CTRL | entry.key}.toString(QKeySequence::NativeText));
    }
    built_.assign(screens().size(), nullptr);
}

void Workspace::showPage(int index) {
    const auto place = static_cast<std::size_t>(index);
    if (built_.at(place) == nullptr) {
        built_[place] = build(index);
        QWidget* kept = pages_->widget(index);
        pages_->insertWidget(index, new ScrollPane{built_[place], pages_});
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
    right->addWidget(pages_, 1);
    right->addWidget(stall_);
    auto* row = new QHBoxLayout{this};
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(0);
    row->addWidget(cards_);
    row->addWidget(new Hairline{Qt::Vertical, this});
    row->addLayout(right, 1);
}

int Workspace::indexOf(const QString& id) {
    const auto found =
        std::ranges::find(screens(), id, [](const ScreenEntry& entry) { return QLatin1String{entry.id}; });
    return found == screens().end() ? -1 : static_cast<int>(found - screens().begin());
}

void Workspace::showScreen(const QString& id) {
    const int index = indexOf(id);
    if (index >= 0) {
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
    auto* round = pages_->findChild<RoundScreen*>();
    if (round != nullptr && bin) {
        round->goToBin(*bin);
    }
    if (place == TaskPlace::stall) {
        stall_->takeKeyboard();
    }
}

QString Workspace::screen() const {
    return QLatin1String{screens()[static_cast<std::size_t>(pages_->currentIndex())].id};
}

void Workspace::switchPane() {
    QWidget* there = cards_->hasKeyboard() ? pages_->currentWidget() : static_cast<QWidget*>(cards_);
    there->setFocus();
}

/// A narrow window is for the screens; the cards take what they need, but no more than a quarter of it.
void Workspace::resizeEvent(QResizeEvent* event) {
    cards_->setMaximumWidth(std::max(cards_->minimumSizeHint().width(), width() / 4));
    stall_->setRoom(height() * 9 / 20);
    QWidget::resizeEvent(event);
}

void Workspace::keyPressEvent(QKeyEvent* event) {
    if (event->key() != Qt::Key_Escape || !stall_->isOpen()) {
        QWidget::keyPressEvent(event);
        return;
    }
    const bool wasThere = stall_->isAncestorOf(QApplication::focusWidget());
    if (wasThere && screen() == QStringLiteral("round") && book_.bin()) {
        pages_->findChild<RoundScreen*>()->goToBin(*book_.bin());
    } else if (wasThere) {
        pages_->currentWidget()->setFocus();
    }
    stall_->setOpen(false);  // last: what is hidden gives the keyboard to whatever comes next
}

void Workspace::focusInEvent(QFocusEvent* event) {
    QWidget::focusInEvent(event);
    pages_->currentWidget()->setFocus();
}

}  // namespace midden::ui
