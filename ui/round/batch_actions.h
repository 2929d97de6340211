// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <vector>

class QLabel;
class QPushButton;

namespace midden::ui {

/// The acts on the batch of the row the cursor is in, one key each (Alt and the underlined letter).
class BatchActions : public QWidget {
    Q_OBJECT

  public:
    enum class Kind {
        added,
        harvested,
        turned,
        forked,
        watered,
        opened,
        squeeze,
        ripening,
        note,
        rest,
        start,
        finish,
        move,
        feeding
    };

    explicit BatchActions(QWidget* parent = nullptr);
    /// Which batch they act on, in words; empty = there is none, and only a start is possible. Some acts are those of
    /// fed batches alone.
    void actOn(const QString& batch, bool isFed, bool writable);

  signals:
    void wanted(midden::ui::BatchActions::Kind kind);
    /// The person points at an act or has tabbed to it: time for its caution.
    void pointedAt(midden::ui::BatchActions::Kind kind);

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    struct Button {
        Kind kind;
        QPushButton* button;
    };
    QLabel* batch_;
    std::vector<Button> buttons_;
};

}  // namespace midden::ui
