// SPDX-License-Identifier: GPL-3.0-or-later
// Facts of the trade (resources/facts.csv): common practice without a source, each with what limits it. They explain
// figures in the help and beside them; nothing is judged by them.
#pragma once

#include <string>
#include <string_view>
#include <vector>

namespace midden {

struct TradeFact {
    std::string id;
    double value = 0;  ///< the figure the words speak of; 0 where there is none
    std::string unit;
    std::string words;
    std::string limits;  ///< what limits it, in words
    std::string source;
    std::string known;  ///< practice: common practice, no source
};

const std::vector<TradeFact>& tradeFacts();

/// The one of that id; throws std::logic_error when there is none.
const TradeFact& tradeFact(std::string_view id);

}  // namespace midden
