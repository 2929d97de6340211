// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/setup/own_material_form.h"

#include <QComboBox>
#include <QLineEdit>

namespace midden::ui {

OwnMaterialForm::OwnMaterialForm(Materials all, std::optional<Material> changed, Keep keep, QWidget* parent)
    : ExplainedForm{changed ? tr("Change the figures of a material") : tr("A material of the group’s own"),
                    tr("&Save this material"), parent},
      all_{std::move(all)},
      changed_{std::move(changed)} {
    addLead(tr("Write a figure alone, 80, or with its usual range, 80 (48–150). Leave out what nobody knows: it is "
               "then said to be unknown, never guessed."),
            {});
    build();
    connect(this, &ExplainedForm::typed, this, &OwnMaterialForm::explain);
    onSave([this, keep = std::move(keep)] { return save(keep); });
    explain();
}

void OwnMaterialForm::build() {
    name_ = addLine("materialName", tr("Name"), 32);
    moisture_ = addLine("materialMoisture", tr("Moisture, % of the wet mass"), 16);
    ratio_ = addLine("materialRatio", tr("C:N"), 16);
    nitrogen_ = addLine("materialNitrogen", tr("Nitrogen, % of the dry mass"), 16);
    bulk_ = addLine("materialBulk", tr("Weight of a cubic metre, kg"), 16);
    raw_ = addChoice("materialRaw", tr("It is"), {tr("raw"), tr("not raw: clean bulking agent or finished heap")});
    kitchen_ = addChoice("materialKitchen", tr("and comes from"), {tr("garden or elsewhere"), tr("the kitchen")});
    source_ = addLine("materialSource", tr("Where the figures come from"), 44);
    if (!changed_) {
        return;
    }
    const MaterialDraft draft = draftOf(*changed_);
    name_->setText(draft.name);
    name_->setReadOnly(true);  // a new name would be another material to every batch that has it
    moisture_->setText(draft.moisture);
    ratio_->setText(draft.carbonNitrogen);
    nitrogen_->setText(draft.nitrogen);
    bulk_->setText(draft.bulk);
    raw_->setCurrentIndex(draft.raw ? 0 : 1);
    kitchen_->setCurrentIndex(draft.kitchen ? 1 : 0);
    source_->setText(draft.source);
}

MaterialReading OwnMaterialForm::reading() const {
    return readMaterial({name_->text(), moisture_->text(), ratio_->text(), nitrogen_->text(), bulk_->text(),
                         raw_->currentIndex() == 0, kitchen_->currentIndex() == 1, source_->text()},
                        changed_, all_);
}

void OwnMaterialForm::explain() {
    const MaterialReading read = reading();
    for (const auto& [line, field] : {std::pair{name_, MaterialField::name},
                                      {moisture_, MaterialField::moisture},
                                      {ratio_, MaterialField::carbonNitrogen},
                                      {nitrogen_, MaterialField::nitrogen},
                                      {bulk_, MaterialField::bulk}}) {
        const auto wrong = read.wrong.find(field);
        remark(line, wrong == read.wrong.end() ? QString{} : wrong->second);
    }
}

QString OwnMaterialForm::save(const Keep& keep) {
    const MaterialReading read = reading();
    if (read.material) {
        return keep(*read.material) ? QString{} : tr("The book could not take it; see the line at the top.");
    }
    return read.wrong.empty() ? tr("Not saved: it needs a name.")
                              : tr("Not saved: what stands beside the fields has to be put right first.");
}

}  // namespace midden::ui
