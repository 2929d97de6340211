// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <map>
#include <vector>

#include "ui/import/import_work.h"

class QComboBox;
class QGridLayout;
class QLabel;
class QLineEdit;

namespace midden::ui {

class Book;

/// What a file does not say itself: the batch, and where needed the zone of its times and the unit of its numbers.
class ImportQuestions : public QWidget {
    Q_OBJECT

  public:
    ImportQuestions(const Book& book, const FileHead& head, QWidget* parent = nullptr);

    /// Or what is wrong with them; the keyboard is then where it can be mended.
    Result<ImportAnswers> answers();
    /// For a file that turned out to have times without offset.
    void askForZone();
    /// Puts the keyboard where most people begin.
    void begin();

  signals:
    /// There are more questions now, or fewer.
    void reshaped();

  private:
    void ask(const QString& label, QWidget* field);
    void setAsked(QWidget* field, bool isAsked);
    void addBatches();
    void addBin();
    void addZone();
    void addUnit();
    void showNewBatch();
    bool isNewBatch() const;
    Result<ImportAnswers> newBatch();
    tl::unexpected<Problem> refuse(QWidget* where, const QString& wrong);

    const Book& book_;
    bool asksForUnit_;
    std::vector<Batch> batches_;  ///< as they are offered: newest first
    QGridLayout* grid_;
    std::map<QWidget*, QLabel*> labels_;
    QComboBox* batch_;
    QLineEdit* name_;
    QComboBox* bin_;
    QLineEdit* zone_;
    QComboBox* unit_;
};

}  // namespace midden::ui
