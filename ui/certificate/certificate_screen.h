// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <QWidget>

#include "ui/certificate/certificate_desk.h"
#include "ui/shared/background_task.h"

class QComboBox;
class QLabel;
class QPushButton;
class QTimer;

namespace midden::ui {

class CriteriaChoice;
class PageView;
class Prompts;
class WaitingBar;

/// The certificate's page as it will print, and beside it what it is judged by. A number is given, and the record kept,
/// when the page is saved or printed; until then it is a preview.
class CertificateScreen : public QWidget {
    Q_OBJECT

  public:
    CertificateScreen(Book& book, Prompts& prompts, QWidget* parent = nullptr);

  protected:
    void showEvent(QShowEvent* event) override;
    void focusInEvent(QFocusEvent* event) override;

  private:
    QWidget* makeSide();
    void makeParts(QWidget* side);
    void connectParts();
    void refreshLater();
    void lookAt(BatchId chosen);
    void refresh();
    /// Reads and judges the batch beside the window, for its page.
    void draft();
    void take(const std::shared_ptr<CertificateDesk::Drafted>& drafted, const QString& trouble);
    void releaseFile();
    void stop();
    void showBatches();
    void showHarvests();
    void showPage();
    void showIssued();
    void save();
    void saveAs(const QString& path);
    void print();
    /// Compares the record with the chosen certificate beside the window.
    void verify();
    /// Runs what may be refused by the file; tells the person when it was.
    void attempt(const std::function<void()>& work);

    Book& book_;
    Prompts& prompts_;
    CertificateDesk desk_;
    BackgroundTask task_;
    BackgroundTask verifying_;
    bool stale_ = true;
    QTimer* later_;
    PageView* page_;
    WaitingBar* waiting_;
    QComboBox* batches_ = nullptr;
    QComboBox* harvests_ = nullptr;  ///< of a fed batch: its certificate, or the record of one of its harvests
    QLabel* interim_ = nullptr;
    CriteriaChoice* criteria_ = nullptr;
    QPushButton* save_ = nullptr;
    QPushButton* print_ = nullptr;
    QComboBox* issued_ = nullptr;
    QPushButton* verify_ = nullptr;
    QLabel* answer_ = nullptr;
};

}  // namespace midden::ui
