// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QHash>
#include <QPointer>
#include <QWidget>
#include <functional>

#include "ui/shared/tone.h"

class QComboBox;
class QGridLayout;
class QLabel;
class QLineEdit;
class QPushButton;
class QVBoxLayout;

namespace midden::ui {

/// A form in the page itself with one field to a row: its name, the field, and what there is to say about what was
/// typed. Enter saves, Escape closes.
class ExplainedForm : public QWidget {
    Q_OBJECT

  public:
    /// Saves; gives back what is wrong in words, or nothing when it is done.
    using Save = std::function<QString()>;

    ExplainedForm(const QString& title, const QString& go, QWidget* parent = nullptr);

    /// A paragraph above the fields; the tooltip names its source.
    QLabel* addLead(const QString& words, const QString& source);
    QLineEdit* addLine(const char* name, const QString& label, int characters);
    QComboBox* addChoice(const char* name, const QString& label, const QStringList& choices);
    /// A choice in the same row, after the line it belongs to.
    QComboBox* addChoiceBeside(QLineEdit* line, const char* name, const QString& spoken, const QStringList& choices);
    /// A line under the fields that says what saving will mean.
    QLabel* addOutcome(const char* name);

    /// What there is to say about a field, beside it; empty = nothing.
    void remark(const QWidget* field, const QString& words, Tone tone = Tone::question);
    QString remarkOn(const QWidget* field) const;
    void setRowShown(const QWidget* field, bool shown);

    void onSave(Save save) { save_ = std::move(save); }
    void submit();
    /// Puts the cursor into the first field and the form into view.
    void begin();
    /// Begins at the end of `column`, in the place of the form that may stand there; `goOn` puts the keyboard elsewhere
    /// when it is closed.
    void beginIn(QVBoxLayout* column, QPointer<ExplainedForm>& place, const std::function<void()>& goOn);

  signals:
    void typed();  ///< something in a field changed
    void saved();
    void closed();  ///< saved or given up

  protected:
    void keyPressEvent(QKeyEvent* event) override;

  private:
    struct Row {
        QLabel* label = nullptr;
        QWidget* field = nullptr;
        QLabel* remark = nullptr;
    };
    void addRow(const QString& label, QWidget* field);
    void follow(QWidget* field);

    Save save_;
    QVBoxLayout* column_;
    QGridLayout* grid_;
    QLabel* problem_;
    QPushButton* go_;
    QPushButton* cancel_;
    QHash<const QWidget*, Row> rows_;
    QWidget* first_ = nullptr;
    QWidget* last_ = nullptr;
};

}  // namespace midden::ui
