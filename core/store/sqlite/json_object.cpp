// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/sqlite/json_object.h"

#include <sqlite3.h>

#include <nlohmann/json.hpp>

namespace midden {

namespace {

using Json = nlohmann::ordered_json;

std::string textOf(sqlite3_value* value) {
    const auto* bytes = static_cast<const char*>(sqlite3_value_blob(value));
    return bytes == nullptr ? std::string{} : std::string{bytes, static_cast<std::size_t>(sqlite3_value_bytes(value))};
}

Json jsonOf(sqlite3_value* value) {
    switch (sqlite3_value_type(value)) {
        case SQLITE_INTEGER:
            return sqlite3_value_int64(value);
        case SQLITE_FLOAT:
            return sqlite3_value_double(value);
        case SQLITE_NULL:
            return nullptr;
        default:
            return textOf(value);
    }
}

void jsonObject(sqlite3_context* context, int count, sqlite3_value** values) {
    try {
        Json object = Json::object();
        for (int i = 0; i + 1 < count; i += 2) {
            object[textOf(values[i])] = jsonOf(values[i + 1]);
        }
        const auto text = object.dump(-1, ' ', false, Json::error_handler_t::replace);
        sqlite3_result_text64(context, text.data(), text.size(), SQLITE_TRANSIENT, SQLITE_UTF8);
    } catch (const std::exception& error) {
        sqlite3_result_error(context, error.what(), -1);
    }
}

}  // namespace

void provideJsonObject(DatabaseFile& file) {
    file.expectDone(sqlite3_create_function(file.handle(), "json_object", -1,
                                            SQLITE_UTF8 | SQLITE_DETERMINISTIC | SQLITE_INNOCUOUS, nullptr, jsonObject,
                                            nullptr, nullptr));
}

}  // namespace midden
