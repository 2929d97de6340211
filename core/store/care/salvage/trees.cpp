// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/care/salvage/trees.h"

#include <algorithm>
#include <map>
#include <set>

namespace midden::salvage {

namespace {

constexpr PageNumber schemaRoot = 1;

/// The rows of sqlite_schema: kind, name, table, root page, SQL.
TreeShape schemaShape() {
    const ColumnShape words{.mayBeText = true};
    return {
        "sqlite_schema",
        "",
        schemaRoot,
        false,
        {words, words, words, {.mayBeNothing = true, .mayBeWhole = true}, {.mayBeNothing = true, .mayBeText = true}}};
}

class Finder {
  public:
    explicit Finder(const Pages& pages) : pages_{pages}, seen_(pages.count() + 1, false) {}

    /// Everything that hangs from `root`.
    TreeFind walk(const TreeShape& shape, PageNumber root, const TakeRow& take) {
        TreeFind find;
        std::vector<PageNumber> open{root};
        while (!open.empty()) {
            const PageNumber number = open.back();
            open.pop_back();
            const auto page = isFresh(number) ? treePage(pages_, number) : std::nullopt;
            if (!page || page->isIndex() != shape.isIndex || !suits(*page, shape)) {
                ++find.unreadablePages;
                continue;
            }
            seen_[number] = true;
            const auto below = takeRows(*page, shape, take, find);
            open.insert(open.end(), below.begin(), below.end());
        }
        return find;
    }

    /// Pages that nothing leads to, where every row has the shape of a tree that lost pages.
    void gatherStrays(const std::vector<TreeShape>& shapes, std::vector<TreeFind>& finds, const TakeRow& take) {
        const auto free = pages_.freePages();
        const std::set<PageNumber> empty{free.begin(), free.end()};
        for (PageNumber number = 1; number <= pages_.count(); ++number) {
            const auto page = isFresh(number) && !empty.contains(number) ? treePage(pages_, number) : std::nullopt;
            if (!page || page->cells.empty() || page->kind == PageKind::tableInterior) {
                continue;
            }
            for (std::size_t i = 0; i < shapes.size(); ++i) {
                if (finds[i].isBroken() && shapes[i].isIndex == page->isIndex() && isPlainlyOf(*page, shapes[i])) {
                    seen_[number] = true;
                    ++finds[i].strayPages;
                    takeRows(*page, shapes[i], take, finds[i]);
                    break;
                }
            }
        }
    }

  private:
    bool isFresh(PageNumber number) const { return number >= 1 && number < seen_.size() && !seen_[number]; }

    /// Takes what the page holds, and tells which pages lie below it.
    std::vector<PageNumber> takeRows(const TreePage& page, const TreeShape& shape, const TakeRow& take,
                                     TreeFind& find) const {
        std::vector<PageNumber> below;
        find.leaves += page.kind == PageKind::tableInterior ? 0 : 1;
        for (const std::size_t at : page.cells) {
            Cell cell = cellAt(pages_, page, at);
            if (!page.isLeaf()) {
                below.push_back(cell.child);
            }
            if (!cell.mayHoldRow || shape.columns.empty()) {
                continue;
            }
            if (cell.row && shape.fit(*cell.row)) {
                ++find.rows;
                take(shape, std::move(*cell.row));
            } else {
                ++find.unreadableRows;
            }
        }
        if (!page.isLeaf()) {
            below.push_back(page.lastChild);
        }
        return below;
    }

    std::size_t fitting(const TreePage& page, const TreeShape& shape) const {
        return static_cast<std::size_t>(std::count_if(page.cells.begin(), page.cells.end(), [&](std::size_t at) {
            Cell cell = cellAt(pages_, page, at);
            return cell.row && shape.fit(*cell.row);
        }));
    }

    /// A page none of whose rows fits is another's, wherever it hangs.
    bool suits(const TreePage& page, const TreeShape& shape) const {
        return shape.columns.empty() || page.cells.empty() || page.kind == PageKind::tableInterior ||
               fitting(page, shape) > 0;
    }

    bool isPlainlyOf(const TreePage& page, const TreeShape& shape) const {
        return !shape.columns.empty() && fitting(page, shape) == page.cells.size() && !looksLikeAnother(page, shape);
    }

    /// Three whole numbers are a reading (the last is its value) or a stay or a row of an index (the last is a number
    /// given out one by one).
    bool looksLikeAnother(const TreePage& page, const TreeShape& shape) const {
        constexpr std::int64_t oneDegree = 10'000;
        if (shape.columns.size() != 3 || !shape.columns[1].mayBeWhole) {
            return false;
        }
        const auto large = std::count_if(page.cells.begin(), page.cells.end(), [&](std::size_t at) {
            const Cell cell = cellAt(pages_, page, at);
            const auto last = std::get<std::int64_t>(cell.row->values[2]);
            return last >= oneDegree || last <= -oneDegree;
        });
        const bool looksLikeReadings = 2 * static_cast<std::size_t>(large) >= page.cells.size();
        return looksLikeReadings != (shape.name == "reading");
    }

    const Pages& pages_;
    std::vector<bool> seen_;
};

/// Where each tree begins, as far as the file says so in the words of this program.
std::map<std::string, PageNumber> rootsOf(Finder& finder, const std::vector<TreeShape>& shapes) {
    std::map<std::string, PageNumber> roots;
    const std::vector<TreeShape> schema{schemaShape()};
    const auto take = [&](const TreeShape& /*schema*/, Row&& row) {
        const auto& name = std::get<std::string>(row.values[1]);
        const auto* root = std::get_if<std::int64_t>(&row.values[3]);
        const auto* sql = std::get_if<std::string>(&row.values[4]);
        for (const TreeShape& shape : shapes) {
            const bool same = shape.name == name && shape.text == (sql != nullptr ? *sql : "");
            if (same && root != nullptr && *root > 1 && *root <= UINT32_MAX) {
                roots[name] = static_cast<PageNumber>(*root);
            }
        }
    };
    std::vector<TreeFind> finds{finder.walk(schema[0], schemaRoot, take)};
    if (finds[0].isBroken()) {
        finder.gatherStrays(schema, finds, take);
    }
    return roots;
}

}  // namespace

std::size_t treesNamed(const Pages& pages, const std::vector<TreeShape>& shapes) {
    Finder finder{pages};
    return rootsOf(finder, shapes).size();
}

std::vector<TreeFind> findRows(const Pages& pages, const std::vector<TreeShape>& shapes, const TakeRow& take) {
    Finder finder{pages};
    const auto roots = rootsOf(finder, shapes);
    std::vector<TreeFind> finds;
    for (const TreeShape& shape : shapes) {
        // A tree the file no longer speaks of, or wrongly, most likely begins where it does in every new book.
        const auto told = roots.find(shape.name);
        const PageNumber root = told != roots.end() ? told->second : shape.root;
        auto find = finder.walk(shape, root, take);
        if (find.rows == 0 && find.isBroken() && root != shape.root) {
            find = finder.walk(shape, shape.root, take);
        }
        finds.push_back(find);
    }
    finder.gatherStrays(shapes, finds, take);
    return finds;
}

}  // namespace midden::salvage
