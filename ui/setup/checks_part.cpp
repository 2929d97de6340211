// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/setup/checks_part.h"

#include <QLabel>
#include <QVBoxLayout>
#include <algorithm>

#include "ui/setup/probe_checks.h"
#include "ui/shared/book.h"

namespace midden::ui {

ChecksPart::ChecksPart(Book& book, QWidget* parent)
    : QWidget{parent},
      book_{book},
      column_{new QVBoxLayout{this}},
      none_{new QLabel{tr("Name a probe above, and it can be checked here."), this}} {
    auto* heading = new QLabel{tr("Ice and boiling checks"), this};
    QFont bold = heading->font();
    bold.setWeight(QFont::DemiBold);
    heading->setFont(bold);
    auto* explanation =
        new QLabel{tr("Melting ice is 0 °C, so it tells how far a probe is off. The readings taken with that "
                      "probe are corrected by it; what was written down stays as it was."),
                   this};
    explanation->setWordWrap(true);
    explanation->setForegroundRole(QPalette::PlaceholderText);
    column_->setContentsMargins(0, 0, 0, 0);
    column_->setSpacing(8);
    column_->addWidget(heading);
    column_->addWidget(explanation);
    column_->addWidget(none_);
    connect(&book, &Book::changed, this, &ChecksPart::refresh);
    refresh();
}

void ChecksPart::refresh() {
    std::vector<ProbeId> probes;
    for (const Probe& probe : book_.log().probes()) {
        probes.push_back(probe.id);
    }
    none_->setVisible(probes.empty());
    if (probes != shown_) {
        arrange(probes);
    }
    for (ProbeChecks* block : blocks_) {
        block->refresh();
    }
}

/// The blocks of probes that are still there stay as they are, with whatever is being typed in them.
void ChecksPart::arrange(const std::vector<ProbeId>& probes) {
    std::vector<ProbeChecks*> blocks;
    for (const ProbeId probe : probes) {
        const auto known = std::ranges::find(shown_, probe);
        blocks.push_back(known == shown_.end() ? new ProbeChecks{book_, probe, this}
                                               : blocks_[static_cast<std::size_t>(known - shown_.begin())]);
    }
    for (ProbeChecks* block : blocks_) {
        if (std::ranges::find(blocks, block) == blocks.end()) {
            block->hide();
            block->deleteLater();
        }
    }
    for (ProbeChecks* block : blocks) {
        column_->removeWidget(block);
        column_->addWidget(block);
    }
    blocks_ = std::move(blocks);
    shown_ = probes;
}

}  // namespace midden::ui
