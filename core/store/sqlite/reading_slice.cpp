// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/sqlite/reading_slice.h"

#include <sqlite3.h>

#include <new>
#include <stdexcept>

namespace midden {

namespace {

constexpr const char* pointerType = "midden.reading_slice";

/// A page of a table filled in key order stays one eighth empty: SQLite evens out the last three pages whenever it
/// begins a new one. So every so many readings one is spared at first and put in afterwards, into that room.
constexpr std::size_t sparedEvery = 24;
/// Fewer readings than this are not worth a second statement.
constexpr std::size_t leastToSpare = 1'000;

/// Which readings of a slice a statement is to see.
struct SliceView {
    enum class Which { all, notSpared, spared };
    std::span<const RawReading> readings;
    Which which = Which::all;

    std::size_t first() const { return which == Which::spared ? sparedEvery - 1 : 0; }
    std::size_t after(std::size_t index) const {
        if (which == Which::spared) {
            return index + sparedEvery;
        }
        const bool nextIsSpared = which == Which::notSpared && (index + 2) % sparedEvery == 0;
        return index + (nextIsSpared ? 2 : 1);
    }
};

struct SliceCursor {
    sqlite3_vtab_cursor base;  // must be the first: SQLite knows only this part
    const SliceView* view;
    std::size_t index;
};

SliceCursor& cursorOf(sqlite3_vtab_cursor* cursor) {
    return *reinterpret_cast<SliceCursor*>(cursor);
}

/// The row's number is the instant of the reading, which SQLite asks for with less ado than for a column.
enum SliceColumn { raw, view };

// NOLINTNEXTLINE(readability-function-size): SQLite says what it hands over
int connect(sqlite3* database, void*, int, const char* const*, sqlite3_vtab** table, char**) {
    *table = new (std::nothrow) sqlite3_vtab{};
    if (*table == nullptr) {
        return SQLITE_NOMEM;
    }
    sqlite3_vtab_config(database, SQLITE_VTAB_DIRECTONLY);
    return sqlite3_declare_vtab(database, "CREATE TABLE slice(raw INTEGER, view HIDDEN)");
}

int disconnect(sqlite3_vtab* table) {
    delete table;
    return SQLITE_OK;
}

/// The view is always given; there is one way to read it, from front to back.
int planRead(sqlite3_vtab*, sqlite3_index_info* plan) {
    for (int i = 0; i < plan->nConstraint; ++i) {
        const auto& constraint = plan->aConstraint[i];
        if (constraint.iColumn == view && constraint.op == SQLITE_INDEX_CONSTRAINT_EQ && constraint.usable != 0) {
            plan->aConstraintUsage[i].argvIndex = 1;
            plan->aConstraintUsage[i].omit = 1;
            return SQLITE_OK;
        }
    }
    return SQLITE_CONSTRAINT;
}

int openCursor(sqlite3_vtab*, sqlite3_vtab_cursor** cursor) {
    auto* opened = new (std::nothrow) SliceCursor{};
    *cursor = opened == nullptr ? nullptr : &opened->base;
    return opened == nullptr ? SQLITE_NOMEM : SQLITE_OK;
}

int closeCursor(sqlite3_vtab_cursor* cursor) {
    delete &cursorOf(cursor);
    return SQLITE_OK;
}

int begin(sqlite3_vtab_cursor* cursor, int, const char*, int, sqlite3_value** arguments) {
    static constexpr SliceView nothing{};
    const auto* given = static_cast<const SliceView*>(sqlite3_value_pointer(*arguments, pointerType));
    auto& slice = cursorOf(cursor);
    slice.view = given == nullptr ? &nothing : given;
    slice.index = slice.view->first();
    return SQLITE_OK;
}

int moveOn(sqlite3_vtab_cursor* cursor) {
    auto& slice = cursorOf(cursor);
    slice.index = slice.view->after(slice.index);
    return SQLITE_OK;
}

int isAtEnd(sqlite3_vtab_cursor* cursor) {
    const auto& slice = cursorOf(cursor);
    return slice.index >= slice.view->readings.size() ? 1 : 0;
}

const RawReading& readingAt(sqlite3_vtab_cursor* cursor) {
    const auto& slice = cursorOf(cursor);
    return slice.view->readings[slice.index];
}

int giveColumn(sqlite3_vtab_cursor* cursor, sqlite3_context* into, int column) {
    if (column == raw) {
        sqlite3_result_int(into, readingAt(cursor).tenThousandths);
    }
    return SQLITE_OK;
}

int giveRow(sqlite3_vtab_cursor* cursor, sqlite3_int64* row) {
    *row = readingAt(cursor).at.utcSeconds;
    return SQLITE_OK;
}

sqlite3_module sliceModule() {
    sqlite3_module module{};
    module.xConnect = connect;
    module.xBestIndex = planRead;
    module.xDisconnect = disconnect;
    module.xOpen = openCursor;
    module.xClose = closeCursor;
    module.xFilter = begin;
    module.xNext = moveOn;
    module.xEof = isAtEnd;
    module.xColumn = giveColumn;
    module.xRowid = giveRow;
    return module;
}

/// While it lives, SQLite asks of no row whether its numbers are within range: that was looked at for the whole slice.
class RangesPaused {
  public:
    explicit RangesPaused(DatabaseFile& file) : file_{file} {
        sqlite3_exec(file_.handle(), "PRAGMA ignore_check_constraints = ON", nullptr, nullptr, nullptr);
    }
    RangesPaused(const RangesPaused&) = delete;
    RangesPaused& operator=(const RangesPaused&) = delete;
    ~RangesPaused() {
        sqlite3_exec(file_.handle(), "PRAGMA ignore_check_constraints = OFF", nullptr, nullptr, nullptr);
    }

  private:
    DatabaseFile& file_;
};

/// "OR FAIL" spares SQLite a journal of its own for this statement: what it has stored when it fails is undone with the
/// transaction around it.
void storeView(DatabaseFile& file, std::int64_t series, SliceView view) {
    Query insert{file, "INSERT OR FAIL INTO reading(series, at, raw) SELECT ?1, rowid, raw FROM reading_slice(?2)"};
    insert.add(series).addPointer(&view, pointerType).run();
}

/// The one look that stands for that of every row.
void expectSeries(DatabaseFile& file, std::int64_t series) {
    Query query{file, "SELECT 1 FROM series WHERE id = ?"};
    query.with(series);
    if (!query.next()) {
        throw std::logic_error{"readings of a series that is not in the book"};
    }
}

}  // namespace

void provideReadingSlice(DatabaseFile& file) {
    static const sqlite3_module module = sliceModule();
    file.expectDone(sqlite3_create_module_v2(file.handle(), "reading_slice", &module, nullptr, nullptr));
}

void storeSlice(DatabaseFile& file, std::int64_t series, std::span<const RawReading> readings) {
    using Which = SliceView::Which;
    expectSeries(file, series);
    const RulesPaused asOne{file, RulesPaused::Which::foreignKeys};  // asked once for all of them
    const RulesPaused plain{file, RulesPaused::Which::triggers};     // INSERT alone replaces nothing
    const RangesPaused looked{file};
    if (readings.size() < leastToSpare) {
        storeView(file, series, {readings, Which::all});
    } else {
        storeView(file, series, {readings, Which::notSpared});
        storeView(file, series, {readings, Which::spared});
    }
}

}  // namespace midden
