// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shell/menus.h"

#include <QActionGroup>
#include <QApplication>
#include <QFileInfo>
#include <QMainWindow>
#include <QMenu>
#include <QMenuBar>
#include <QUndoStack>

#include "ui/round/print_sheet.h"
#include "ui/shared/appearance.h"
#include "ui/shared/book.h"
#include "ui/shared/undo_keys.h"
#include "ui/shared/words.h"
#include "ui/shell/recent_files.h"
#include "ui/shell/screens.h"
#include "ui/shell/workspace.h"

namespace midden::ui {

namespace {

QString tr(const char* words) {
    return QCoreApplication::translate("menus", words);
}

struct Entry {
    const char* name;
    QString words;
    QKeySequence key;
    std::function<void()> act;
};

QAction* add(QMenu& menu, const Entry& entry) {
    QAction* action = menu.addAction(entry.words);
    action->setObjectName(QLatin1String{entry.name});
    action->setShortcut(entry.key);
    QObject::connect(action, &QAction::triggered, &menu, entry.act);
    return action;
}

void fillRecent(QMenu& menu, const MenuTargets& on) {
    for (const QString& path : recent::files()) {
        QAction* action = menu.addAction(words::onButton(QFileInfo{path}.fileName()));
        action->setToolTip(path);
        QObject::connect(action, &QAction::triggered, &menu, [open = on.openFile, path] { open(path); });
    }
    menu.setToolTipsVisible(true);
    menu.setEnabled(!menu.isEmpty());
}

void fillBook(QMenu& menu, const MenuTargets& on) {
    add(menu, {"actionNew", tr("&New…"), QKeySequence::New, on.startNew});
    add(menu, {"actionOpen", tr("&Open…"), QKeySequence::Open, on.open});
    fillRecent(*menu.addMenu(tr("Open &recent")), on);
    if (on.copies) {
        add(menu, {"actionCopies", tr("&Copies and restoring…"), {}, on.copies});
    }
    menu.addSeparator();
    Book* book = on.book;
    add(menu, {"actionBringIn", tr("&Bring in from another copy…"), {}, on.bringIn})
        ->setEnabled(book != nullptr && !book->isReadOnly());
    add(menu, {"actionBringInTable", tr("Bring in readings from a &file…"), {}, on.bringInTable})
        ->setEnabled(book != nullptr && !book->isReadOnly());
    menu.addSeparator();
    QMainWindow* window = &on.window;
    Prompts* prompts = &on.prompts;
    add(menu,
        {"actionPrintSheet", tr("&Print blank round sheet…"), {}, [=] { printRoundSheet(*book, *prompts, window); }})
        ->setEnabled(book != nullptr);
    add(menu, {"actionSaveSheet",
               tr("Save blank round sheet as P&DF…"),
               {},
               [=] { saveRoundSheet(*book, *prompts, window); }})
        ->setEnabled(book != nullptr);
    menu.addSeparator();
    add(menu, {"actionQuit", tr("&Quit"), QKeySequence::Quit, [window] { window->close(); }});
}

void fillEdit(QMenu& menu, const MenuTargets& on) {
    QUndoStack& stack = on.book->undoStack();
    QAction* undo = stack.createUndoAction(&menu, tr("&Undo"));
    undo->setObjectName(QStringLiteral("actionUndo"));
    undo->setShortcut(QKeySequence::Undo);
    QAction* redo = stack.createRedoAction(&menu, tr("&Redo"));
    redo->setObjectName(QStringLiteral("actionRedo"));
    redo->setShortcuts(redoKeys());
    menu.addActions({undo, redo});
}

void changeAppearance(const std::function<void(Appearance&)>& how) {
    Appearance appearance = Appearance::load();
    how(appearance);
    appearance.save();
    apply(appearance, *qApp);
}

void fillLightness(QMenu& menu) {
    auto* group = new QActionGroup{&menu};
    const Lightness chosen = Appearance::load().lightness;
    const auto offer = [&](const QString& words, Lightness lightness) {
        QAction* action = group->addAction(words);
        action->setCheckable(true);
        action->setChecked(lightness == chosen);
        QObject::connect(action, &QAction::triggered, &menu,
                         [lightness] { changeAppearance([lightness](Appearance& a) { a.lightness = lightness; }); });
        menu.addAction(action);
    };
    offer(tr("As the &desktop"), Lightness::asDesktop);
    offer(tr("&Light"), Lightness::light);
    offer(tr("Dar&k"), Lightness::dark);
}

void changeText(int points) {
    changeAppearance(
        [points](Appearance& a) { a.textPoints = qBound(7, QApplication::font().pointSize() + points, 24); });
}

void fillView(QMenu& menu, const MenuTargets& on) {
    if (on.workspace != nullptr) {
        Workspace* workspace = on.workspace;
        for (const ScreenEntry& screen : screens()) {
            const QString id = QLatin1String{screen.id};
            QAction* action = add(menu, {"", QCoreApplication::translate("screens", screen.title),
                                         QKeySequence{Qt::CTRL | screen.key}, [=] { workspace->showScreen(id); }});
            action->setObjectName(QStringLiteral("actionShow_") + id);
        }
        menu.addSeparator();
        add(menu, {"actionSwitchPane", tr("&Between bins and screen"), Qt::Key_F6, [=] { workspace->switchPane(); }});
        menu.addSeparator();
    }
    fillLightness(*menu.addMenu(tr("&Appearance")));
    add(menu, {"actionLarger", tr("Lar&ger text"), QKeySequence::ZoomIn, [] { changeText(1); }});
    add(menu, {"actionSmaller", tr("S&maller text"), QKeySequence::ZoomOut, [] { changeText(-1); }});
    add(menu, {"actionUsualText", tr("&Usual text size"), QKeySequence{Qt::CTRL | Qt::Key_0},
               [] { changeAppearance([](Appearance& a) { a.textPoints = 0; }); }});
}

}  // namespace

void fillMenus(QMenuBar& bar, const MenuTargets& targets) {
    bar.clear();
    qDeleteAll(bar.findChildren<QMenu*>(Qt::FindDirectChildrenOnly));
    fillBook(*bar.addMenu(tr("&Book")), targets);
    if (targets.book != nullptr) {
        fillEdit(*bar.addMenu(tr("&Edit")), targets);
    }
    fillView(*bar.addMenu(tr("&View")), targets);
}

}  // namespace midden::ui
