// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/recipe/recipe_screen.h"

#include <QApplication>
#include <QCheckBox>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTest>
#include <QUndoStack>
#include <catch2/catch.hpp>

#include "ui/recipe/recipe_plan.h"
#include "ui/shared/appearance.h"

using namespace midden;
using namespace midden::ui;

namespace {

constexpr Instant today{1'772'600'000};

/// A book in memory with one bin and one running batch, and the screen over it.
struct Desk {
    Desk() : book{Logbook::inMemory(), TimeZone::utc(), [] { return today; }} {
        Bin bin;
        bin.name = "North";
        bin.volumeLitres = 300;
        const auto binId = std::get<BinId>(book.writable().apply(Put<Bin>{bin}).id);
        Batch made;
        made.name = "March";
        made.started = Moment{today - days(1), {}};
        made.stays = {{made.started.at, binId}};
        batch = std::get<BatchId>(book.writable().apply(Put<Batch>{made}).id);
        screen = std::make_unique<RecipeScreen>(book);
        screen->resize(1000, 800);
        screen->show();
        QApplication::processEvents();
    }

    template <class Widget>
    Widget& part(const char* name) const {
        auto* found = screen->findChild<Widget*>(QLatin1String{name});
        REQUIRE(found != nullptr);
        return *found;
    }
    QString words(const char* name) const { return part<QLabel>(name).text(); }
    /// Types as a person would: material, Enter, amount, Enter.
    void type(const char* row, const QString& material, const QString& amount) const {
        const QByteArray number{row};
        auto& first = part<QLineEdit>(("material" + number).constData());
        first.setFocus();
        QTest::keyClicks(&first, material);
        QTest::keyClick(&first, Qt::Key_Return);
        auto& second = part<QLineEdit>(("amount" + number).constData());
        QTest::keyClicks(&second, amount);
        QTest::keyClick(&second, Qt::Key_Return);
    }

    Book book;
    BatchId batch{};
    std::unique_ptr<RecipeScreen> screen;
};

}  // namespace

TEST_CASE("an empty recipe says what to do and offers nothing to log") {
    Desk desk;
    CHECK(desk.words("ratio") == QStringLiteral("Write down the first bucket: the figures come as you type."));
    CHECK_FALSE(desk.part<QPushButton>("log").isEnabled());
    CHECK_FALSE(desk.part<QPushButton>("take").isEnabled());
}

TEST_CASE("wet grass becomes a balanced bin from the keyboard and is logged and undone as one") {
    Desk desk;
    desk.type("1", QStringLiteral("wet grass"), QStringLiteral("10 kg"));
    CHECK(desk.words("ratio").startsWith(QStringLiteral("C:N 17.0 is below 25–30.")));
    CHECK(desk.words("moisture").startsWith(QStringLiteral("Moisture 82.0 is above 50–60.")));
    CHECK(desk.words("cautions").contains(QStringLiteral("Pea test")));
    REQUIRE(desk.part<QPushButton>("take").isEnabled());
    desk.part<QPushButton>("take").click();
    CHECK_FALSE(desk.words("ratio").contains(QStringLiteral("below 25")));
    CHECK_FALSE(desk.part<QPushButton>("take").isEnabled());

    desk.part<QComboBox>("into").setCurrentIndex(1);
    REQUIRE(desk.part<QPushButton>("log").isEnabled());
    desk.part<QPushButton>("log").click();
    CHECK(desk.screen->focusWidget()->objectName() == QStringLiteral("material1"));
    const auto additions = desk.book.log().record(desk.batch).additions;
    CHECK(additions.size() >= 2);
    CHECK(mixtureOf(additions)->moisturePercent.value() <= acceptableMoisture.high + 0.1);
    desk.book.undoStack().undo();
    CHECK(desk.book.log().record(desk.batch).additions.empty());
}

TEST_CASE("taking the mend leads on to logging it") {
    Desk desk;
    desk.part<QComboBox>("into").setCurrentIndex(1);
    desk.type("1", QStringLiteral("wet grass"), QStringLiteral("10 kg"));
    desk.part<QPushButton>("take").setFocus();
    QTest::keyClick(&desk.part<QPushButton>("take"), Qt::Key_Space);
    CHECK(desk.screen->focusWidget()->objectName() == QStringLiteral("log"));
}

TEST_CASE("how the figures are known is said in a word and their sources are a click away") {
    Desk desk;
    CHECK_FALSE(desk.part<QPushButton>("showSources").isVisible());
    desk.type("1", QStringLiteral("carrots"), QStringLiteral("1 caddy"));
    desk.type("2", QStringLiteral("straw"), QStringLiteral("1 kg"));
    desk.type("3", QStringLiteral("tea"), QStringLiteral("1 kg"));
    CHECK(desk.words("known") == QStringLiteral("Where the figures are from: carrots, measured food table; straw, "
                                                "handbook; tea leaves, our estimate."));
    CHECK_FALSE(desk.part<QLabel>("sources").isVisible());
    desk.part<QPushButton>("showSources").click();
    CHECK(desk.part<QLabel>("sources").isVisible());
    CHECK(desk.words("sources").contains(QStringLiteral("USDA National Nutrient Database")));
    CHECK(desk.words("sources").contains(QStringLiteral("Adams and others 1951")));  // of the air in it
    CHECK(desk.words("sources").contains(QStringLiteral("Technical Note 24")));
}

TEST_CASE("what is in the batch already counts") {
    Desk desk;
    Addition straw;
    straw.batch = desk.batch;
    straw.when = Moment{today - hours(2), {}};
    straw.material = "straw";
    straw.massKilograms = 10;
    CHECK(desk.book.change(Put<Addition>{straw}, QStringLiteral("add straw")));
    desk.part<QComboBox>("into").setCurrentIndex(1);
    CHECK(desk.words("ratio").startsWith(QStringLiteral("C:N 80.0 is above")));
}

TEST_CASE("what cannot be mended with what is ticked is said and cannot be taken") {
    Desk desk;
    for (QCheckBox* box : desk.screen->findChildren<QCheckBox*>()) {
        box->setChecked(box->objectName() == QStringLiteral("here-water"));
    }
    desk.type("1", QStringLiteral("grass"), QStringLiteral("10"));
    CHECK(desk.words("mend").contains(QStringLiteral("can be reached by adding Water")));
    CHECK_FALSE(desk.part<QPushButton>("take").isEnabled());
}

TEST_CASE("an amount is read in kilograms litres buckets and barrows with either decimal mark") {
    const auto mass = [](const char* amount) {
        const auto read = readLine({QStringLiteral("straw"), QString::fromUtf8(amount)}, {12, 80}, builtInMaterials());
        return read.addition ? read.addition->massKilograms : -1;
    };
    CHECK(mass("10") == 10);
    CHECK(mass("2,5 kg") == 2.5);
    CHECK(mass("500 g") == 0.5);
    CHECK(mass("100 L") == Approx(13.5));
    CHECK(mass("2 buckets") == Approx(24 * 0.135));
    CHECK(mass("1 barrow") == Approx(80 * 0.135));
    // merseysidewda.gov.uk/volume-to-kgs: a kitchen caddy holds 5 litres, a refuse sack 60.
    CHECK(mass("2 caddies") == Approx(10 * 0.135));
    CHECK(mass("1 sack") == Approx(60 * 0.135));
    CHECK(mass("ten") == -1);
    CHECK(mass("-1") == -1);
    CHECK(mass("0") == -1);
    CHECK(mass("1.5.5") == -1);
    CHECK(mass("10 stone") == -1);
}

TEST_CASE("an unknown material is not guessed at") {
    const auto volume = readLine({QStringLiteral("moon dust"), QStringLiteral("1 bucket")}, {}, builtInMaterials());
    CHECK_FALSE(volume.addition);
    CHECK(volume.wrong);
    const auto weight = readLine({QStringLiteral("moon dust"), QStringLiteral("1 kg")}, {}, builtInMaterials());
    REQUIRE(weight.addition);
    CHECK(weight.remark.contains(QStringLiteral("weight only")));
}

TEST_CASE("a material the group changed is logged with its own figures") {
    auto own = Materials::parse(tableOf({*builtInMaterials().find("straw")}));
    REQUIRE(own);
    const auto read = readLine({QStringLiteral("straw"), QStringLiteral("1")}, {}, builtInMaterials().with(*own));
    REQUIRE(read.addition);
    CHECK(read.addition->moisturePercent == 12);
    CHECK(read.addition->carbonNitrogen == 80);
}

TEST_CASE("pictures of the recipe screen", "[.pictures]") {
    const QString folder = qEnvironmentVariable("MIDDENBOOK_PICTURES", QStringLiteral("."));
    for (const Lightness lightness : {Lightness::light, Lightness::dark}) {
        apply({lightness, 0}, *qApp);
        const QString name = lightness == Lightness::light ? QStringLiteral("light") : QStringLiteral("dark");
        Desk desk;
        desk.screen->grab().save(folder + QStringLiteral("/recipe-empty-") + name + QStringLiteral(".png"));
        desk.part<QComboBox>("into").setCurrentIndex(1);
        desk.type("1", QStringLiteral("wet grass"), QStringLiteral("10 kg"));
        desk.type("2", QStringLiteral("kitchen scraps"), QStringLiteral("2 buckets"));
        QApplication::processEvents();
        desk.screen->grab().save(folder + QStringLiteral("/recipe-wet-") + name + QStringLiteral(".png"));
        desk.part<QPushButton>("take").click();
        QApplication::processEvents();
        desk.screen->grab().save(folder + QStringLiteral("/recipe-full-") + name + QStringLiteral(".png"));
    }
    SUCCEED();
}
