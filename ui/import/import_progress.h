// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <functional>

class QLabel;
class QProgressBar;

namespace midden::ui {

class ProgressDelay;

/// Says what is being done and how far it has come. A short wait goes by without a flicker.
class ImportProgressLine : public QWidget {
    Q_OBJECT

  public:
    /// What is being done, when it has come so far.
    using Words = std::function<QString(double share)>;

    /// `share` is how far it has come, 0 to 1. At either end nobody knows how long it takes.
    ImportProgressLine(std::function<double()> share, QWidget* parent);

    void begin(Words words);
    void end();

  signals:
    void appeared();

  private:
    void look();

    std::function<double()> share_;
    Words words_;
    QLabel* doing_;
    QProgressBar* bar_;
    ProgressDelay* progressDelay_;
};

}  // namespace midden::ui
