// SPDX-License-Identifier: GPL-3.0-or-later
#pragma once

#include <optional>
#include <vector>

namespace midden {

/// A linear programme, solved by GLPK: the least cost·x over all x between their limits with every row between its own.
/// The same programme always gives the same answer.
class LinearProgramme {
  public:
    static constexpr double unlimited = 1e300;

    struct Column {
        double low = 0;
        double high = unlimited;
        double cost = 0;
        bool yesOrNo = false;  ///< only 0 or 1; the limits do not matter then
    };
    struct Row {
        std::vector<double> factors;  ///< one for each column
        double low = -unlimited;
        double high = unlimited;
    };

    void add(const Column& column) { columns_.push_back(column); }
    void add(Row row) { rows_.push_back(std::move(row)); }
    void setCost(std::size_t column, double cost) { columns_[column].cost = cost; }

    /// The best x; no value when no x keeps to all limits, or when the cost has no least.
    std::optional<std::vector<double>> solve() const;

  private:
    std::vector<Column> columns_;
    std::vector<Row> rows_;
};

}  // namespace midden
