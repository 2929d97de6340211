// SPDX-License-Identifier: GPL-3.0-or-later
#include <fmt/core.h>

#include <algorithm>
#include <map>
#include <stdexcept>

#include "core/criteria/criteria_json.h"
#include "core/criteria/criteria_text.h"
#include "core/criteria/information.h"
#include "core/criteria/json_fields.h"
#include "core/criteria/step_reader.h"
#include "core/quantities/json_text.h"

namespace midden {

namespace {

using nlohmann::json;

constexpr const char* format = "middenbook.criteria/1";

bool isName(const std::string& id) {
    return !id.empty() && id.find_first_not_of("abcdefghijklmnopqrstuvwxyz0123456789-") == std::string::npos;
}

std::string readId(JsonFields& fields) {
    auto id = fields.text("id");
    if (!isName(id)) {
        fields.refuse("id", "small letters, digits and hyphens");
    }
    return id;
}

Condition readCondition(JsonFields fields) {
    Condition condition;
    condition.id = readId(fields);
    condition.words = fields.text("words");
    if (fields.has("carbon_nitrogen")) {
        auto band = fields.object("carbon_nitrogen");
        condition.carbonNitrogen = CarbonNitrogenBand{band.number("least", 1, 1'000), band.number("most", 1, 1'000)};
        if (condition.carbonNitrogen->least > condition.carbonNitrogen->most) {
            band.refuse("most", "no less than \"least\"");
        }
        band.finish();
    }
    fields.finish();
    return condition;
}

std::vector<Condition> readConditions(JsonFields& fields) {
    std::vector<Condition> conditions;
    if (fields.has("conditions")) {
        fields.list("conditions", [&](const json& element, int number) {
            conditions.push_back(readCondition({element, fmt::format("{}, condition {}", fields.where(), number)}));
        });
    }
    return conditions;
}

Alternative readAlternative(JsonFields fields) {
    Alternative alternative;
    alternative.title = fields.text("title");
    fields.list("steps", [&](const json& element, int number) {
        alternative.steps.push_back(
            readStep({element, fmt::format("{}, step {}", fields.where(), number)}, alternative.steps));
    });
    alternative.conditions = readConditions(fields);
    fields.finish();
    return alternative;
}

Citation readCitation(JsonFields fields) {
    Citation source;
    source.document = fields.text("document");
    source.section = fields.optionalText("section");
    source.checked = fields.text("checked");
    source.known = fields.optionalText("known");
    if (!source.known.empty() && source.known != "opened" && source.known != "quoted" && source.known != "part") {
        fields.refuse("known", "opened, quoted or part");
    }
    source.fromMemory = fields.optionalFlag("from_memory");
    fields.finish();
    return source;
}

Criterion readCriterion(const json& element, const std::string& where) {
    JsonFields fields{element, where};
    Criterion criterion;
    criterion.id = readId(fields);
    JsonFields named{element, fmt::format("criterion \"{}\"", criterion.id)};
    named.text("id");
    criterion.title = named.text("title");
    criterion.jurisdiction = named.text("jurisdiction");
    criterion.source = readCitation(named.object("source"));
    criterion.scope = named.text("scope");
    criterion.method = named.text("method");
    named.list("alternatives", [&](const json& alternative, int number) {
        criterion.alternatives.push_back(
            readAlternative({alternative, fmt::format("{}, alternative {}", named.where(), number)}));
    });
    criterion.conditions = readConditions(named);
    criterion.note = named.optionalText("note");
    named.finish();
    return criterion;
}

Information readOneInformation(JsonFields fields) {
    Information row;
    row.id = readId(fields);
    row.title = fields.text("title");
    row.jurisdiction = fields.text("jurisdiction");
    row.source = readCitation(fields.object("source"));
    row.scope = fields.text("scope");
    fields.list("says", [&](const json& sentence, int number) {
        if (!sentence.is_string() || sentence.get_ref<const std::string&>().empty()) {
            fields.refuse("says", fmt::format("a sentence in place {}", number));
        }
        row.says.push_back(sentence.get<std::string>());
    });
    fields.finish();
    return row;
}

std::vector<Information> readInformation(JsonFields& fields) {
    std::vector<Information> rows;
    if (fields.has("information")) {
        fields.list("information", [&](const json& element, int number) {
            rows.push_back(readOneInformation({element, fmt::format("information {}", number)}));
            const auto same =
                std::count_if(rows.begin(), rows.end(), [&](const auto& r) { return r.id == rows.back().id; });
            if (same > 1) {
                throw RefusedField{{fmt::format("information \"{}\" is there twice", rows.back().id), "one row an id"}};
            }
        });
    }
    return rows;
}

/// One id, one question: the steward's answer counts wherever the id stands.
void checkConditions(const std::vector<Criterion>& criteria) {
    std::map<std::string, std::string> words;
    const auto check = [&](const Criterion& criterion, const std::vector<Condition>& conditions) {
        for (const auto& condition : conditions) {
            const auto [known, isNew] = words.emplace(condition.id, condition.words);
            if (known->second != condition.words) {
                throw RefusedField{{fmt::format("criterion \"{}\", condition \"{}\": found \"{}\"", criterion.id,
                                                condition.id, condition.words),
                                    fmt::format("the words this condition has elsewhere, \"{}\"", known->second)}};
            }
        }
    };
    for (const auto& criterion : criteria) {
        check(criterion, criterion.conditions);
        for (const auto& alternative : criterion.alternatives) {
            check(criterion, alternative.conditions);
        }
    }
}

void checkId(const Criterion& criterion, const std::vector<Criterion>& others) {
    const bool taken = criterion.id == "target" ||
                       std::any_of(others.begin(), others.end(), [&](const auto& c) { return c.id == criterion.id; });
    if (taken) {
        throw RefusedField{{fmt::format("criterion \"{}\": the id is taken", criterion.id), "an id of its own"}};
    }
}

std::vector<Criterion> readFile(const json& root) {
    JsonFields fields{root, "criteria"};
    if (fields.text("format") != format) {
        fields.refuse("format", fmt::format("\"{}\"", format));
    }
    fields.optionalText("$schema");
    fields.optionalText("about");
    if (fields.has("left_out")) {
        fields.list("left_out", [&](const json& element, int number) {
            JsonFields entry{element, fmt::format("criteria, left_out {}", number)};
            readId(entry);
            entry.text("rule");
            entry.text("reason");
            entry.finish();
        });
    }
    std::vector<Criterion> criteria;
    fields.list("criteria", [&](const json& element, int number) {
        auto criterion = readCriterion(element, fmt::format("criterion {}", number));
        checkId(criterion, criteria);
        criteria.push_back(std::move(criterion));
    });
    const auto information = readInformation(fields);
    fields.finish();
    for (const auto& row : information) {
        if (std::any_of(criteria.begin(), criteria.end(), [&](const auto& c) { return c.id == row.id; })) {
            throw RefusedField{{fmt::format("information \"{}\": the id is taken", row.id), "an id of its own"}};
        }
    }
    checkConditions(criteria);
    return criteria;
}

/// What `read` makes of the text, or why it is refused.
template <class Read>
auto parsed(std::string_view text, const Read& read) -> Result<decltype(read(json{}))> {
    const auto root = readJson(text);
    if (!root) {
        return tl::unexpected{root.error()};
    }
    try {
        return read(*root);
    } catch (const RefusedField& refusal) {
        return tl::unexpected{refusal.problem};
    }
}

}  // namespace

Result<std::vector<Criterion>> parseCriteria(std::string_view text) {
    return parsed(text, readFile);
}

Result<std::vector<Information>> parseInformation(std::string_view text) {
    return parsed(text, [](const json& root) {
        JsonFields fields{root, "criteria"};
        return readInformation(fields);
    });
}

const std::vector<Information>& shippedInformation() {
    static const auto shipped = [] {
        auto rows = parseInformation(criteriaText());
        if (!rows) {
            throw std::logic_error{"resources/criteria.json: " + rows.error().sentence()};
        }
        return *std::move(rows);
    }();
    return shipped;
}

const Information* informationOf(std::string_view id) {
    const auto& all = shippedInformation();
    const auto found = std::find_if(all.begin(), all.end(), [&](const Information& row) { return row.id == id; });
    return found == all.end() ? nullptr : &*found;
}

Result<Criterion> parseGroupCriterion(std::string_view text) {
    return parsed(text, [](const json& root) {
        auto all = shippedCriteria();
        auto criterion = readCriterion(root, "criterion");
        checkId(criterion, all);
        criterion.ofTheGroup = true;
        all.push_back(criterion);
        checkConditions(all);
        return criterion;
    });
}

const std::vector<Criterion>& shippedCriteria() {
    static const auto shipped = [] {
        auto criteria = parseCriteria(criteriaText());
        if (!criteria) {
            throw std::logic_error{"resources/criteria.json: " + criteria.error().sentence()};
        }
        return *std::move(criteria);
    }();
    return shipped;
}

}  // namespace midden
