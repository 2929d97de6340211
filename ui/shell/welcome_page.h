// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QStringList>
#include <QWidget>

class QVBoxLayout;

namespace midden::ui {

/// What the window shows while no book is open.
class WelcomePage : public QWidget {
    Q_OBJECT

  public:
    explicit WelcomePage(QWidget* parent = nullptr);
    void offer(const QStringList& recentFiles);

  signals:
    void newWanted();
    void openWanted();
    void fileWanted(const QString& path);

  private:
    QVBoxLayout* recent_;
};

}  // namespace midden::ui
