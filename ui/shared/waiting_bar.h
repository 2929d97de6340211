// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <functional>

class QLabel;
class QProgressBar;

namespace midden::ui {

class ProgressDelay;

/// Says what the person is waiting for and how far it has come, and lets them stop it. A short wait goes by without a
/// flicker.
class WaitingBar : public QWidget {
    Q_OBJECT

  public:
    /// `share` is how much of the batch has been read, 0 to 1; at 1 all that is left is what `after` says, and nobody
    /// knows how long that takes.
    WaitingBar(QString after, std::function<double()> share, QWidget* parent = nullptr);

    void begin();
    void end();

  signals:
    void appeared();
    void stopWanted();

  private:
    void look();

    QString after_;
    std::function<double()> share_;
    QLabel* words_;
    QProgressBar* progress_;
    ProgressDelay* progressDelay_;
};

}  // namespace midden::ui
