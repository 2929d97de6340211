// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QTimer>

namespace midden::ui {

/// The clock of a wait that somebody is shown: a short one goes by without a flicker, a longer one is looked at now and
/// then.
class ProgressDelay : public QObject {
    Q_OBJECT

  public:
    explicit ProgressDelay(QObject* parent);

    /// A wait that goes on already simply goes on.
    void begin();
    void end();

  signals:
    /// Time to see how far it has come, ten times a second once the wait is worth a word.
    void look();
    /// The wait is worth a word, and has been looked at.
    void ranOut();

  private:
    QTimer progressDelay_;
    QTimer clock_;
};

}  // namespace midden::ui
