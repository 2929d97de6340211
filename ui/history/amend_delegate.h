// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QFrame>
#include <QStyledItemDelegate>

class QLabel;
class QLineEdit;
class QTimer;

namespace midden::ui {

/// What opens over a cell to correct it: the value, an optional reason, and what is wrong with the value if anything.
class AmendEditor : public QFrame {
    Q_OBJECT

  public:
    explicit AmendEditor(QWidget* parent = nullptr);
    QString value() const;
    QString why() const;
    void setValue(const QString& value);
    /// Something was typed in it.
    bool isTyping() const;
    void refuse(const QString& sentence);

  signals:
    void done();  ///< Enter, or the keyboard has gone elsewhere
    void givenUp();

  protected:
    bool eventFilter(QObject* watched, QEvent* event) override;

  private:
    void leaveIfGone();

    QLineEdit* value_;
    QLineEdit* why_;
    QLabel* problem_;
    QTimer* soon_;  ///< once the keyboard has settled
    QString before_;
};

/// Draws old values struck through before new ones, numbers aligned on their decimal mark, and opens the editor.
class AmendDelegate : public QStyledItemDelegate {
    Q_OBJECT

  public:
    using QStyledItemDelegate::QStyledItemDelegate;
    QWidget* createEditor(QWidget* parent, const QStyleOptionViewItem& option, const QModelIndex& index) const override;
    void setEditorData(QWidget* editor, const QModelIndex& index) const override;
    void setModelData(QWidget* editor, QAbstractItemModel* model, const QModelIndex& index) const override;
    void updateEditorGeometry(QWidget* editor, const QStyleOptionViewItem& option,
                              const QModelIndex& index) const override;
    void paint(QPainter* painter, const QStyleOptionViewItem& option, const QModelIndex& index) const override;
    QSize sizeHint(const QStyleOptionViewItem& option, const QModelIndex& index) const override;

  private:
    void finish(AmendEditor* editor, const QPersistentModelIndex& index);
};

}  // namespace midden::ui
