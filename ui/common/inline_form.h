// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <functional>

class QCheckBox;
class QComboBox;
class QLabel;
class QLineEdit;
class QPushButton;
class QVBoxLayout;

namespace midden::ui {

class FlowLayout;

/// A few labelled fields in the page itself, never in a window over it. Enter saves, Escape closes.
class InlineForm : public QWidget {
    Q_OBJECT

  public:
    /// Saves; gives back what is wrong in words, or nothing when it is done.
    using Save = std::function<QString()>;

    InlineForm(const QString& title, const QString& go, QWidget* parent = nullptr);

    QLineEdit* addLine(const char* name, const QString& label, int characters);
    QComboBox* addChoice(const char* name, const QString& label, const QStringList& choices);
    QCheckBox* addCheck(const char* name, const QString& words, bool checked);
    /// A quiet line under the fields; the tooltip names its source.
    QLabel* addNote(const QString& words, const QString& source);
    void onSave(Save save) { save_ = std::move(save); }
    void submit();
    /// Puts the cursor into the first field.
    void begin();

  signals:
    void saved();
    void closed();  ///< saved or given up

  protected:
    void keyPressEvent(QKeyEvent* event) override;

  private:
    void addField(const QString& label, QWidget* field);

    Save save_;
    QVBoxLayout* column_;
    FlowLayout* fields_;
    QLabel* problem_;
    QPushButton* go_;
    QPushButton* cancel_;
    QWidget* first_ = nullptr;
    QWidget* last_ = nullptr;
};

}  // namespace midden::ui
