// SPDX-License-Identifier: GPL-3.0-or-later
// Reads the fields of one JSON object strictly: each by name, each once, none left over.
#pragma once

#include <functional>
#include <nlohmann/json.hpp>
#include <set>
#include <string>

#include "core/quantities/result.h"

namespace midden {

/// Thrown while reading a text of criteria and caught where the reading began.
struct RefusedField {
    Problem problem;
};

class JsonFields {
  public:
    /// `where` names the object in an error: "criterion \"us503-vessel\", alternative 1".
    JsonFields(const nlohmann::json& object, std::string where);

    bool has(const std::string& name) const { return object_.contains(name); }
    std::string text(const std::string& name);
    std::string optionalText(const std::string& name);
    bool optionalFlag(const std::string& name);
    /// A number in a range, both ends included.
    double number(const std::string& name, double least, double most);
    /// Calls `read` with each element and its number, counted from 1. The list must not be empty.
    void list(const std::string& name, const std::function<void(const nlohmann::json&, int)>& read);
    JsonFields object(const std::string& name);
    /// Refuses fields that nobody asked for.
    void finish() const;

    [[noreturn]] void refuse(const std::string& name, const std::string& expected) const;
    [[noreturn]] void refuseObject(const std::string& wrong, const std::string& expected) const;
    const std::string& where() const { return where_; }

  private:
    const nlohmann::json& take(const std::string& name);

    const nlohmann::json& object_;
    std::string where_;
    std::set<std::string> taken_;
};

}  // namespace midden
