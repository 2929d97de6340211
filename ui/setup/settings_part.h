// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include "ui/setup/setup_grid.h"
#include "ui/shared/book.h"

namespace midden::ui {

/// One setting of the book as a line.
struct SettingLine {
    const Setting& setting;
    QString label;
    QString otherwise = {};  ///< shown where the book says nothing and the setting has no figure of its own
};

/// Settings of the book, one to a row. Changes can be undone.
class SettingsPart : public SetupGrid {
    Q_OBJECT

  public:
    SettingsPart(Book& book, const QString& title, const QString& explanation, QWidget* parent = nullptr);

    void add(const SettingLine& setting);
    /// A choice of a few; the first is what holds when nobody has said.
    void addChoice(const Setting& setting, const QString& label, const QStringList& kept, const QStringList& shown);

  private:
    void refresh();

    Book& book_;
    std::vector<std::function<void()>> fillers_;
};

/// The parts of Setup that are made of settings.
SettingsPart* makeBookPart(Book& book, QWidget* parent);
SettingsPart* makeMeasuresPart(Book& book, QWidget* parent);
SettingsPart* makeTargetPart(Book& book, QWidget* parent);
SettingsPart* makeThresholdsPart(Book& book, QWidget* parent);
SettingsPart* makeUnlikelyPart(Book& book, QWidget* parent);

}  // namespace midden::ui
