// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/setup/materials_part.h"

#include <QComboBox>
#include <QLabel>
#include <QPushButton>
#include <QSignalBlocker>
#include <QVBoxLayout>
#include <algorithm>

#include "core/store/read/book_rules.h"
#include "ui/setup/own_material_form.h"
#include "ui/shared/named_button.h"
#include "ui/shared/words.h"

namespace midden::ui {

namespace {

bool isPrinted(const Material& material) {
    return std::ranges::find(builtInMaterials().all(), material.id, &Material::id) != builtInMaterials().all().end();
}

}  // namespace

MaterialsPart::MaterialsPart(Book& book, QWidget* parent)
    : QWidget{parent},
      book_{book},
      choice_{new QComboBox{this}},
      page_{new QLabel{this}},
      source_{new QLabel{this}},
      showSource_{namedButton(tr("Where they are from"), "showMaterialSource", this)},
      change_{namedButton(tr("Change its figures…"), "changeMaterial", this)},
      takeBack_{namedButton({}, "takeBackMaterial", this)},
      add_{namedButton(tr("Add one of our own…"), "addMaterial", this)},
      column_{new QVBoxLayout{this}} {
    choice_->setObjectName(QStringLiteral("materialChoice"));
    choice_->setAccessibleName(tr("Material"));
    page_->setObjectName(QStringLiteral("materialPage"));
    page_->setTextFormat(Qt::RichText);
    page_->setWordWrap(true);
    source_->setObjectName(QStringLiteral("materialSources"));
    source_->setTextFormat(Qt::RichText);
    source_->setWordWrap(true);
    source_->hide();
    layOut();
    connect(choice_, &QComboBox::currentIndexChanged, this, &MaterialsPart::showChosen);
    connect(showSource_, &QPushButton::clicked, source_, [this] { source_->setVisible(source_->isHidden()); });
    connect(change_, &QPushButton::clicked, this, [this] {
        if (const Material* material = chosen()) {
            begin(*material);
        }
    });
    connect(add_, &QPushButton::clicked, this, [this] { begin({}); });
    connect(takeBack_, &QPushButton::clicked, this, &MaterialsPart::takeBack);
    connect(&book, &Book::changed, this, &MaterialsPart::refresh);
    refresh();
}

void MaterialsPart::layOut() {
    auto* heading = new QLabel{tr("Materials"), this};
    QFont bold = heading->font();
    bold.setWeight(QFont::DemiBold);
    heading->setFont(bold);
    auto* explanation = new QLabel{
        tr("What the recipe reckons with. Figures differ from place to place and season to season: where you know "
           "your own, write them down, and they hold for this book."),
        this};
    explanation->setWordWrap(true);
    explanation->setForegroundRole(QPalette::PlaceholderText);
    auto* buttons = new QHBoxLayout;
    buttons->setSpacing(8);
    for (QPushButton* one : {showSource_, change_, takeBack_, add_}) {
        buttons->addWidget(one);
    }
    buttons->addStretch();
    column_->setContentsMargins(0, 0, 0, 0);
    column_->setSpacing(8);
    column_->addWidget(heading);
    column_->addWidget(explanation);
    column_->addWidget(choice_, 0, Qt::AlignLeft);
    column_->addWidget(page_);
    column_->addWidget(source_);
    column_->addLayout(buttons);
}

void MaterialsPart::refresh() {
    all_ = materialsOf(book_.log());
    {
        const QSignalBlocker quiet{choice_};
        const QString before = choice_->currentData().toString();
        choice_->clear();
        for (const Material& material : all_.all()) {
            const QString name = words::text(material.name);
            const QString shown = !material.ofTheGroup  ? name
                                  : isPrinted(material) ? tr("%1 (changed here)").arg(name)
                                                        : tr("%1 (our own)").arg(name);
            choice_->addItem(shown, words::text(material.id));
        }
        choice_->setCurrentIndex(std::max(0, choice_->findData(before)));
    }
    add_->setEnabled(!book_.isReadOnly());
    change_->setEnabled(!book_.isReadOnly());
    takeBack_->setEnabled(!book_.isReadOnly());
    showChosen();
}

const Material* MaterialsPart::chosen() const {
    const std::string id = words::utf8(choice_->currentData().toString());
    const auto found = std::ranges::find(all_.all(), id, &Material::id);
    return found == all_.all().end() ? nullptr : &*found;
}

void MaterialsPart::showChosen() {
    const Material* material = chosen();
    if (material == nullptr) {
        return;
    }
    const bool printed = isPrinted(*material);
    page_->setText(materialPage(*material, printed));
    source_->setText(materialSource(*material));
    takeBack_->setVisible(material->ofTheGroup);
    takeBack_->setText(printed ? tr("Back to the printed figures…") : tr("Remove…"));
}

void MaterialsPart::begin(std::optional<Material> changed) {
    auto* form = new OwnMaterialForm{all_, std::move(changed), [this](const Material& m) { return keep(m); }, this};
    form->beginIn(column_, form_, [this] { choice_->setFocus(); });
}

std::vector<Material> MaterialsPart::own() const {
    std::vector<Material> own;
    std::ranges::copy_if(all_.all(), std::back_inserter(own), &Material::ofTheGroup);
    return own;
}

bool MaterialsPart::keep(const Material& material) {
    auto all = own();
    const auto same = std::ranges::find(all, material.id, &Material::id);
    if (same == all.end()) {
        all.push_back(material);
    } else {
        *same = material;
    }
    if (!store(all, words::text(material.name))) {
        return false;
    }
    choice_->setCurrentIndex(choice_->findData(words::text(material.id)));
    return true;
}

void MaterialsPart::takeBack() {
    const Material* material = chosen();
    if (material == nullptr) {
        return;
    }
    const Material gone = *material;
    const QString name = words::text(gone.name);
    auto left = own();
    std::erase_if(left, [&](const Material& m) { return m.id == gone.id; });
    if (store(left, isPrinted(gone) ? tr("%1, the printed figures again").arg(name) : tr("%1 removed").arg(name))) {
        choice_->setFocus();
    }
}

bool MaterialsPart::store(const std::vector<Material>& own, const QString& label) {
    const QString table = own.empty() ? QString{} : words::text(tableOf(own));
    return book_.changeSetting(setting::materials, table, label);
}

}  // namespace midden::ui
