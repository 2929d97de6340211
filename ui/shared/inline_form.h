// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QPointer>
#include <QWidget>
#include <functional>

#include "ui/shared/question_bar.h"

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
    /// What is to be asked before what now stands in the fields is saved; nothing where that is wrong anyway.
    using Ask = std::function<Question()>;

    InlineForm(const QString& title, const QString& go, QWidget* parent = nullptr);

    QLineEdit* addLine(const char* name, const QString& label, int characters);
    QComboBox* addChoice(const char* name, const QString& label, const QStringList& choices);
    QCheckBox* addCheck(const char* name, const QString& words, bool checked);
    /// A quiet line under the buttons; the tooltip names its source.
    QLabel* addNote(const QString& words, const QString& source);
    /// A line over the buttons, for what is to be seen before saving; it asks to be looked at.
    QLabel* addWarning(const char* name);
    void onSave(Save save) { save_ = std::move(save); }
    void onAsk(Ask ask) { ask_ = std::move(ask); }
    /// Asked before any field is shown.
    void askFirst(Question question) { askedFirst_ = std::move(question); }
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
    void ask(const Question& question);
    void stopAsking();
    void goOn();
    void save();
    void say(const QString& problem);

    Save save_;
    Ask ask_;
    Question askedFirst_;
    Question asked_;
    QPointer<QWidget> before_;  ///< where the keyboard was when the question came
    QVBoxLayout* column_;
    QWidget* fieldsPlace_;
    FlowLayout* fields_;
    QLabel* problem_;
    QPushButton* go_;
    QPushButton* cancel_;
    QWidget* buttons_;
    QuestionBar* question_;
    QWidget* first_ = nullptr;
    QWidget* last_ = nullptr;
};

}  // namespace midden::ui
