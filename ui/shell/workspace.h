// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <optional>
#include <vector>

#include "core/records/entries.h"

class QStackedWidget;
class QTabBar;

namespace midden::ui {

class BinCards;
class Book;
class LookedAt;
class Prompts;
class StallPanel;
enum class TaskPlace;

/// An open book: its bins on the left, the screens on the right.
class Workspace : public QWidget {
    Q_OBJECT

  public:
    Workspace(Book& book, Prompts& prompts, QWidget* parent = nullptr);
    Workspace(const Workspace&) = delete;
    Workspace& operator=(const Workspace&) = delete;
    ~Workspace() override;

    void showScreen(const QString& id);
    QString screen() const;
    /// Takes the keyboard from the bin cards to the screen, or back.
    void switchPane();

  protected:
    void focusInEvent(QFocusEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

  private:
    void addTabs();
    void layOut();
    void showFirst();
    void showPage(int index);
    QWidget* build(int index);
    void go(TaskPlace place, std::optional<BinId> bin);
    static int indexOf(const QString& id);

    Book& book_;
    Prompts& prompts_;
    LookedAt* lookedAt_;           ///< before whatever shows what is looked at
    std::vector<QWidget*> built_;  ///< screens are built when they are shown for the first time, and null before
    BinCards* cards_;
    QTabBar* tabs_;
    StallPanel* stall_;
    QStackedWidget* pages_;
};

}  // namespace midden::ui
