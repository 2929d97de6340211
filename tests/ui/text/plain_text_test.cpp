// SPDX-License-Identifier: GPL-3.0-or-later
// Other people's names, notes and file names, on every screen: shown as they are written, never read as markup.
#include <QAbstractItemView>
#include <QMessageBox>
#include <QToolTip>

#include "tests/ui/shell/desk.h"
#include "ui/shared/plain_text.h"
#include "ui/shared/words.h"
#include "ui/shell/screens.h"

using namespace midden;
using midden::testing::Desk;
using midden::testing::fourthOfMarch;
using midden::testing::waitForBackgroundWork;

namespace {

const std::string evil = "<b>x</b><img src='file:///etc/hostname'><a href='https://example.org'>&amp;</a>";

/// A book in which every text that can be entered is that one.
void fill(Desk& desk) {
    const auto bin = desk.addBin(evil, {evil, "core"});
    for (int day = 6; day > 0; --day) {
        desk.addReading(bin, evil, fourthOfMarch - days(day), 560'000);
        desk.addReading(bin, "core", fourthOfMarch - days(day), 300'000);
    }
    Logbook& log = desk.book().writable();
    const auto batch = log.batches().front().id;
    Probe probe;
    probe.name = probe.note = evil;
    log.apply(Put<Probe>{probe});
    Addition addition;
    addition.batch = batch;
    addition.when = {fourthOfMarch - days(2), {}};
    addition.material = addition.note = evil;
    addition.massKilograms = 4;
    log.apply(Put<Addition>{addition});
    Observation note;
    note.batch = batch;
    note.when = {fourthOfMarch - days(1), {}};
    note.value = note.note = evil;
    log.apply(Put<Observation>{note});
    log.setSetting(setting::group, evil);
    log.setSetting(setting::who, evil);
}

/// Would Qt read this text as markup in this label, and did nobody escape it?
bool isRead(const QLabel& label) {
    const bool markup = label.textFormat() == Qt::RichText || label.textFormat() == Qt::MarkdownText ||
                        (label.textFormat() == Qt::AutoText && Qt::mightBeRichText(label.text()));
    return markup && (label.text().contains("<img") || label.text().contains("<b>x</b>"));
}

}  // namespace

TEST_CASE("no label of any screen reads a name as markup") {
    ui::showTextAsText(*qApp);
    Desk desk;
    desk.window->startBook(desk.path("a & <b>x<img>.midden"));
    Desk::settle();
    fill(desk);
    Desk::settle();
    int shown = 0;
    for (const ui::ScreenEntry& screen : ui::screens()) {
        desk.window->workspace()->showScreen(screen.id);
        waitForBackgroundWork();
        for (const QLabel* label : desk.window->findChildren<QLabel*>()) {
            INFO(screen.id << ": " << label->objectName().toStdString() << ": " << label->text().toStdString());
            CHECK_FALSE(isRead(*label));
            shown += label->text().contains("<img") || label->text().contains("&lt;img") ? 1 : 0;
        }
    }
    CHECK(shown > 0);
}

TEST_CASE("a question and a tip show what they are told") {
    ui::showTextAsText(*qApp);
    const auto text = ui::words::text(evil);
    QMessageBox box;
    box.setText(text);
    box.show();
    Desk::settle();
    for (const QLabel* label : box.findChildren<QLabel*>()) {
        CHECK_FALSE(isRead(*label));
    }
    QWidget under;
    under.show();
    QToolTip::showText({}, text, &under);
    Desk::settle();
    int tips = 0;
    for (const QWidget* widget : QApplication::topLevelWidgets()) {
        const auto* label = qobject_cast<const QLabel*>(widget);
        if (label != nullptr && label->text() == text) {
            ++tips;
            CHECK(label->textFormat() == Qt::PlainText);
        }
    }
    CHECK(tips == 1);
}

TEST_CASE("a label that was given a format keeps it") {
    ui::showTextAsText(*qApp);
    QLabel page{"<b>ours</b>"};
    page.setTextFormat(Qt::RichText);
    page.show();
    Desk::settle();
    CHECK(page.textFormat() == Qt::RichText);
}

TEST_CASE("names on buttons keep their ampersands and long tips are broken into lines") {
    CHECK(ui::words::onButton("Salt & Pepper") == "Salt && Pepper");
    const auto lines = ui::words::onSeveralLines(QString{"word "}.repeated(60).trimmed());
    CHECK(lines.split('\n').size() == 4);
    CHECK(QString{lines}.replace('\n', ' ') == QString{"word "}.repeated(60).trimmed());
}
