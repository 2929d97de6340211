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

/// Lower case, single spaces, without a plural s at the end.
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
    if (key.size() > 3 && key.ends_with('s') && !key.ends_with("ss")) {
        key.pop_back();
    }
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
    const auto exact = std::ranges::find_if(all_, [&](const Material& m) { return lookupKey(m.name) == key; });
    if (exact != all_.end()) {
        return &*exact;
    }
    const auto known = std::ranges::find_if(all_, [&](const Material& m) { return answersTo(m, key); });
    return known == all_.end() ? nullptr : &*known;
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

const Materials& builtInMaterials() {
    static const Materials materials = Materials::parse(resources::materialsTable()).value();
    return materials;
}

bool isRaw(const Addition& addition, const Materials& materials) {
    if (addition.raw) {
        return *addition.raw;
    }
    const Material* material = materials.find(addition.material);
    return material == nullptr || material->raw;
}

}  // namespace midden
