// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/quantities/json_text.h"

#include <algorithm>

namespace midden {

namespace {

struct Extent {
    std::size_t depth = 0;
    std::size_t values = 1;
};

/// How far a text would go if it is JSON, found without building anything. Up to its first mistake, at which reading
/// ends as well, what is inside quotation marks here is inside them for every reader.
Extent extentOf(std::string_view text) {
    Extent extent;
    std::size_t open = 0;
    bool quoted = false;
    for (std::size_t i = 0; i < text.size(); ++i) {
        const char c = text[i];
        if (quoted) {
            i += c == '\\' ? 1 : 0;
            quoted = c != '"';
        } else if (c == '"') {
            quoted = true;
        } else if (c == '[' || c == '{') {
            extent.depth = std::max(extent.depth, ++open);
            ++extent.values;
        } else if (c == ']' || c == '}') {
            open -= open > 0 ? 1 : 0;
        } else if (c == ',') {
            ++extent.values;
        }
    }
    return extent;
}

}  // namespace

Result<nlohmann::json> readJson(std::string_view text) {
    if (text.size() > longestJson) {
        return refused("the text is too long", "JSON of at most 64 MiB");
    }
    const auto extent = extentOf(text);
    if (extent.depth > deepestJson) {
        return refused("the text is nested too deep", "JSON of at most 32 levels");
    }
    if (extent.values > mostValuesOfJson) {
        return refused("the text holds too much", "JSON of at most 100000 values");
    }
    try {
        return nlohmann::json::parse(text);
    } catch (const nlohmann::json::exception& error) {
        return refused(std::string{"the text is not JSON: "} + error.what(), "JSON");
    }
}

}  // namespace midden
