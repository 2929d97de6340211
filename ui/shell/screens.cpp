// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shell/screens.h"

#include <array>

#include "ui/certificate/certificate_screen.h"
#include "ui/history/history_screen.h"
#include "ui/recipe/recipe_screen.h"
#include "ui/round/round_screen.h"
#include "ui/season/season_screen.h"
#include "ui/setup/setup_screen.h"
#include "ui/today/today_screen.h"

namespace midden::ui {

namespace {

/// For a screen that asks nothing in windows of its own.
template <class Screen>
QWidget* made(Book& book, Prompts& /*prompts*/, QWidget* parent) {
    return new Screen{book, parent};
}

/// For a screen that does: it opens or saves files, prints, or asks before it acts.
template <class Screen>
[[maybe_unused]] QWidget* madeWithPrompts(Book& book, Prompts& prompts, QWidget* parent) {
    return new Screen{book, prompts, parent};
}

constexpr std::array entries{
    ScreenEntry{"today", QT_TRANSLATE_NOOP("screens", "Today"), Qt::Key_T, made<TodayScreen>},
    ScreenEntry{"round", QT_TRANSLATE_NOOP("screens", "Round"), Qt::Key_1, made<RoundScreen>},
    ScreenEntry{"history", QT_TRANSLATE_NOOP("screens", "History"), Qt::Key_2, made<HistoryScreen>},
    ScreenEntry{"recipe", QT_TRANSLATE_NOOP("screens", "Recipe"), Qt::Key_3, made<RecipeScreen>},
    ScreenEntry{"certificate", QT_TRANSLATE_NOOP("screens", "Certificate"), Qt::Key_4,
                madeWithPrompts<CertificateScreen>},
    ScreenEntry{"season", QT_TRANSLATE_NOOP("screens", "Season"), Qt::Key_5, made<SeasonScreen>},
    ScreenEntry{"setup", QT_TRANSLATE_NOOP("screens", "Setup"), Qt::Key_6, made<SetupScreen>},
};

}  // namespace

std::span<const ScreenEntry> screens() {
    return entries;
}

}  // namespace midden::ui
