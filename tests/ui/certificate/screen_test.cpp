// SPDX-License-Identifier: GPL-3.0-or-later
#include <QCheckBox>
#include <QComboBox>
#include <QFile>
#include <QPrinter>
#include <QPushButton>
#include <QRegularExpression>
#include <QTest>

#include "tests/ui/support/made_batch.h"
#include "tests/ui/support/made_book.h"
#include "tests/ui/support/qt_support.h"
#include "ui/certificate/certificate_screen.h"
#include "ui/shared/prompts.h"

using namespace midden;
using namespace midden::ui;
using namespace midden::testing;

namespace {

/// Answers every question the same way.
class Answers : public Prompts {
  public:
    explicit Answers(QString file) : file_{std::move(file)} {}
    std::optional<QString> fileToOpen(QWidget* /*parent*/, const QString& /*title*/,
                                      const QString& /*filter*/) override {
        return {};
    }
    std::optional<QString> fileToSave(QWidget* /*parent*/, const QString& /*title*/, const QString& suggested,
                                      const QString& /*filter*/) override {
        suggestion = suggested;
        return file_;
    }
    bool confirm(QWidget* /*parent*/, const QString& /*question*/, const QString& /*yes*/) override { return true; }
    bool choosePrinter(QWidget* /*parent*/, QPrinter& printer) override {
        printer.setOutputFormat(QPrinter::PdfFormat);
        printer.setOutputFileName(file_);
        return true;
    }
    QString suggestion;

  private:
    QString file_;
};

BatchRecord hotBatch() {
    BatchRecord record = madeRecord();
    Track core{"core"};
    for (int day = 0; day < 6; ++day) {
        core.samples.push_back(sampleAt(24 * day, 60));
    }
    record.tracks = {core};
    return record;
}

struct Opened {
    explicit Opened(const BatchRecord& record = hotBatch())
        : answers{folder.filePath("page.pdf")}, book{record, afterHours(24 * 70)}, screen{*book, answers} {
        QObject::connect(&*book, &Book::troubled, [this](const QString& sentence) { trouble = sentence; });
        screen.resize(1'100, 800);
        screen.show();
        REQUIRE(waitUntil([&] { return button("save")->isEnabled() && batches()->count() == 1; }));
    }
    QPushButton* button(const char* name) { return screen.findChild<QPushButton*>(name); }
    QComboBox* batches() { return screen.findChild<QComboBox*>("batch"); }
    QComboBox* issued() { return screen.findChild<QComboBox*>("issued"); }
    QString answer() { return screen.findChild<QLabel*>("answer")->text(); }
    QByteArray saved() const {
        QFile file{folder.filePath("page.pdf")};
        return file.open(QIODevice::ReadOnly) ? file.readAll() : QByteArray{};
    }

    QTemporaryDir folder;
    Answers answers;
    MadeBook book;
    CertificateScreen screen;
    QString trouble;
};

}  // namespace

TEST_CASE("saving issues a numbered certificate and keeps its record") {
    const NoQtWarnings quiet;
    Opened opened;
    CHECK_FALSE(opened.button("verify")->isEnabled());
    opened.button("save")->click();
    CHECK(opened.trouble == QString{});
    CHECK(opened.saved().startsWith("%PDF-1.4"));
    const auto issued = opened.book->log().certificates(*opened.book->batch());
    REQUIRE(issued.size() == 1);
    CHECK(opened.answer() == QString{"Issued as certificate %1."}.arg(QString::fromStdString(issued[0].number)));
    CHECK(opened.issued()->currentText().toStdString() == issued[0].number);
}

TEST_CASE("saving again at once gives the same certificate") {
    Opened opened;
    opened.button("save")->click();
    const auto first = opened.saved();
    opened.button("save")->click();
    CHECK(opened.saved() == first);
    CHECK(opened.book->log().certificates(*opened.book->batch()).size() == 1);
}

TEST_CASE("verifying says yes until a reading is amended and then names it") {
    Opened opened;
    opened.button("save")->click();
    opened.button("verify")->click();
    CHECK(opened.answer().startsWith("Comparing the record with certificate"));
    CHECK(waitUntil([&] { return opened.answer().startsWith("The record is still the one"); }));
    auto reading =
        opened.book->log().readings(*opened.book->batch(), {afterHours(0), afterHours(24 * 10)}, false, 10).at(2);
    reading.written.tenThousandths += 1'000;
    opened.book->change(Amend<Reading>{reading.id(), reading, "misread"}, "Amend");
    QTest::qWait(0);
    REQUIRE(waitUntil([&] { return opened.answer().isEmpty(); }));
    opened.button("verify")->click();
    CHECK(waitUntil([&] { return opened.answer().startsWith("The record is no longer the one"); }));
    CHECK(opened.answer().contains("60.1 °C was 60 °C"));
}

TEST_CASE("what is typed while a certificate is compared does not wait for it, and its answer is not given") {
    Opened opened;
    opened.button("save")->click();
    opened.button("verify")->click();
    auto reading =
        opened.book->log().readings(*opened.book->batch(), {afterHours(0), afterHours(24 * 10)}, false, 10).at(2);
    reading.written.tenThousandths += 1'000;
    REQUIRE(opened.book->change(Amend<Reading>{reading.id(), reading, "misread"}, "Amend"));
    CHECK(opened.answer().isEmpty());
    waitForBackgroundWork();
    CHECK(opened.answer().isEmpty());
    CHECK(opened.trouble == QString{});
}

TEST_CASE("criteria ticked are kept in the book and the last one stays") {
    Opened opened;
    auto* target = opened.screen.findChild<QCheckBox*>("criterion-target");
    auto* other = opened.screen.findChild<QCheckBox*>("criterion-us503-vessel");
    REQUIRE(target != nullptr);
    REQUIRE(other != nullptr);
    CHECK(target->isChecked());
    target->click();
    CHECK(target->isChecked());
    other->click();
    CHECK(opened.book->setting(setting::inForce) == "target us503-vessel");
    target->click();
    CHECK_FALSE(target->isChecked());
    CHECK(opened.book->setting(setting::inForce) == "us503-vessel");
}

TEST_CASE("long titles of criteria are told whole in a small window") {
    const NoQtWarnings quiet;
    Opened opened;
    opened.screen.resize(800, 600);
    QCoreApplication::processEvents();
    int onSeveralLines = 0;
    const auto boxes = opened.screen.findChildren<QCheckBox*>(QRegularExpression{"^criterion-"});
    CHECK(boxes.size() > 20);
    for (const QCheckBox* box : boxes) {
        INFO(box->accessibleName().toStdString());
        CHECK(QString{box->text()}.replace('\n', ' ').replace("&&", "&") == box->accessibleName());
        CHECK(waitUntil([&] { return box->height() >= box->sizeHint().height(); }));
        onSeveralLines += box->text().contains('\n') ? 1 : 0;
    }
    CHECK(onSeveralLines > 0);
}

TEST_CASE("printing numbers the page as saving does") {
    Opened opened;
    opened.button("print")->click();
    CHECK(opened.saved().startsWith("%PDF"));
    CHECK(opened.book->log().certificates(*opened.book->batch()).size() == 1);
}

TEST_CASE("a page that cannot be saved is not given a number") {
    Opened opened;
    REQUIRE(QDir{opened.folder.path()}.mkdir("page.pdf"));
    opened.button("save")->click();
    CHECK(opened.trouble.startsWith("The certificate could not be saved"));
    CHECK(opened.book->log().certificates(*opened.book->batch()).empty());
}

TEST_CASE("neither saving nor printing to a file takes the place of what is no certificate") {
    const char* how = GENERATE("save", "print");
    Opened opened;
    {
        QFile letter{opened.folder.filePath("page.pdf")};
        REQUIRE(letter.open(QIODevice::WriteOnly));
        letter.write("Dear committee");
    }
    opened.button(how)->click();
    CHECK(opened.trouble.contains("page.pdf is already there"));
    CHECK(opened.saved() == "Dear committee");
    CHECK(opened.book->log().certificates(*opened.book->batch()).empty());
}

TEST_CASE("everything on the certificate screen has a name") {
    Opened opened;
    const auto nameless = unnamed(opened.screen);
    CAPTURE(nameless.join("; "));
    CHECK(nameless.isEmpty());
}

TEST_CASE("the tab key goes from the batch through the criteria to the buttons and titles are told whole") {
    Opened opened;
    const auto boxes = opened.screen.findChildren<QCheckBox*>();
    REQUIRE(boxes.size() > 3);
    REQUIRE(waitUntil([&] { return boxes.front()->width() > 200; }));
    int places = 0;
    for (QWidget* next = opened.batches()->nextInFocusChain(); next != opened.button("save");
         next = next->nextInFocusChain()) {
        REQUIRE(next != opened.batches());
        places += boxes.contains(next) ? 1 : 0;
    }
    CHECK(places == boxes.size());
    for (const QCheckBox* box : boxes) {
        CAPTURE(box->text().toStdString());
        CHECK(QString{box->text()}.replace('\n', ' ').replace("&&", "&") == box->accessibleName());
        for (const QString& line : QString{box->text()}.replace("&&", "&").split('\n')) {
            CHECK(box->fontMetrics().horizontalAdvance(line) <= box->width());
        }
        CHECK(box->toolTip().contains(box->accessibleName().left(20).toHtmlEscaped()));
    }
}

TEST_CASE("a page that is being made cannot be saved and a change of the book makes another") {
    Opened opened;
    const auto reading =
        opened.book->log().readings(*opened.book->batch(), {afterHours(0), afterHours(24 * 10)}, false, 10).at(2);
    opened.book->change(Withdraw<Reading>{reading.id(), {}}, "Withdraw");
    QTest::qWait(0);
    REQUIRE(waitUntil([&] { return opened.button("save")->isEnabled(); }));
    opened.button("save")->click();
    const auto issued = opened.book->log().certificates(*opened.book->batch());
    REQUIRE(issued.size() == 1);
    CHECK(issued[0].canonical.find("2026-03-03T08:00:00Z") == std::string::npos);
}

namespace {

/// Fed three times, levelled, hot at one height, and emptied once at the base.
BatchRecord fedBatch() {
    BatchRecord record = madeRecord();
    record.batch.fed = true;
    record.bin.volumeLitres = 250;
    record.bin.heightCentimetres = 100;
    Track low{"low"};
    low.heightCentimetres = 8;
    for (int day = 0; day < 12; ++day) {
        low.samples.push_back(sampleAt(24 * day + 2, 69));
    }
    record.tracks = {low};
    for (const int day : {0, 3, 6}) {
        Addition addition;
        addition.when = {afterHours(24 * day + 1), {}};
        addition.material = "kitchen scraps";
        addition.massKilograms = 12;
        addition.volumeLitres = 30;
        addition.raw = true;
        record.additions.push_back(addition);
    }
    Observation level;
    level.when = {afterHours(24 * 6 + 3), {}};
    level.kind = ObservationKind::level;
    level.value = "27";
    record.observations.push_back(level);
    Harvest harvest;
    harvest.when = {afterHours(24 * 11 + 5), {}};
    harvest.volumeLitres = 20;
    record.harvests.push_back(harvest);
    return record;
}

}  // namespace

TEST_CASE("the record of a harvest is shown and issued where the batch's certificate is") {
    const NoQtWarnings quiet;
    Opened opened{fedBatch()};
    auto* harvests = opened.screen.findChild<QComboBox*>("harvest");
    REQUIRE(harvests != nullptr);
    REQUIRE(harvests->isVisible());
    CHECK(harvests->count() == 2);
    CHECK(plain(harvests->itemText(1)).endsWith("20 L"));
    harvests->setFocus();
    QTest::keyClick(harvests, Qt::Key_Down);
    const auto isJudged = [&] {
        const auto* target = opened.screen.findChild<QCheckBox*>("criterion-target");
        return target != nullptr && target->isVisible();
    };
    REQUIRE(waitUntil([&] { return !isJudged() && opened.button("save")->isEnabled(); }));
    opened.button("save")->click();
    CHECK(opened.saved().startsWith("%PDF"));
    CHECK(opened.answers.suggestion.startsWith("harvest-"));
    CHECK(opened.issued()->count() == 1);
    // Back to the batch, whose certificate is another one.
    harvests->setFocus();
    QTest::keyClick(harvests, Qt::Key_Up);
    REQUIRE(waitUntil([&] { return isJudged() && opened.button("save")->isEnabled(); }));
    CHECK(opened.screen.findChild<QComboBox*>("harvest")->currentIndex() == 0);
    CHECK(opened.trouble.isEmpty());
}

TEST_CASE("a filled batch, and a fed one that nothing was taken out of, have no harvest to choose") {
    Opened filled;
    CHECK_FALSE(filled.screen.findChild<QComboBox*>("harvest")->isVisible());
    BatchRecord record = fedBatch();
    record.harvests.clear();
    Opened fed{record};
    CHECK_FALSE(fed.screen.findChild<QComboBox*>("harvest")->isVisible());
}
