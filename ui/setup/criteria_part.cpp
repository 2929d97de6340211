// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/setup/criteria_part.h"

#include <QEvent>
#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>
#include <algorithm>

#include "core/store/read/book_rules.h"
#include "ui/setup/criteria_list.h"
#include "ui/setup/criterion_words.h"
#include "ui/setup/own_criterion_form.h"
#include "ui/shared/named_button.h"
#include "ui/shared/palette.h"
#include "ui/shared/words.h"

namespace midden::ui {

CriteriaPart::CriteriaPart(Book& book, QWidget* parent)
    : QWidget{parent},
      book_{book},
      list_{new CriteriaList{this}},
      page_{new QLabel{this}},
      add_{namedButton(tr("Add one of our own…"), "addCriterion", this)},
      edit_{namedButton(tr("Edit…"), "editCriterion", this)},
      remove_{namedButton(tr("Remove"), "removeCriterion", this)},
      column_{new QVBoxLayout{this}} {
    page_->setObjectName(QStringLiteral("criterionPage"));
    page_->setWordWrap(true);
    page_->setAlignment(Qt::AlignTop | Qt::AlignLeft);
    page_->setTextFormat(Qt::RichText);
    page_->setTextInteractionFlags(Qt::TextSelectableByMouse);
    page_->setFocusPolicy(Qt::ClickFocus);
    page_->setAccessibleName(tr("The chosen criterion in full"));
    layOut();
    connect(list_, &QListWidget::currentItemChanged, this, [this] { showChosen(); });
    connect(list_, &QListWidget::itemActivated, this, [this] {
        if (edit_->isVisible()) {
            edit_->click();
        }
    });
    connect(add_, &QPushButton::clicked, this, [this] { begin({}); });
    connect(edit_, &QPushButton::clicked, this, [this] {
        if (const Criterion* criterion = chosen()) {
            begin(*criterion);
        }
    });
    connect(remove_, &QPushButton::clicked, this, &CriteriaPart::remove);
    connect(&book, &Book::changed, this, &CriteriaPart::refresh);
    refresh();
}

void CriteriaPart::layOut() {
    auto* heading = new QLabel{tr("Criteria"), this};
    QFont bold = heading->font();
    bold.setWeight(QFont::DemiBold);
    heading->setFont(bold);
    auto* explanation =
        new QLabel{tr("Published time–temperature rules, in our own words. None was written for a garden bin; the "
                      "program only says whether the readings reached their figures. Those marked “told, not judged” "
                      "set no figures to reach: choose them on the Certificate screen to have them printed."),
                   this};
    explanation->setWordWrap(true);
    explanation->setForegroundRole(QPalette::PlaceholderText);
    auto* buttons = new QHBoxLayout;
    buttons->setSpacing(8);
    buttons->addWidget(edit_);
    buttons->addWidget(remove_);
    buttons->addStretch();
    auto* right = new QVBoxLayout;
    right->setSpacing(8);
    right->addWidget(page_);
    right->addLayout(buttons);
    right->addStretch();
    auto* left = new QVBoxLayout;
    left->setSpacing(8);
    left->addWidget(list_);
    left->addWidget(add_, 0, Qt::AlignLeft);
    left->addStretch();
    auto* both = new QHBoxLayout;
    both->setSpacing(24);
    both->addLayout(left);
    both->addLayout(right, 1);
    column_->setContentsMargins(0, 0, 0, 0);
    column_->setSpacing(8);
    column_->addWidget(heading);
    column_->addWidget(explanation);
    column_->addLayout(both);
}

void CriteriaPart::refresh() {
    all_ = criteriaOf(book_.log());
    list_->fill(all_, shippedInformation());
    add_->setEnabled(!book_.isReadOnly());
    showChosen();
}

const Criterion* CriteriaPart::chosen() const {
    const std::string id = words::utf8(list_->chosen());
    const auto found = std::find_if(all_.begin(), all_.end(), [&](const auto& c) { return c.id == id; });
    return found == all_.end() ? nullptr : &*found;
}

void CriteriaPart::showChosen() {
    const Criterion* criterion = chosen();
    const bool own = criterion != nullptr && criterion->ofTheGroup;
    const Information* told = informationOf(words::utf8(list_->chosen()));
    page_->setText(criterion != nullptr ? criterionPage(*criterion, Palette::of(*this))
                   : told != nullptr    ? informationPage(*told, Palette::of(*this))
                                        : QString{});
    edit_->setVisible(own);
    remove_->setVisible(own);
    edit_->setEnabled(!book_.isReadOnly());
    remove_->setEnabled(!book_.isReadOnly());
    if (own) {
        edit_->setAccessibleName(tr("Edit %1").arg(words::text(criterion->title)));
        remove_->setAccessibleName(tr("Remove %1").arg(words::text(criterion->title)));
    }
}

void CriteriaPart::begin(std::optional<Criterion> amended) {
    auto* form = new OwnCriterionForm{book_, std::move(amended), [this](const Criterion& c) { return keep(c); }, this};
    form->beginIn(column_, form_, [this] { list_->setFocus(); });
}

bool CriteriaPart::keep(const Criterion& criterion) {
    auto own = groupCriteriaOf(book_.log());
    const auto same = std::find_if(own.begin(), own.end(), [&](const auto& c) { return c.id == criterion.id; });
    if (same == own.end()) {
        own.push_back(criterion);
    } else {
        *same = criterion;
    }
    if (!store(own, words::text(criterion.title))) {
        return false;
    }
    list_->choose(words::text(criterion.id));
    return true;
}

void CriteriaPart::remove() {
    const Criterion* criterion = chosen();
    if (criterion == nullptr) {
        return;
    }
    const std::string id = criterion->id;
    const QString title = words::text(criterion->title);
    auto own = groupCriteriaOf(book_.log());
    std::erase_if(own, [&](const Criterion& c) { return c.id == id; });
    if (store(own, tr("%1 removed").arg(title))) {
        list_->setFocus();
    }
}

bool CriteriaPart::store(const std::vector<Criterion>& own, const QString& label) {
    return book_.changeSetting(setting::criteria, words::text(groupCriteriaText(book_.log(), own)), label);
}

void CriteriaPart::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::PaletteChange || event->type() == QEvent::StyleChange) {
        showChosen();  // the page carries colours of its own
    }
}

}  // namespace midden::ui
