// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>
#include <filesystem>
#include <optional>

#include "core/quantities/zone.h"
#include "core/store/care/book_summary.h"
#include "core/store/care/comparison.h"
#include "core/store/care/copies.h"
#include "ui/shared/background_task.h"

class QComboBox;
class QLabel;
class QListWidget;
class QPushButton;

namespace midden::ui {

class Prompts;

/// The copies kept of a book, a look inside each, and getting one back. Works without the book itself.
class CopiesPage : public QWidget {
    Q_OBJECT

  public:
    /// `book` is the whole path of the one to begin with; empty = whichever has copies.
    CopiesPage(Prompts& prompts, std::filesystem::path place, const std::filesystem::path& book, TimeZone zone,
               QWidget* parent = nullptr);

    void begin();
    QString bookPath() const;

  signals:
    void closed();
    void restored(const QString& file);                            ///< written to a new file
    void replaceWanted(const QString& book, const QString& copy);  ///< agreed to by the person
    void salvageWanted(const QString& book);

  protected:
    void keyPressEvent(QKeyEvent* event) override;

  private:
    /// What a look inside found, or why there was none.
    struct Looked {
        std::optional<BookSummary> inside;
        std::optional<std::vector<CountDifference>> differences;
        QString trouble;
    };
    static Looked lookedInto(const std::filesystem::path& copy, const std::filesystem::path& book);
    void layOut();
    void fillBooks(const std::filesystem::path& first);
    void fillCopies();
    std::optional<KeptCopy> chosen() const;
    void look();
    void show(const Looked& looked);
    void restoreToNew();
    void askToReplace();

    Prompts& prompts_;
    std::filesystem::path place_;
    TimeZone zone_;
    QComboBox* books_;
    QLabel* explained_;
    QLabel* none_;  ///< in the place of an empty list
    QListWidget* list_;
    QLabel* inside_;
    QPushButton* restore_;
    QPushButton* replace_;
    QPushButton* salvage_;
    QPushButton* back_;
    std::vector<KeptCopy> copies_;
    BackgroundTask looking_;
};

}  // namespace midden::ui
