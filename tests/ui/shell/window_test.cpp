// SPDX-License-Identifier: GPL-3.0-or-later
#include <sqlite3.h>

#include <QElapsedTimer>
#include <QFile>
#include <QFileInfo>
#include <QTabBar>
#include <limits>

#include "tests/ui/shell/desk.h"
#include "ui/shell/screens.h"

using namespace midden;
using midden::testing::aMinute;
using midden::testing::Desk;
using midden::testing::fourthOfMarch;
using midden::testing::NoQtWarnings;
using midden::testing::waitUntil;

namespace {

/// The names the Tab key passes through on one screen, from a first one on, until it leaves the screen.
QStringList tabOrder(QWidget& first, const QWidget& within) {
    QStringList names;
    first.setFocus();
    for (int i = 0; i < 200; ++i) {
        QWidget* at = QApplication::focusWidget();
        if (at == nullptr || !within.isAncestorOf(at) || names.contains(at->objectName())) {
            break;
        }
        names << at->objectName();
        QTest::keyClick(at, Qt::Key_Tab);
    }
    return names;
}

/// How long the program waits for a file that another one holds, in milliseconds.
constexpr qint64 waitForFile = 5'000;

/// Another program that lets nobody else read the file.
class Holding {
  public:
    explicit Holding(const QString& file) {
        REQUIRE(sqlite3_open(file.toUtf8().constData(), &database_) == SQLITE_OK);
        sqlite3_busy_timeout(database_, aMinute);  // somebody may still be reading beside the window
        REQUIRE(sqlite3_exec(database_, "BEGIN EXCLUSIVE", nullptr, nullptr, nullptr) == SQLITE_OK);
    }
    Holding(const Holding&) = delete;
    Holding& operator=(const Holding&) = delete;
    ~Holding() { sqlite3_close(database_); }

  private:
    sqlite3* database_ = nullptr;
};

}  // namespace

// A picture that asked the file would wait for it, and what then is thrown would end the program.
TEST_CASE("every screen is painted anew while another program holds the file") {
    Desk desk;
    desk.window->startBook(desk.path("plot.midden"));
    Desk::settle();
    const auto north = desk.addBin("North", {"core", "side"});
    desk.addReading(north, "core", fourthOfMarch - hours(30), 612'500);
    for (const ui::ScreenEntry& screen : ui::screens()) {
        desk.window->workspace()->showScreen(screen.id);
        Desk::settle();
        const Holding other{desk.path("plot.midden")};
        qint64 quickest = std::numeric_limits<qint64>::max();
        bool isPainted = true;
        for (int trial = 0; trial < 3 && quickest >= waitForFile; ++trial) {  // a busy machine takes its time, too
            QElapsedTimer clock;
            clock.start();
            isPainted = !desk.window->grab().isNull() && isPainted;
            quickest = std::min(quickest, clock.elapsed());
        }
        INFO(screen.id);
        CHECK(isPainted);
        CHECK(quickest < waitForFile);
    }
}

TEST_CASE("everything the keyboard reaches has an object name and a spoken name") {
    const NoQtWarnings quiet;
    Desk desk;
    CHECK(midden::testing::unnamed(*desk.window) == QStringList{});
    desk.window->startBook(desk.path("plot.midden"));
    Desk::settle();
    desk.addBin("North", {"core", "side"});
    for (const ui::ScreenEntry& screen : ui::screens()) {
        desk.window->workspace()->showScreen(screen.id);
        Desk::settle();
        CHECK(midden::testing::unnamed(*desk.window) == QStringList{});
        QStringList nameless;  // how many widgets there are may be another number in another run
        for (const QWidget* widget : desk.window->workspace()->findChildren<QWidget*>()) {
            // The list a choice opens is a window of Qt's own.
            const bool isReached = widget->focusPolicy() != Qt::NoFocus && widget->window() == desk.window.get();
            if (isReached && widget->objectName().isEmpty()) {
                nameless << QLatin1String{widget->metaObject()->className()} + " in " +
                                widget->parentWidget()->objectName() + " on " + QLatin1String{screen.id};
            }
        }
        CHECK(nameless == QStringList{});
    }
}

TEST_CASE("the tab key follows reading order on the Round") {
    const NoQtWarnings quiet;
    Desk desk;
    desk.window->startBook(desk.path("plot.midden"));
    Desk::settle();
    desk.addBin("North", {"core", "side"});
    auto& screen = desk.find("round");
    const QStringList expected{"roundTime", "cellOutside", "cell_North_core", "cell_North_side",
                               "actAdded",  "actTurned",   "actForked",       "actWatered",
                               "actOpened", "actSqueeze",  "actRipening",     "actNote",
                               "actMove",   "actFinish",   "actStart",        "actFeeding"};
    CHECK(tabOrder(desk.find("roundTime"), screen) == expected);
}

TEST_CASE("control and a digit chooses a screen and F6 changes between bins and screen") {
    const NoQtWarnings quiet;
    Desk desk;
    desk.window->startBook(desk.path("plot.midden"));
    Desk::settle();
    desk.addBin("North", {"core"});
    for (const ui::ScreenEntry& screen : ui::screens()) {
        Desk::press(screen.key, Qt::ControlModifier);
        CHECK(desk.window->workspace()->screen() == screen.id);
    }
    Desk::press(Qt::Key_1, Qt::ControlModifier);
    Desk::press(Qt::Key_F6);
    CHECK(Desk::focus() == "binCards");
    Desk::press(Qt::Key_F6);
    CHECK(Desk::focus().startsWith("cell_North"));
}

TEST_CASE("a card chosen is the bin the window looks at") {
    const NoQtWarnings quiet;
    Desk desk;
    desk.window->startBook(desk.path("plot.midden"));
    Desk::settle();
    const BinId north = desk.addBin("North", {"core"});
    const BinId shed = desk.addBin("Shed", {"core"});
    desk.find("binCards").setFocus();
    CHECK(desk.book().bin() == north);
    Desk::press(Qt::Key_Down);
    CHECK(desk.book().bin() == shed);
    desk.find("cell_North_core").setFocus();
    CHECK(desk.book().bin() == north);
}

TEST_CASE("a book that cannot be written says so and takes nothing") {
    const NoQtWarnings quiet;
    Desk desk;
    const QString path = desk.path("plot.midden");
    {
        Logbook book = Logbook::open(path.toStdString(), Logbook::Mode::createIfAbsent);
        book.setSetting(setting::zone, "Europe/London");
        const BinId bin = std::get<BinId>(book.apply(Put<Bin>{{.name = "North"}}).id);
        book.apply(Put<Batch>{
            {.name = "First", .started = {fourthOfMarch - days(2), {}}, .stays = {{fourthOfMarch - days(2), bin}}}});
    }
    Logbook readOnly = Logbook::open(path.toStdString(), Logbook::Mode::readOnly);
    ui::Book book{std::move(readOnly), TimeZone::utc(), [] { return fourthOfMarch; }};
    QString trouble;
    QObject::connect(&book, &ui::Book::troubled, [&](const QString& sentence) { trouble = sentence; });
    CHECK_FALSE(book.change(Put<Bin>{{.name = "Shed"}}, "bin Shed"));
    CHECK_FALSE(trouble.isEmpty());
    ui::Workspace workspace{book, desk.prompts};
    workspace.showScreen(QStringLiteral("round"));
    CHECK(workspace.findChild<QLineEdit*>("cell_North_core")->isReadOnly());
    CHECK(workspace.findChild<QLabel*>("roundSummary")->text().contains("reading only"));
}

TEST_CASE("what another program writes appears by itself") {
    const NoQtWarnings quiet;
    Desk desk;
    desk.window->startBook(desk.path("plot.midden"));
    Desk::settle();
    {
        Logbook other = Logbook::open(desk.path("plot.midden").toStdString(), Logbook::Mode::readWrite);
        other.apply(Put<Bin>{{.name = "Hedge"}});
    }
    CHECK(waitUntil([&] { return desk.window->findChild<QWidget*>("start_Hedge") != nullptr; }));
}

TEST_CASE("a round sheet takes the place of a round sheet and of nothing else") {
    const NoQtWarnings quiet;
    Desk desk;
    desk.window->startBook(desk.path("plot.midden"));
    Desk::settle();
    desk.addBin("North", {"core", "side"});
    const auto save = [&](const char* name) {
        desk.prompts.saveAnswer = desk.path(name);
        desk.find<QAction>("actionSaveSheet").trigger();
    };
    save("sheet.pdf");
    desk.addBin("South", {"core"});
    const auto before = QFileInfo{desk.path("sheet.pdf")}.size();
    save("sheet.pdf");
    CHECK(QFileInfo{desk.path("sheet.pdf")}.size() > before);
    const auto book = QFileInfo{desk.path("plot.midden")}.size();
    save("plot.midden");
    CHECK(QFileInfo{desk.path("plot.midden")}.size() == book);
    CHECK(desk.book().log().check({}).faults.empty());
    CHECK(desk.words("troubleWords").contains("plot.midden is already there"));
}

TEST_CASE("a book with a second name opens for reading and says why") {
    const NoQtWarnings quiet;
    Desk desk;
    {
        Logbook::open(desk.path("plot.midden").toStdString(), Logbook::Mode::createIfAbsent)
            .setSetting(setting::zone, "UTC");
    }
    std::filesystem::create_hard_link(desk.path("plot.midden").toStdString(), desk.path("second.midden").toStdString());
    REQUIRE(desk.window->openBook(desk.path("second.midden")));
    CHECK(desk.book().isReadOnly());
    CHECK(desk.words("troubleWords").contains("second.midden has a second name"));
}

TEST_CASE("a book whose time zone this computer does not know says so and in what its times are shown") {
    const NoQtWarnings quiet;
    Desk desk;
    {
        Logbook::open(desk.path("plot.midden").toStdString(), Logbook::Mode::createIfAbsent)
            .setSetting(setting::zone, "Mars/Olympus");
    }
    REQUIRE(desk.window->openBook(desk.path("plot.midden")));
    CHECK(desk.words("troubleWords") ==
          "This computer does not know “Mars/Olympus”, the time zone of this book. Its times are shown in UTC.");
    CHECK(desk.find("trouble").isVisible());
    CHECK(desk.book().setting(setting::zone) == "Mars/Olympus");
}

TEST_CASE("the blank round sheet is saved as a PDF") {
    const NoQtWarnings quiet;
    Desk desk;
    desk.window->startBook(desk.path("plot.midden"));
    Desk::settle();
    desk.addBin("North", {"core", "side"});
    desk.prompts.saveAnswer = desk.path("sheet.pdf");
    desk.find<QAction>("actionSaveSheet").trigger();
    QFile sheet{desk.path("sheet.pdf")};
    REQUIRE(sheet.open(QIODevice::ReadOnly));
    CHECK(sheet.read(5) == "%PDF-");
    CHECK(desk.words("status").contains("sheet.pdf"));
}
