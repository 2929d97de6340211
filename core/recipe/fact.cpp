// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/recipe/fact.h"

#include <algorithm>
#include <charconv>
#include <stdexcept>

#include "core/recipe/material_table.h"
#include "core/recipe/resources.h"

namespace midden {
namespace {

std::vector<TradeFact> readFacts(std::string_view table) {
    std::vector<TradeFact> facts;
    for (const auto line : linesOf(table)) {
        const auto fields = fieldsOf(line, ';');
        if (fields.size() != 7) {
            throw std::logic_error{"resources/facts.csv: seven fields a line"};
        }
        TradeFact fact{std::string{fields[0]}, 0,
                       std::string{fields[2]}, std::string{fields[3]},
                       std::string{fields[4]}, std::string{fields[5]},
                       std::string{fields[6]}};
        std::from_chars(fields[1].data(), fields[1].data() + fields[1].size(), fact.value);
        facts.push_back(std::move(fact));
    }
    facts.erase(facts.begin());  // the header
    return facts;
}

}  // namespace

const std::vector<TradeFact>& tradeFacts() {
    static const std::vector<TradeFact> facts = readFacts(resources::factsTable());
    return facts;
}

const TradeFact& tradeFact(std::string_view id) {
    const auto& all = tradeFacts();
    const auto found = std::ranges::find(all, id, &TradeFact::id);
    if (found == all.end()) {
        throw std::logic_error{"resources/facts.csv has no fact " + std::string{id}};
    }
    return *found;
}

}  // namespace midden
