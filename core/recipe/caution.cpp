// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/recipe/caution.h"

#include <algorithm>
#include <stdexcept>

#include "core/recipe/material_table.h"
#include "core/recipe/resources.h"

namespace midden {
namespace {

std::vector<Caution> readCautions(std::string_view table) {
    std::vector<Caution> cautions;
    for (const auto line : linesOf(table)) {
        const auto fields = fieldsOf(line, ';');
        if (fields.size() != 6) {
            throw std::logic_error{"resources/cautions.csv: six fields a line"};
        }
        Caution caution{std::string{fields[0]}, {}, std::string{fields[2]}, std::string{fields[3]},
                        std::string{fields[4]}, {}};
        for (const auto id : fieldsOf(fields[5], '|')) {
            caution.insteadOf.emplace_back(id);
        }
        for (const auto word : fieldsOf(fields[1], '|')) {
            caution.triggerWords.emplace_back(word);
        }
        cautions.push_back(std::move(caution));
    }
    cautions.erase(cautions.begin());  // the header
    return cautions;
}

/// " chicken bones raw ": lower case, every other character a space, so that whole words can be looked for.
std::string spacedWords(std::string_view name) {
    std::string words = " ";
    for (const char c : name) {
        const bool upper = c >= 'A' && c <= 'Z';
        const bool other = (c < 'a' || c > 'z') && !upper && static_cast<unsigned char>(c) < 128;
        words += other ? ' ' : upper ? static_cast<char>(c - 'A' + 'a') : c;
    }
    return words + " ";
}

}  // namespace

const std::vector<Caution>& builtInCautions() {
    static const std::vector<Caution> cautions = readCautions(resources::cautionsTable());
    return cautions;
}

std::vector<Caution> cautionsFor(std::string_view name, const Materials& materials) {
    const Material* material = materials.find(name);
    const std::string words = spacedWords(name);
    std::vector<Caution> due;
    for (const Caution& caution : builtInCautions()) {
        const bool listed =
            material != nullptr && std::ranges::find(material->cautions, caution.id) != material->cautions.end();
        const bool called = std::ranges::any_of(caution.triggerWords, [&](const std::string& word) {
            return words.find(" " + word + " ") != std::string::npos;
        });
        if (listed || called) {
            due.push_back(caution);
        }
    }
    const auto dueBefore = due;
    std::erase_if(due, [&](const Caution& one) {
        return std::ranges::any_of(dueBefore, [&](const Caution& other) {
            return std::ranges::find(other.insteadOf, one.id) != other.insteadOf.end();
        });
    });
    return due;
}

}  // namespace midden
