// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/criteria/json_fields.h"

#include <fmt/core.h>

namespace midden {

using nlohmann::json;

JsonFields::JsonFields(const json& object, std::string where) : object_{object}, where_{std::move(where)} {
    if (!object_.is_object()) {
        throw RefusedField{{fmt::format("{}: found {}", where_, object_.dump()), "an object in braces"}};
    }
}

const json& JsonFields::take(const std::string& name) {
    taken_.insert(name);
    const auto found = object_.find(name);
    if (found == object_.end()) {
        refuseObject(fmt::format("field \"{}\" is missing", name), fmt::format("a field \"{}\"", name));
    }
    return *found;
}

std::string JsonFields::text(const std::string& name) {
    const auto& value = take(name);
    if (!value.is_string() || value.get_ref<const std::string&>().empty()) {
        refuse(name, "words in quotation marks");
    }
    return value.get<std::string>();
}

std::string JsonFields::optionalText(const std::string& name) {
    return has(name) ? text(name) : "";
}

bool JsonFields::optionalFlag(const std::string& name) {
    if (!has(name)) {
        return false;
    }
    const auto& value = take(name);
    if (!value.is_boolean()) {
        refuse(name, "true or false");
    }
    return value.get<bool>();
}

double JsonFields::number(const std::string& name, double least, double most) {
    const auto& value = take(name);
    if (!value.is_number() || value.get<double>() < least || value.get<double>() > most) {
        refuse(name, fmt::format("a number from {} to {}", least, most));
    }
    return value.get<double>();
}

void JsonFields::list(const std::string& name, const std::function<void(const json&, int)>& read) {
    const auto& value = take(name);
    if (!value.is_array() || value.empty()) {
        refuse(name, "a list in square brackets with at least one entry");
    }
    int number = 0;
    for (const auto& element : value) {
        read(element, ++number);
    }
}

JsonFields JsonFields::object(const std::string& name) {
    return {take(name), fmt::format("{}, {}", where_, name)};
}

void JsonFields::finish() const {
    for (const auto& [name, value] : object_.items()) {
        if (!taken_.contains(name)) {
            refuseObject(fmt::format("field \"{}\" is not known", name), "only the fields of the format");
        }
    }
}

void JsonFields::refuse(const std::string& name, const std::string& expected) const {
    refuseObject(
        fmt::format("{}: found {}", name, object_.at(name).dump(-1, ' ', false, json::error_handler_t::replace)),
        expected);
}

void JsonFields::refuseObject(const std::string& wrong, const std::string& expected) const {
    throw RefusedField{{fmt::format("{}: {}", where_, wrong), expected}};
}

}  // namespace midden
