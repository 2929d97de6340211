// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/recipe/linear_programme.h"

#include <glpk.h>

#include <algorithm>
#include <cmath>
#include <memory>

namespace midden {
namespace {

struct Deleter {
    void operator()(glp_prob* problem) const { glp_delete_prob(problem); }
};
using Problem = std::unique_ptr<glp_prob, Deleter>;

int kindOfLimits(double low, double high) {
    if (low <= -LinearProgramme::unlimited) {
        return high >= LinearProgramme::unlimited ? GLP_FR : GLP_UP;
    }
    if (high >= LinearProgramme::unlimited) {
        return GLP_LO;
    }
    return low == high ? GLP_FX : GLP_DB;
}

void addColumn(glp_prob* problem, const LinearProgramme::Column& column) {
    const int index = glp_add_cols(problem, 1);
    glp_set_obj_coef(problem, index, column.cost);
    if (column.yesOrNo) {
        glp_set_col_kind(problem, index, GLP_BV);
    } else {
        glp_set_col_bnds(problem, index, kindOfLimits(column.low, column.high), column.low, column.high);
    }
}

/// Rows are scaled so that their largest factor is 1: GLPK's tolerances are absolute.
void addRow(glp_prob* problem, const LinearProgramme::Row& row) {
    double largest = 0;
    for (const double factor : row.factors) {
        largest = std::max(largest, std::abs(factor));
    }
    const double scale = largest > 0 ? 1 / largest : 1;
    std::vector<int> columns{0};  // GLPK counts from 1
    std::vector<double> factors{0};
    for (std::size_t i = 0; i < row.factors.size(); ++i) {
        if (row.factors[i] != 0) {
            columns.push_back(static_cast<int>(i) + 1);
            factors.push_back(row.factors[i] * scale);
        }
    }
    const auto limit = [&](double value) {
        return std::abs(value) >= LinearProgramme::unlimited ? value : value * scale;
    };
    const int index = glp_add_rows(problem, 1);
    glp_set_mat_row(problem, index, static_cast<int>(columns.size()) - 1, columns.data(), factors.data());
    glp_set_row_bnds(problem, index, kindOfLimits(row.low, row.high), limit(row.low), limit(row.high));
}

/// On programmes that are only just feasible floating point may walk in circles; a recipe takes a dozen steps. Then the
/// same is done in exact fractions.
bool solveContinuous(glp_prob* problem) {
    glp_smcp how{};
    glp_init_smcp(&how);
    how.msg_lev = GLP_MSG_OFF;
    how.tol_bnd = 1e-9;
    how.tol_dj = 1e-9;
    how.it_lim = 500;
    glp_std_basis(problem);
    if (glp_simplex(problem, &how) != 0) {
        glp_std_basis(problem);
        if (glp_exact(problem, &how) != 0) {
            return false;
        }
    }
    return glp_get_status(problem) == GLP_OPT;
}

bool solveWithChoices(glp_prob* problem) {
    glp_iocp how{};
    glp_init_iocp(&how);
    how.msg_lev = GLP_MSG_OFF;
    how.tol_int = 1e-9;
    how.tm_lim = 5'000;  // milliseconds; a recipe takes a few
    return solveContinuous(problem) && glp_intopt(problem, &how) == 0 && glp_mip_status(problem) == GLP_OPT;
}

}  // namespace

std::optional<std::vector<double>> LinearProgramme::solve() const {
    glp_term_out(GLP_OFF);
    const Problem problem{glp_create_prob()};
    glp_set_obj_dir(problem.get(), GLP_MIN);
    for (const Column& column : columns_) {
        addColumn(problem.get(), column);
    }
    for (const Row& row : rows_) {
        addRow(problem.get(), row);
    }
    const bool choices = std::ranges::any_of(columns_, &Column::yesOrNo);
    if (!(choices ? solveWithChoices(problem.get()) : solveContinuous(problem.get()))) {
        return std::nullopt;
    }
    std::vector<double> found;
    for (int i = 1; i <= static_cast<int>(columns_.size()); ++i) {
        found.push_back(choices ? glp_mip_col_val(problem.get(), i) : glp_get_col_prim(problem.get(), i));
    }
    return found;
}

}  // namespace midden
