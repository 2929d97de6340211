// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shared/qt_prompts.h"

#include <QFileDialog>
#include <QMessageBox>
#include <QPrintDialog>
#include <QPushButton>

namespace midden::ui {

namespace {

std::optional<QString> unlessEmpty(const QString& name) {
    return name.isEmpty() ? std::nullopt : std::optional{name};
}

}  // namespace

std::optional<QString> QtPrompts::fileToOpen(QWidget* parent, const QString& title, const QString& filter) {
    return unlessEmpty(QFileDialog::getOpenFileName(parent, title, {}, filter));
}

std::optional<QString> QtPrompts::fileToSave(QWidget* parent, const QString& title, const QString& suggested,
                                             const QString& filter) {
    return unlessEmpty(QFileDialog::getSaveFileName(parent, title, suggested, filter));
}

bool QtPrompts::confirm(QWidget* parent, const QString& question, const QString& yes) {
    QMessageBox box{parent};
    box.setText(question);
    const QPushButton* goOn = box.addButton(yes, QMessageBox::AcceptRole);
    box.addButton(QMessageBox::Cancel);
    box.setDefaultButton(QMessageBox::Cancel);  // a key pressed in haste changes nothing
    box.setEscapeButton(QMessageBox::Cancel);
    box.exec();
    return box.clickedButton() == goOn;
}

bool QtPrompts::choosePrinter(QWidget* parent, QPrinter& printer) {
    QPrintDialog dialog{&printer, parent};
    return dialog.exec() == QDialog::Accepted;
}

}  // namespace midden::ui
