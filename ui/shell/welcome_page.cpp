// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shell/welcome_page.h"

#include <QFileInfo>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include "ui/shared/named_button.h"
#include "ui/shared/words.h"

namespace midden::ui {

WelcomePage::WelcomePage(QWidget* parent) : QWidget{parent}, recent_{new QVBoxLayout} {
    setObjectName(QStringLiteral("welcome"));
    auto* sentence = new QLabel{tr("One file keeps the log of all your bins, from year to year."), this};
    sentence->setWordWrap(true);
    QFont larger = sentence->font();
    larger.setPointSizeF(larger.pointSizeF() * 1.3);
    sentence->setFont(larger);
    auto* start = namedButton(tr("Start a &new logbook…"), "welcomeNew", this);
    start->setProperty("leading", true);
    auto* open = namedButton(tr("&Open a logbook…"), "welcomeOpen", this);
    connect(start, &QPushButton::clicked, this, &WelcomePage::newWanted);
    connect(open, &QPushButton::clicked, this, &WelcomePage::openWanted);

    auto* buttons = new QHBoxLayout;
    buttons->setSpacing(8);
    buttons->addWidget(start);
    buttons->addWidget(open);
    buttons->addStretch();
    recent_->setSpacing(8);
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(64, 64, 64, 64);
    column->setSpacing(24);
    column->addStretch(1);
    column->addWidget(sentence);
    column->addLayout(buttons);
    column->addLayout(recent_);
    column->addStretch(2);
}

void WelcomePage::offer(const QStringList& recentFiles) {
    while (QLayoutItem* item = recent_->takeAt(0)) {
        delete item->widget();
        delete item;
    }
    for (qsizetype i = 0; i < recentFiles.size(); ++i) {
        const QString& path = recentFiles.at(i);
        auto* link = namedButton(tr("&%1  %2").arg(i + 1).arg(words::onButton(QFileInfo{path}.fileName())), "", this);
        link->setObjectName(QStringLiteral("welcomeRecent%1").arg(i + 1));
        link->setAccessibleName(tr("Open %1").arg(QFileInfo{path}.fileName()));
        link->setToolTip(path);
        connect(link, &QPushButton::clicked, this, [this, path] { emit fileWanted(path); });
        recent_->addWidget(link, 0, Qt::AlignLeft);
    }
}

}  // namespace midden::ui
