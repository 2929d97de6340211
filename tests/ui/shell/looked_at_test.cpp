// SPDX-License-Identifier: GPL-3.0-or-later
// The cards, the buttons of the Round and every screen speak of one bin and one batch, whatever happens to the book.
#include <QComboBox>
#include <QListView>
#include <QPushButton>
#include <QUndoStack>

#include "tests/ui/shell/desk.h"

using namespace midden;
using midden::testing::Desk;
using midden::testing::NoQtWarnings;
using midden::testing::waitUntil;

namespace {

struct LookDesk : Desk {
    LookDesk() {
        window->startBook(path("plot.midden"));
        settle();
        north = addBin("North", {"core", "side"});
        book().change(Put<Bin>{{.name = "Alder"}}, QStringLiteral("an empty bin"));
        shed = addBin("Shed", {"core"});
        alder = book().log().binNamed("Alder")->id;
        window->workspace()->showScreen(QStringLiteral("round"));
        settle();
    }
    QString card() const { return find<QListView>("binCards").currentIndex().data().toString(); }
    /// "With North batch:", or that none stands here.
    QString buttons() const {
        for (const auto* label : find("actAdded").parentWidget()->findChildren<QLabel*>()) {
            return label->text();
        }
        return {};
    }
    /// The bin of the card, the bin looked at and the batch the buttons act on, in one line.
    QString looks() const {
        const auto bin = book().bin();
        const auto batch = book().batch() ? book().log().batch(*book().batch()) : std::nullopt;
        QString looked = QStringLiteral("none");
        for (const Bin& one : book().log().bins()) {
            looked = one.id == bin ? QString::fromStdString(one.name) : looked;
        }
        return QStringLiteral("%1 | %2, %3 | %4")
            .arg(card(), looked, batch ? QString::fromStdString(batch->name) : QStringLiteral("nothing"), buttons());
    }
    void move(const char* name, BinId to) {
        Batch batch = *book().log().batchNamed(name);
        batch.stays.push_back({now - hours(1), to});
        REQUIRE(book().change(Amend<Batch>{batch.id, batch, {}}, QStringLiteral("a move")));
        settle();
    }
    void step(bool back) { press(Qt::Key_Z, back ? Qt::ControlModifier : Qt::ControlModifier | Qt::ShiftModifier); }
    BinId north{};
    BinId shed{};
    BinId alder{};
};

const QString inNorth = QStringLiteral("North | North, North batch | With North batch:");
const QString inAlder = QStringLiteral("Alder | Alder, North batch | With North batch:");

}  // namespace

TEST_CASE("after a move, its undo and its redo the card, the buttons and the screens are of one bin") {
    const NoQtWarnings quiet;
    LookDesk desk;
    const char* cell = GENERATE("cell_North_core", "cell_North_side");
    desk.find<QLineEdit>(cell).setFocus();
    Desk::settle();
    REQUIRE(desk.looks() == inNorth);
    desk.move("North batch", desk.alder);
    CHECK(desk.looks() == inAlder);
    desk.step(true);
    CHECK(desk.looks() == inNorth);
    desk.step(false);
    CHECK(desk.looks() == inAlder);
    desk.find<QPushButton>("actTurned").click();
    const auto turned = desk.book().log().record(desk.book().log().batchNamed("North batch")->id).aerations;
    CHECK(turned.size() == 1);
}

TEST_CASE("a move typed into its form takes the window along and its undo brings it back") {
    const NoQtWarnings quiet;
    LookDesk desk;
    desk.find<QLineEdit>("cell_North_side").setFocus();
    Desk::press(Qt::Key_R, Qt::AltModifier);
    REQUIRE(waitUntil([] { return Desk::focus() == "moveBin"; }));
    auto& to = desk.find<QComboBox>("moveBin");
    to.setCurrentIndex(to.findText("Alder", Qt::MatchStartsWith));
    Desk::press(Qt::Key_Return);
    REQUIRE(desk.book().log().batchNamed("North batch")->stays.size() == 2);
    CHECK(desk.looks() == inAlder);
    desk.step(true);
    CHECK(desk.book().log().batchNamed("North batch")->stays.size() == 1);
    CHECK(desk.looks() == inNorth);
}

TEST_CASE("a card chosen is what the buttons act on") {
    const NoQtWarnings quiet;
    LookDesk desk;
    desk.find<QLineEdit>("cell_North_side").setFocus();
    desk.find("binCards").setFocus();
    Desk::press(Qt::Key_Down);
    CHECK(desk.looks() == "Shed | Shed, Shed batch | With Shed batch:");
    Desk::press(Qt::Key_Home);
    CHECK(desk.looks() == "Alder | Alder, nothing | No batch stands here.");
}

TEST_CASE("a batch finished makes room for what stands in its bin, and stands there again when that is undone") {
    const NoQtWarnings quiet;
    LookDesk desk;
    desk.find<QLineEdit>("cell_North_core").setFocus();
    Batch batch = *desk.book().log().batchNamed("North batch");
    batch.finished = Moment{desk.now - minutes(5), {}};
    REQUIRE(desk.book().change(Amend<Batch>{batch.id, batch, {}}, "finished"));
    Desk::settle();
    CHECK(desk.looks() == "North | North, nothing | No batch stands here.");
    desk.step(true);
    CHECK(desk.looks() == inNorth);
}

TEST_CASE("what another program does to the bin that is looked at is followed") {
    const NoQtWarnings quiet;
    LookDesk desk;
    desk.find<QLineEdit>("cell_North_core").setFocus();
    {
        Logbook other = Logbook::open(desk.path("plot.midden").toStdString(), Logbook::Mode::readWrite);
        Batch batch = *other.batchNamed("North batch");
        batch.stays.push_back({desk.now - hours(1), desk.alder});
        other.apply(Amend<Batch>{batch.id, batch, {}});
        other.apply(Put<Bin>{{.name = "Aspen"}});
    }
    desk.book().lookForOutsideChanges();
    Desk::settle();
    CHECK(desk.looks() == inAlder);
}

TEST_CASE("a bin taken out of use gives way to one in use, and comes back when that is undone") {
    const NoQtWarnings quiet;
    LookDesk desk;
    desk.find("binCards").setFocus();
    Desk::press(Qt::Key_Home);
    REQUIRE(desk.card() == "Alder");
    Bin bin = *desk.book().log().binNamed("Alder");
    bin.retired = true;
    REQUIRE(desk.book().change(Amend<Bin>{bin.id, bin, {}}, "out of use"));
    Desk::settle();
    CHECK(desk.looks() == inNorth);
}

TEST_CASE(
    "an older batch chosen in History stays chosen when an entry of it is changed, and its bin's card is chosen") {
    const NoQtWarnings quiet;
    LookDesk desk;
    const Instant start = desk.now - days(40);
    Batch old{.name = "Autumn", .started = {start, {}}, .stays = {{start, desk.shed}}};
    old.finished = Moment{start + days(20), {}};
    REQUIRE(desk.book().change(Put<Batch>{old}, "an older batch"));
    desk.window->workspace()->showScreen(QStringLiteral("history"));
    const auto autumn = desk.book().log().batchNamed("Autumn")->id;
    auto* batches = desk.find("history").findChild<QComboBox*>();
    REQUIRE(batches != nullptr);
    batches->setFocus();
    const int place = batches->findData(static_cast<qlonglong>(autumn));
    batches->setCurrentIndex(place);
    emit batches->activated(place);
    CHECK(desk.card() == "Shed");
    CHECK(desk.book().batch() == autumn);
    REQUIRE(desk.book().change(
        Put<Reading>{{.place = {desk.shed, "core"}, .when = {start + days(2), {}}, .written = {500'000}}},
        "a late reading"));
    Desk::settle();
    CHECK(desk.book().batch() == autumn);
    CHECK(desk.card() == "Shed");
}
