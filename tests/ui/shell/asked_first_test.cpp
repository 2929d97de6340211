// SPDX-License-Identifier: GPL-3.0-or-later
// The Round asks in words before another batch, or hours of a hold, are lost by one Enter.
#include <QComboBox>
#include <QUndoStack>

#include "tests/ui/shell/desk.h"

using namespace midden;
using midden::testing::Desk;
using midden::testing::fourthOfMarch;
using midden::testing::NoQtWarnings;
using midden::testing::waitUntil;

namespace {

struct AskedDesk : Desk {
    AskedDesk() {
        window->startBook(path("plot.midden"));
        settle();
        north = addBin("North", {"core"});
        shed = addBin("Shed", {"core"});
        find<QLineEdit>("cell_North_core").setFocus();
        settle();
    }
    void addEmptyBin(const std::string& name) {
        book().change(Put<Bin>{{.name = name}}, QStringLiteral("a bin"));
        settle();
    }
    /// Core at this many degrees every twelve hours for the last three days but one hour.
    void keepHot(BinId bin, int rounds) {
        for (int i = 0; i < rounds; ++i) {
            addReading(bin, "core", now - hours(71) + hours(12 * i), 620'000);
        }
        addReading(bin, "core", now, 620'000);
        settle();
    }
    void open(Qt::Key key, const char* form) {
        press(key, Qt::AltModifier);
        REQUIRE(waitUntil([&] {
            const auto* opened = window->findChild<QWidget*>(QLatin1String{form});
            return opened != nullptr && opened->isVisible();
        }));
        settle();
    }
    Batch batchNamed(const char* name) const { return *book().log().batchNamed(name); }
    std::vector<Reading> readingsOf(const char* name) const {
        return book().log().readings(batchNamed(name).id, {now - days(30), now + days(1)}, false, 1'000);
    }
    std::optional<BatchId> occupant(BinId bin) const { return book().log().occupant(bin, now + minutes(1)); }

    BinId north{};
    BinId shed{};
};

void wait(const char* focus) {
    REQUIRE(waitUntil([&] { return Desk::focus() == focus; }));
}

}  // namespace

TEST_CASE("a batch is offered empty bins first, each with what it holds") {
    const NoQtWarnings quiet;
    AskedDesk desk;
    desk.addEmptyBin("Yard");
    desk.addEmptyBin("Wall");
    desk.open(Qt::Key_R, "moveForm");
    const auto& bins = desk.find<QComboBox>("moveBin");
    QStringList offered;
    for (int i = 0; i < bins.count(); ++i) {
        offered << bins.itemText(i);
    }
    CHECK(offered == QStringList{"Wall – empty", "Yard – empty", "Shed – holds Shed batch"});
    Desk::press(Qt::Key_Return);
    CHECK(desk.occupant(desk.book().log().binNamed("Wall")->id) == desk.batchNamed("North batch").id);
    CHECK(desk.occupant(desk.shed) == desk.batchNamed("Shed batch").id);
}

TEST_CASE("a batch takes an occupied bin only after consent, and Enter keeps") {
    const NoQtWarnings quiet;
    AskedDesk desk;
    desk.open(Qt::Key_R, "moveForm");
    Desk::press(Qt::Key_Return);
    wait("questionNo");
    const QString question = desk.words("questionWords");
    CHECK(question.startsWith("“Shed batch” has stood in Shed since"));
    CHECK(question.contains("If “North batch” comes there, “Shed batch” leaves the bin: it is finished on"));
    Desk::press(Qt::Key_Return);
    CHECK(desk.occupant(desk.shed) == desk.batchNamed("Shed batch").id);
    CHECK(Desk::focus() == "moveBin");
    Desk::press(Qt::Key_Return);
    wait("questionNo");
    Desk::press(Qt::Key_Escape);
    CHECK(desk.occupant(desk.shed) == desk.batchNamed("Shed batch").id);
    Desk::press(Qt::Key_Return);
    wait("questionNo");
    Desk::press(Qt::Key_Tab);
    Desk::press(Qt::Key_Return);
    CHECK(desk.occupant(desk.shed) == desk.batchNamed("North batch").id);
}

TEST_CASE("readings of the round in which a batch is moved stay with their batches, and one undo restores all") {
    const NoQtWarnings quiet;
    AskedDesk desk;
    Desk::type("60");
    Desk::press(Qt::Key_Return);
    Desk::type("30");
    Desk::press(Qt::Key_Return);
    const auto own = desk.readingsOf("North batch");
    const auto others = desk.readingsOf("Shed batch");
    REQUIRE(own.size() == 1);
    REQUIRE(others.size() == 1);
    desk.find<QLineEdit>("cell_North_core").setFocus();
    desk.open(Qt::Key_R, "moveForm");
    Desk::press(Qt::Key_Return);
    wait("questionNo");
    Desk::press(Qt::Key_Tab);
    Desk::press(Qt::Key_Return);
    REQUIRE(desk.occupant(desk.shed) == desk.batchNamed("North batch").id);
    REQUIRE(desk.readingsOf("North batch").size() == 1);
    CHECK(desk.readingsOf("North batch")[0].written.tenThousandths == 600'000);
    REQUIRE(desk.readingsOf("Shed batch").size() == 1);
    CHECK(desk.readingsOf("Shed batch")[0].written.tenThousandths == 300'000);

    desk.book().undoStack().undo();
    CHECK(desk.occupant(desk.north) == desk.batchNamed("North batch").id);
    CHECK(desk.occupant(desk.shed) == desk.batchNamed("Shed batch").id);
    CHECK(desk.readingsOf("North batch").size() == 1);
    CHECK(desk.readingsOf("Shed batch").size() == 1);
    CHECK(desk.book().log().record(desk.batchNamed("North batch").id).aerations.empty());
}

TEST_CASE("after a move in the middle of a round the bin is read for the newcomer") {
    const NoQtWarnings quiet;
    AskedDesk desk;
    Desk::type("60");
    Desk::press(Qt::Key_Return);
    Desk::type("30");
    Desk::press(Qt::Key_Return);
    desk.find<QLineEdit>("cell_North_core").setFocus();
    desk.now = desk.now + minutes(20);
    desk.open(Qt::Key_R, "moveForm");
    Desk::press(Qt::Key_Return);
    wait("questionNo");
    Desk::press(Qt::Key_Tab);
    Desk::press(Qt::Key_Return);
    auto& cell = desk.find<QLineEdit>("cell_Shed_core");
    CHECK(cell.text().isEmpty());
    cell.setFocus();
    Desk::type("58");
    Desk::press(Qt::Key_Return);
    CHECK(cell.text() == "58");
    CHECK(desk.readingsOf("North batch").size() == 2);
    REQUIRE(desk.readingsOf("Shed batch").size() == 1);
    CHECK(desk.readingsOf("Shed batch")[0].written.tenThousandths == 300'000);
}

TEST_CASE("a batch cannot be moved to before its last reading where it stands") {
    const NoQtWarnings quiet;
    AskedDesk desk;
    desk.addEmptyBin("Yard");
    desk.addReading(desk.north, "core", fourthOfMarch - hours(1), 600'000);
    desk.open(Qt::Key_R, "moveForm");
    auto& when = desk.find<QLineEdit>("moveWhen");
    when.setFocus();
    when.selectAll();
    Desk::type("4 March 2026 06:00");
    Desk::press(Qt::Key_Return);
    CHECK(desk.words("formProblem").contains("was read where it stands"));
    CHECK(desk.readingsOf("North batch").size() == 1);
    CHECK(desk.occupant(desk.north) == desk.batchNamed("North batch").id);
}

TEST_CASE("starting a batch over a running one asks before it shows a field, and Enter keeps") {
    const NoQtWarnings quiet;
    AskedDesk desk;
    desk.open(Qt::Key_H, "startForm");
    CHECK(Desk::focus() == "questionNo");
    CHECK_FALSE(desk.find<QLineEdit>("startBatch").isVisible());
    CHECK(desk.words("questionWords").startsWith("“North batch” has stood in North since"));
    Desk::press(Qt::Key_Return);
    CHECK(desk.book().log().batches().size() == 2);
    CHECK(Desk::focus() == "cell_North_core");
    CHECK(desk.occupant(desk.north) == desk.batchNamed("North batch").id);

    desk.open(Qt::Key_H, "startForm");
    Desk::press(Qt::Key_Tab);
    Desk::press(Qt::Key_Return);
    wait("startBatch");
    Desk::press(Qt::Key_Return);
    CHECK(desk.book().log().batches().size() == 3);
    CHECK(desk.occupant(desk.north) != desk.batchNamed("North batch").id);
}

TEST_CASE("a batch started in the round of the last reading leaves that reading to the one before") {
    const NoQtWarnings quiet;
    AskedDesk desk;
    const bool isFinished = GENERATE(false, true);
    Desk::type("24");
    Desk::press(Qt::Key_Return);
    desk.find<QLineEdit>("cell_North_core").setFocus();
    if (isFinished) {
        desk.open(Qt::Key_I, "finishForm");
        Desk::press(Qt::Key_Return);
        REQUIRE(desk.batchNamed("North batch").finished);
        desk.find<QLineEdit>("cell_North_core").setFocus();
    }
    desk.open(Qt::Key_H, "startForm");
    if (!isFinished) {
        Desk::press(Qt::Key_Tab);
        Desk::press(Qt::Key_Return);
    }
    wait("startBatch");
    Desk::press(Qt::Key_Return);
    REQUIRE(desk.book().log().batches().size() == 3);
    CHECK(desk.readingsOf("North batch").size() == 1);
}

TEST_CASE("raw material over a running hold says what would be lost before it is saved") {
    const NoQtWarnings quiet;
    AskedDesk desk;
    desk.keepHot(desk.north, 6);
    const auto additions = [&] { return desk.book().log().additions(desk.batchNamed("North batch").id); };
    desk.open(Qt::Key_A, "addedForm");
    Desk::type("wood chips");
    CHECK_FALSE(desk.find<QLabel>("addedLoss").isVisible());
    desk.find<QLineEdit>("addedMaterial").selectAll();
    Desk::type("kitchen scraps");
    CHECK(desk.find<QLabel>("addedLoss").isVisible());
    const QString loss = midden::testing::plain(desk.words("addedLoss"));
    CHECK(loss == "This is raw material. 71 of 72 h at 55.0 °C would start again at 0.");
    Desk::press(Qt::Key_Tab);
    Desk::type("5");
    Desk::press(Qt::Key_Return);
    wait("questionNo");
    CHECK(midden::testing::plain(desk.words("questionWords")) ==
          "kitchen scraps is raw material. 71 of 72 h at 55.0 °C would start again at 0. Add it all the same?");
    Desk::press(Qt::Key_Return);
    CHECK(additions().empty());
    CHECK(Desk::focus() == "addedMass");
    Desk::press(Qt::Key_Return);
    wait("questionNo");
    Desk::press(Qt::Key_Tab);
    Desk::press(Qt::Key_Return);
    REQUIRE(additions().size() == 1);
}

TEST_CASE("raw material after the hold was shown says that it has to be shown again") {
    const NoQtWarnings quiet;
    AskedDesk desk;
    desk.keepHot(desk.north, 6);
    desk.now = desk.now + hours(12);
    desk.addReading(desk.north, "core", desk.now, 620'000);
    Desk::settle();
    desk.open(Qt::Key_A, "addedForm");
    Desk::type("kitchen scraps");
    CHECK(midden::testing::plain(desk.words("addedLoss")) ==
          "This is raw material. 72 h at 55.0 °C, shown already, would have to be shown again from the start.");
}

TEST_CASE("material that is not raw, and raw material over a cold heap, are saved without a question") {
    const NoQtWarnings quiet;
    AskedDesk desk;
    if (GENERATE(false, true)) {
        desk.keepHot(desk.north, 6);
        desk.open(Qt::Key_A, "addedForm");
        Desk::type("wood chips");
    } else {
        desk.open(Qt::Key_A, "addedForm");
        Desk::type("kitchen scraps");
    }
    Desk::press(Qt::Key_Tab);
    Desk::type("5");
    Desk::press(Qt::Key_Return);
    CHECK(desk.book().log().additions(desk.batchNamed("North batch").id).size() == 1);
}

TEST_CASE("the recipe asks before what it logs takes hours of a hold") {
    const NoQtWarnings quiet;
    AskedDesk desk;
    desk.keepHot(desk.north, 6);
    desk.book().lookAt(desk.north, desk.batchNamed("North batch").id);
    desk.window->workspace()->showScreen(QStringLiteral("recipe"));
    Desk::settle();
    desk.find<QLineEdit>("material1").setText("kitchen scraps");
    desk.find<QLineEdit>("amount1").setText("2 buckets");
    desk.find("log").setFocus();
    Desk::press(Qt::Key_Space);
    REQUIRE(waitUntil([] { return Desk::focus() == "questionNo"; }));
    const auto additions = [&] { return desk.book().log().additions(desk.batchNamed("North batch").id); };
    Desk::press(Qt::Key_Return);
    CHECK(additions().empty());
    CHECK(Desk::focus() == "log");
    Desk::press(Qt::Key_Space);
    REQUIRE(waitUntil([] { return Desk::focus() == "questionNo"; }));
    Desk::press(Qt::Key_Tab);
    Desk::press(Qt::Key_Return);
    CHECK(additions().size() == 1);
}

TEST_CASE("the Round takes the amounts that Setup promises and the Recipe takes") {
    const NoQtWarnings quiet;
    AskedDesk desk;
    const auto [typed, kilograms] = GENERATE(Catch::Generators::table<const char*, double>(
        {{"10 kg", 10}, {"10", 10}, {"4,5", 4.5}, {"2 buckets", 0}, {"1 barrow", 0}, {"20 L", 0}, {"500 g", 0.5}}));
    desk.open(Qt::Key_A, "addedForm");
    Desk::type("kitchen scraps");
    Desk::press(Qt::Key_Tab);
    Desk::type(typed);
    CHECK(desk.find<QLabel>("addedAmountWords").isVisible() == (kilograms == 0));
    Desk::press(Qt::Key_Return);
    const auto added = desk.book().log().additions(desk.batchNamed("North batch").id);
    REQUIRE(added.size() == 1);
    if (kilograms > 0) {
        CHECK(added[0].massKilograms == kilograms);
    } else {
        CHECK(added[0].volumeLitres.value_or(0) >= 20);
        CHECK(added[0].massKilograms > 0);
    }
}

TEST_CASE("an amount that is none is refused in the Round with the words of the Recipe") {
    const NoQtWarnings quiet;
    AskedDesk desk;
    desk.open(Qt::Key_A, "addedForm");
    Desk::type("kitchen scraps");
    Desk::press(Qt::Key_Tab);
    Desk::type("2 handfuls");
    Desk::press(Qt::Key_Return);
    CHECK(desk.words("formProblem") == "Write an amount like 10 kg, 20 L, 2 buckets, 1 caddy, 1 sack or 1 barrow.");
    CHECK(desk.book().log().additions(desk.batchNamed("North batch").id).empty());
}
