// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/read/book_rules.h"
#include "tests/ui/setup/shown_setup.h"
#include "ui/setup/own_material.h"

using namespace midden;
using namespace midden::testing;
using ui::MaterialDraft;
using ui::MaterialField;

namespace {

MaterialDraft hops() {
    return {"Spent hops", "75", "15 (10–20)", "3", "300", true, false, "Told by the brewery"};
}

const Material& straw() {
    return *builtInMaterials().find("straw");
}

void choose(const ShownSetup& shown, const char* id) {
    auto* choice = shown.field<QComboBox>("materialChoice");
    choice->setCurrentIndex(choice->findData(QString{id}));
}

}  // namespace

TEST_CASE("a material of the group's own is typed and saved and known to the book") {
    const NoQtWarnings quiet;
    ShownSetup shown;
    shown.press("addMaterial");
    CHECK(shown.here() == "materialName");
    shown.typeHere("Spent hops");
    shown.tab();
    shown.typeHere("75");
    shown.type("materialRatio", "15 (10-20)");
    shown.type("materialNitrogen", "3");
    shown.type("materialBulk", "300");
    shown.type("materialSource", "The brewery; by telephone");
    shown.picture("material-form");
    shown.enter();
    const Materials all = materialsOf(shown.book.log());
    const Material* kept = all.find("spent hops");
    REQUIRE(kept != nullptr);
    CHECK(kept->ofTheGroup);
    CHECK(kept->carbonNitrogen == Estimate{15, {10, 20}, true});
    CHECK(kept->source == "The brewery, by telephone");
    CHECK(shown.words("materialPage").contains("The group’s own."));
    shown.picture("material-saved");
}

TEST_CASE("changed figures are marked and the printed ones come back") {
    const NoQtWarnings quiet;
    ShownSetup shown;
    choose(shown, "straw");
    CHECK(shown.words("materialPage").contains("80 (48–150)"));
    CHECK(shown.button("takeBackMaterial") == nullptr);
    shown.press("changeMaterial");
    shown.type("materialRatio", "100");
    shown.enter();
    CHECK(materialsOf(shown.book.log()).find("straw")->carbonNitrogen->typical == 100);
    CHECK(shown.field<QComboBox>("materialChoice")->currentText() == "Straw (changed here)");
    CHECK(shown.words("materialPage").contains("Changed in this book."));
    shown.press("takeBackMaterial");
    CHECK(*materialsOf(shown.book.log()).find("straw") == straw());
    shown.book.undoStack().undo();
    CHECK(materialsOf(shown.book.log()).find("straw")->carbonNitrogen->typical == 100);
}

TEST_CASE("what is typed of a material is read or refused beside its field") {
    CHECK(ui::readMaterial(hops(), {}, builtInMaterials()).material.has_value());
    const auto wrong = [](const MaterialDraft& typed) { return ui::readMaterial(typed, {}, builtInMaterials()).wrong; };
    MaterialDraft draft = hops();
    draft.name = "straw";
    CHECK(wrong(draft).contains(MaterialField::name));
    draft = hops();
    draft.name = "a;b";
    CHECK(wrong(draft).contains(MaterialField::name));
    draft = hops();
    draft.moisture = "101";
    CHECK(wrong(draft).contains(MaterialField::moisture));
    draft = hops();
    draft.carbonNitrogen = "15 (16-20)";
    CHECK(wrong(draft).contains(MaterialField::carbonNitrogen));
    draft = hops();
    draft.carbonNitrogen = "0";
    CHECK(wrong(draft).contains(MaterialField::carbonNitrogen));
    draft = hops();
    draft.nitrogen = "9";  // 9 % at 15 : 1 is 135 % carbon
    CHECK(wrong(draft).contains(MaterialField::nitrogen));
    draft = hops();
    draft.bulk = "heavy";
    CHECK(wrong(draft).contains(MaterialField::bulk));
    draft = hops();
    draft.name = " ";
    CHECK_FALSE(ui::readMaterial(draft, {}, builtInMaterials()).material);
}

TEST_CASE("what nobody knows of a material stays unknown") {
    MaterialDraft draft = hops();
    draft.bulk.clear();
    draft.nitrogen.clear();
    const auto read = ui::readMaterial(draft, {}, builtInMaterials());
    REQUIRE(read.material);
    CHECK_FALSE(read.material->bulkDensity);
    CHECK_FALSE(read.material->nitrogenPercent);
    CHECK(ui::materialPage(*read.material, false).contains("not known"));
}

TEST_CASE("a listed material is the same after its figures went through the form") {
    for (const Material& material : builtInMaterials().all()) {
        const auto read = ui::readMaterial(ui::draftOf(material), material, builtInMaterials());
        INFO(material.name);
        REQUIRE(read.material);
        CHECK((read.material->moisturePercent.has_value() == material.moisturePercent.has_value()));
        CHECK((read.material->group == material.group && read.material->raw == material.raw));
        CHECK((!material.carbonNitrogen || read.material->carbonNitrogen->within == material.carbonNitrogen->within));
    }
}

TEST_CASE("each figure of a material says how it is known and its source is a click away") {
    const NoQtWarnings quiet;
    ShownSetup shown;
    choose(shown, "carrots");
    CHECK(shown.words("materialPage").contains("measured food table"));
    CHECK_FALSE(shown.words("materialPage").contains("11124"));
    auto* sources = shown.field<QLabel>("materialSources");
    CHECK_FALSE(sources->isVisible());
    shown.press("showMaterialSource");
    CHECK(sources->isVisible());
    CHECK(sources->text().contains("11124"));
    choose(shown, "straw");
    CHECK(shown.words("materialPage").contains("handbook, made to add up"));
    choose(shown, "tea-leaves");
    CHECK(shown.words("materialPage").contains("our estimate"));
    choose(shown, "eggs");
    CHECK(sources->text().contains("Its carbon is unusual: much of it is fat"));
    shown.picture("material-eggs");
}
