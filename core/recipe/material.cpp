// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/recipe/material.h"

#include <fmt/format.h>

#include <algorithm>
#include <ranges>
#include <set>

#include "core/recipe/material_table.h"
#include "core/recipe/resources.h"

namespace midden {
namespace {

char lowerCase(char c) {
    return c >= 'A' && c <= 'Z' ? static_cast<char>(c - 'A' + 'a') : c;
}

/// One of many, as English words go: berries, potatoes, radishes and boxes, carrots. Glass stays glass.
void makeSingular(std::string& word) {
    const auto cut = [&](std::size_t count, const char* instead) {
        word.resize(word.size() - count);
        word += instead;
    };
    if (word.size() <= 3 || !word.ends_with('s') || word.ends_with("ss")) {
        return;
    }
    if (word.ends_with("ies") && word.size() > 4) {
        cut(3, "y");
    } else if (word.ends_with("oes") || word.ends_with("shes") || word.ends_with("ches") || word.ends_with("xes") ||
               word.ends_with("sses")) {
        cut(2, "");
    } else {
        cut(1, "");
    }
}

/// Lower case, single spaces, its last word one of many.
std::string lookupKey(std::string_view name) {
    std::string key;
    for (const char c : name) {
        const bool space = c == ' ' || c == '\t' || c == '_';
        if (space && (key.empty() || key.back() == ' ')) {
            continue;
        }
        key += space ? ' ' : lowerCase(c);
    }
    while (key.ends_with(' ')) {
        key.pop_back();
    }
    makeSingular(key);
    return key;
}

bool answersTo(const Material& material, const std::string& key) {
    return lookupKey(material.name) == key || lookupKey(material.id) == key ||
           std::ranges::any_of(material.aliases, [&](const std::string& alias) { return lookupKey(alias) == key; });
}

}  // namespace

Result<Materials> Materials::parse(std::string_view table) {
    Materials materials;
    std::set<std::string> ids;
    int number = 0;
    for (const auto line : linesOf(table)) {
        ++number;
        if (number == 1 || line.empty()) {
            continue;
        }
        auto material = materialOf(fieldsOf(line, ';'));
        if (material && !ids.insert(material->id).second) {
            material = refused(fmt::format("\"{}\" is there twice", material->id), "one line a material");
        }
        if (!material) {
            return refused(fmt::format("materials, line {}: {}", number, material.error().wrong),
                           material.error().expected);
        }
        materials.all_.push_back(*material);
    }
    return materials;
}

const Material* Materials::find(std::string_view name) const {
    const std::string key = lookupKey(name);
    const auto isNamed = [&](const Material& m) { return lookupKey(m.name) == key; };
    const auto answers = [&](const Material& m) { return answersTo(m, key); };
    for (const bool own : {true, false}) {
        const auto ofThese = [own](const auto& test) {
            return [&test, own](const Material& m) { return m.ofTheGroup == own && test(m); };
        };
        if (const auto exact = std::ranges::find_if(all_, ofThese(isNamed)); exact != all_.end()) {
            return &*exact;
        }
        if (const auto known = std::ranges::find_if(all_, ofThese(answers)); known != all_.end()) {
            return &*known;
        }
    }
    return nullptr;
}

const Material* Materials::find(const Addition& addition) const {
    const bool isStored = !addition.id.digits.empty();
    return earlier_ && isStored && addition.when.at < since_ ? earlier_->find(addition.material)
                                                             : find(std::string_view{addition.material});
}

Materials Materials::with(const Materials& own) const {
    Materials both = *this;
    for (Material material : own.all_) {
        material.ofTheGroup = true;
        const auto same = std::ranges::find(both.all_, material.id, &Material::id);
        if (same != both.all_.end()) {
            *same = std::move(material);
        } else {
            both.all_.push_back(std::move(material));
        }
    }
    return both;
}

Materials Materials::withEarlier(const Materials& earlier, Instant since) const {
    Materials both = *this;
    both.earlier_ = std::make_shared<const Materials>(earlier);
    both.since_ = since;
    return both;
}

const Materials& builtInMaterials() {
    static const Materials materials = Materials::parse(resources::materialsTable()).value();
    return materials;
}

const Materials& earlierMaterials() {
    static const Materials materials = Materials::parse(resources::earlierMaterialsTable()).value();
    return materials;
}

bool isRaw(const Addition& addition, const Materials& materials) {
    if (addition.raw) {
        return *addition.raw;
    }
    const Material* material = materials.find(addition);
    return material == nullptr || material->raw;
}

}  // namespace midden
