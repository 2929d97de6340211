// SPDX-License-Identifier: GPL-3.0-or-later
// A bin that is fed on top and emptied at the base, through real key events.
#include <QCheckBox>
#include <QComboBox>
#include <QListView>
#include <QPushButton>

#include "core/records/level.h"
#include "tests/ui/shell/desk.h"
#include "ui/shell/card_model.h"

using namespace midden;
using midden::testing::Desk;
using midden::testing::fourthOfMarch;
using midden::testing::NoQtWarnings;
using midden::testing::plain;

namespace {

/// One fed bin of 25 dm², 100 cm high, ten days old, fed four times and hot at one height.
struct FedDesk : Desk {
    FedDesk() {
        window->startBook(path("fed.midden"));
        settle();
        const Instant start = now - days(10);
        book().changeTogether(QStringLiteral("set up"), [&](const ui::Book::Apply& apply) {
            Bin gate{.name = "Gate", .volumeLitres = 250};
            gate.heightCentimetres = 100;
            bin = std::get<BinId>(apply(Put<Bin>{gate}).id);
            apply(Put<PlaceSetting>{{.place = {bin, "low"}, .heightCentimetres = 8}});
            batch = std::get<BatchId>(
                apply(Put<Batch>{{.name = "Gate, fed", .started = {start, {}}, .stays = {{start, bin}}, .fed = true}})
                    .id);
            for (const int day : {0, 3, 6, 9}) {
                Addition fed{.batch = batch, .when = {start + days(day) + hours(1), {}}, .material = "Kitchen scraps"};
                fed.massKilograms = 12;
                fed.volumeLitres = 30;
                fed.raw = true;
                apply(Put<Addition>{fed});
            }
            apply(Put<Observation>{{.batch = batch,
                                    .when = {start + days(6) + hours(2), {}},
                                    .kind = ObservationKind::level,
                                    .value = levelText(27)}});
            for (int day = 6; day < 10; ++day) {
                apply(Put<Reading>{
                    {.place = {bin, "low"}, .when = {start + days(day) + hours(3), {}}, .written = {690'000}}});
            }
        });
        settle();
        find<QLineEdit>("cell_Gate_low").setFocus();
        settle();
    }
    /// Opens the form of that key and waits until its first field has the keyboard.
    static void open(Qt::Key key, const char* field) {
        Desk::press(key, Qt::AltModifier);
        REQUIRE(midden::testing::waitUntil([&] { return Desk::focus() == QLatin1String{field}; }));
    }
    /// What was added and how much, into a form just opened.
    void typeFeed() const {
        open(Qt::Key_A, "addedMaterial");
        // Typed by key it would open the list of what is known, which keeps the keyboard on a platform without windows.
        find<QLineEdit>("addedMaterial").setText("straw and scraps");
        Desk::press(Qt::Key_Tab);
        Desk::type("5 kg");
    }
    BatchRecord record() const { return book().log().record(batch); }
    QString card(int role) const {
        const auto* cards = window->findChild<QListView*>(QStringLiteral("binCards"));
        return cards == nullptr ? QString{} : plain(cards->model()->index(0, 0).data(role).toString());
    }

    BinId bin{};
    BatchId batch{};
};

}  // namespace

TEST_CASE("fed round: a feed and the level after it are one entry of the keyboard and one undo") {
    const NoQtWarnings quiet;
    FedDesk desk;
    desk.typeFeed();
    Desk::press(Qt::Key_Tab);
    Desk::press(Qt::Key_Tab);
    REQUIRE(Desk::focus() == "addedLevel");
    Desk::type("68");  // below the rim of 100
    Desk::press(Qt::Key_Return);
    REQUIRE(desk.record().additions.size() == 5);
    REQUIRE(desk.record().observations.size() == 2);
    CHECK(levelOf(desk.record().observations.back()) == 32.0);
    Desk::press(Qt::Key_Z, Qt::ControlModifier);
    CHECK(desk.record().additions.size() == 4);
    CHECK(desk.record().observations.size() == 1);
}

TEST_CASE("fed round: a level that cannot be is questioned and nothing is saved") {
    const NoQtWarnings quiet;
    FedDesk desk;
    desk.typeFeed();
    desk.find<QLineEdit>("addedLevel").setText("130");
    Desk::press(Qt::Key_Return);
    CHECK(desk.record().additions.size() == 4);
    CHECK(desk.find("addedForm").isVisible());
}

TEST_CASE("fed round: raw material asks nothing about a hold that a fed bin does not have") {
    const NoQtWarnings quiet;
    FedDesk desk;
    desk.typeFeed();
    CHECK_FALSE(desk.find("addedLoss").isVisible());
    Desk::press(Qt::Key_Return);
    CHECK(desk.record().additions.size() == 5);
}

TEST_CASE("fed round: a harvest says before it is saved what its record will say") {
    const NoQtWarnings quiet;
    FedDesk desk;
    FedDesk::open(Qt::Key_S, "harvestAmount");
    Desk::type("2 buckets");
    const QString told = plain(desk.words("harvestTold"));
    CHECK(told.startsWith("Half of these 20 L had at least"));
    CHECK(told.contains("If younger material slipped down, at least"));
    desk.find<QLineEdit>("harvestLevel").setFocus();
    Desk::type("75");
    Desk::press(Qt::Key_Return);
    REQUIRE(desk.record().harvests.size() == 1);
    CHECK(desk.record().harvests.front().volumeLitres == Approx(20));
    const Observation level = desk.record().observations.back();
    CHECK(levelOf(level) == 25.0);
    CHECK(level.when.at > desk.record().harvests.front().when.at);
    Desk::press(Qt::Key_Z, Qt::ControlModifier);
    CHECK(desk.record().harvests.empty());
    CHECK(desk.record().observations.size() == 1);
}

TEST_CASE("fed round: a harvest of nothing, or of more than a bin holds, is refused in words") {
    const NoQtWarnings quiet;
    FedDesk desk;
    FedDesk::open(Qt::Key_S, "harvestAmount");
    for (const char* amount : {"", "3 kg", "no", "400"}) {
        desk.find<QLineEdit>("harvestAmount").setText(QString::fromLatin1(amount));
        desk.find<QLineEdit>("harvestAmount").setFocus();
        Desk::press(Qt::Key_Return);
        CAPTURE(amount);
        CHECK(desk.record().harvests.empty());
        CHECK(desk.find("harvestForm").isVisible());
    }
}

TEST_CASE("fed round: forking asks how deep") {
    const NoQtWarnings quiet;
    FedDesk desk;
    FedDesk::open(Qt::Key_F, "forkedDepth");
    Desk::type("40");
    Desk::press(Qt::Key_Return);
    REQUIRE(desk.record().aerations.size() == 1);
    CHECK(desk.record().aerations.front().depthCentimetres == 40.0);
}

TEST_CASE("fed round: a rest is a batch of its own that begins turned, in the same bin") {
    const NoQtWarnings quiet;
    FedDesk desk;
    FedDesk::open(Qt::Key_P, "restBatch");
    CHECK(plain(desk.words("restAsked")).contains("stop feeding, mix in about 10 kg of fresh waste, turn all of it"));
    desk.find<QLineEdit>("restAmount").setFocus();
    Desk::type("10 kg");
    Desk::press(Qt::Key_Return);
    const auto rested = desk.book().log().batchNamed("Gate, fed, rested");
    REQUIRE(rested);
    CHECK_FALSE(rested->fed);
    const BatchRecord record = desk.book().log().record(rested->id);
    CHECK(record.aerations.size() == 1);
    CHECK(record.additions.size() == 1);
    CHECK(desk.book().log().occupant(desk.bin, desk.now + hours(1)) == rested->id);
    // What was read before is still of the batch that was fed.
    CHECK(desk.record().readings == 4);
    Desk::press(Qt::Key_Z, Qt::ControlModifier);
    CHECK_FALSE(desk.book().log().batchNamed("Gate, fed, rested"));
}

TEST_CASE("fed round: only a fed batch is harvested and rested, and a batch can be made one") {
    const NoQtWarnings quiet;
    FedDesk desk;
    CHECK(desk.find("actHarvested").isVisible());
    CHECK(desk.find("actRest").isVisible());
    FedDesk::open(Qt::Key_K, "feedingHow");
    desk.find<QComboBox>("feedingHow").setCurrentIndex(0);
    desk.find<QComboBox>("feedingHow").setFocus();
    Desk::press(Qt::Key_Return);
    CHECK_FALSE(desk.book().log().batch(desk.batch)->fed);
    CHECK_FALSE(desk.find("actHarvested").isVisible());
    CHECK_FALSE(desk.find("actRest").isVisible());
    Desk::press(Qt::Key_Z, Qt::ControlModifier);
    CHECK(desk.book().log().batch(desk.batch)->fed);
    CHECK(desk.find("actHarvested").isVisible());
}

TEST_CASE("fed round: the card talks of layers, feeds and levels, and of no hold") {
    const NoQtWarnings quiet;
    FedDesk desk;
    midden::testing::waitForBackgroundWork();
    const QString credit = desk.card(ui::CardModel::creditRole);
    CHECK(credit.contains("layer: about"));
    CHECK(credit.contains("at least"));
    CHECK_FALSE(credit.contains("of 72 h"));
    const QString due = desk.card(ui::CardModel::dueRole);
    CHECK_FALSE(due.contains("hold"));
    QStringList lines;
    for (const QString& line : desk.window->findChild<QListView*>(QStringLiteral("binCards"))
                                   ->model()
                                   ->index(0, 0)
                                   .data(ui::CardModel::dueRole)
                                   .toStringList()) {
        lines << plain(line);
    }
    CHECK(lines.contains("fed 23 h ago"));
    CHECK(lines.contains("hot on 4 of the last 30 days"));
    CHECK(lines.contains("surface 73 cm below the rim"));
}

TEST_CASE("setup: heights inside are kept with the bin and its positions, and bounded by the rim") {
    const NoQtWarnings quiet;
    FedDesk desk;
    desk.window->workspace()->showScreen(QStringLiteral("setup"));
    Desk::settle();
    const QString id = QString::number(static_cast<qlonglong>(desk.bin));
    const auto typeInto = [&](const QString& cell, const QString& typed) {
        auto& line = desk.find<QLineEdit>(cell.toLatin1().constData());
        line.setFocus();
        line.selectAll();
        Desk::type(typed);
        Desk::press(Qt::Key_Return);
    };
    typeInto("height_" + id + "_low", "12.5");
    CHECK(desk.book().log().places(desk.bin).front().heightCentimetres == 12.5);
    typeInto("height_" + id + "_low", "101");
    CHECK(desk.book().log().places(desk.bin).front().heightCentimetres == 12.5);
    typeInto("hatch_" + id, "25");
    CHECK(desk.book().log().bins().front().hatchTopCentimetres == 25.0);
    typeInto("rim_" + id, "9");
    CHECK(desk.book().log().bins().front().heightCentimetres == 100.0);
    typeInto("rim_" + id, "20");  // the hatch is higher
    CHECK(desk.book().log().bins().front().heightCentimetres == 100.0);
    typeInto("rim_" + id, "90");
    CHECK(desk.book().log().bins().front().heightCentimetres == 90.0);
    // A position that becomes a spot check keeps its height.
    desk.find<QCheckBox>(("spot_" + id + "_low").toLatin1().constData()).click();
    Desk::settle();
    CHECK(desk.book().log().places(desk.bin).front().heightCentimetres == 12.5);
    CHECK(desk.book().log().places(desk.bin).front().spotCheck);
}
