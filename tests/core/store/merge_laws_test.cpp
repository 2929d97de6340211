// SPDX-License-Identifier: GPL-3.0-or-later
// What must hold whatever two or three stewards did to their copies.
#include <algorithm>
#include <catch2/catch.hpp>

#include "tests/core/store/stewards.h"

using namespace midden;
using namespace midden::trial;
using Mode = Logbook::Mode;

namespace {

/// Random edits to copies of one book, or to books begun apart, by stewards whose clocks need not agree.
class Season {
  public:
    enum class Begun { together, apart };
    Season(std::vector<std::string> names, Begun begun) : names_{std::move(names)} {
        for (const auto& name : names_) {
            std::filesystem::remove(file(name));
            if (begun == Begun::together) {
                ancestor_.copyTo(file(name));
            }
            Logbook::open(file(name), Mode::createIfAbsent);
        }
        for (const auto& name : names_) {
            books_.push_back(stewards_.at(name, 0));
            const int slow = upTo(40);
            books_.back().setHand(name, [this, slow] { return at(100 + ++clock_ - slow).at; });
        }
    }

    Logbook& any() { return books_[static_cast<std::size_t>(upTo(int(books_.size()) - 1))]; }

    void edit(int steps) {
        for (int i = 0; i < steps; ++i) {
            trial::edit(any());
        }
    }

    /// The copies brought together one after another in that order, in a book of its own. Nothing when refused.
    std::optional<Logbook> together(const std::vector<std::size_t>& order, const std::string& name) {
        books_[order[0]].copyTo(file(name));
        auto book = Logbook::open(file(name), Mode::readWrite);
        for (std::size_t i = 1; i < order.size(); ++i) {
            if (refusalOf([&] { book.merge(books_[order[i]]); })) {
                return std::nullopt;
            }
        }
        return book;
    }

    std::filesystem::path file(const std::string& name) const { return stewards_.folder / (name + ".midden"); }

  private:
    Stewards stewards_;
    Logbook ancestor_ = stewards_.ada();
    std::vector<std::string> names_;
    std::vector<Logbook> books_;
    int clock_ = 0;
};

/// The amendments of a book that is a file: all, or those that people made. Which batch shows them is left out: where
/// copies began batches of one name apart, that of the withdrawn one is known only to those that met it in time.
std::string amendmentsWritten(const Logbook& book, const std::string& which) {
    return plainly(book.file(),
                   "SELECT group_concat(line, char(10)) FROM (SELECT key || ' ' || kind || ' ' || at || ' ' || amended "
                   "|| ' ' || who || ' ' || why || ' ' || ifnull(rank, '') AS line FROM amendment WHERE " +
                       which + " ORDER BY key)");
}

std::string writtenByPeople(const Logbook& book) {
    return amendmentsWritten(book, "rank IS NOT NULL");
}

}  // namespace

TEST_CASE("merging in either order and again gives the same book", "[random]") {
    const bool holds = rc::check([] {
        const Stewards stewards;
        auto ada = stewards.ada();
        auto grace = stewards.grace();
        int clock = 100;
        for (Logbook* book : {&ada, &grace}) {
            book->setHand(book == &ada ? "ada" : "grace", [&clock] { return at(++clock).at; });
        }
        const int steps = upTo(25);
        for (int i = 0; i < steps; ++i) {
            edit(upTo(1) == 0 ? ada : grace);
        }
        const Folder folder;
        ada.backUpTo(folder / "ada.midden");
        const auto before = Logbook::open(folder / "ada.midden", Mode::readOnly);
        RC_LOG(everything(ada) + "--- the other copy\n" + everything(grace));
        std::size_t conflicts = 0;
        const auto refused = refusalOf([&] { conflicts = ada.merge(grace).conflicts.size(); });
        RC_CLASSIFY(conflicts > 0, "conflicts");
        const auto otherWay = refusalOf([&] { grace.merge(before); });
        RC_LOG(fmt::format("{} {}", refused ? int(*refused) : -1, otherWay ? int(*otherWay) : -1));
        RC_ASSERT((otherWay == refused));
        RC_ASSERT(!refused);
        RC_ASSERT(everything(ada) == everything(grace));
        const auto again = ada.merge(grace);
        RC_ASSERT(again.added == 0);
        RC_ASSERT(again.changed == 0);
        RC_ASSERT(again.conflicts.empty());
        RC_ASSERT(everything(ada) == everything(grace));
        RC_ASSERT(ada.check({}).faults == std::vector<std::string>{});
        RC_ASSERT(grace.check({}).faults == std::vector<std::string>{});
    });
    CHECK(holds);
}

TEST_CASE("three copies give the same book in any order", "[random]") {
    const bool holds = rc::check([] {
        const bool isApart = upTo(1) == 0;
        RC_CLASSIFY(isApart, "begun apart");
        Season season{{"one", "two", "three"}, isApart ? Season::Begun::apart : Season::Begun::together};
        season.edit(upTo(10));
        if (upTo(2) == 0) {
            refusalOf([&] { season.any().merge(season.any()); });
        }
        season.edit(upTo(20));
        std::vector<std::size_t> order{0, 1, 2};
        std::vector<Logbook> merged;
        do {
            auto together = season.together(order, fmt::format("order-{}", merged.size()));
            RC_ASSERT(together.has_value());
            merged.push_back(*std::move(together));
        } while (std::next_permutation(order.begin(), order.end()));
        for (const Logbook& other : merged) {
            RC_LOG(everything(merged[0]) + "--- in another order\n" + everything(other));
            RC_ASSERT(textOf(merged[0]) == textOf(other));
            RC_ASSERT(writtenByPeople(merged[0]) == writtenByPeople(other));
        }
        merged[0].merge(merged[5]);
        merged[5].merge(merged[0]);
        RC_ASSERT(textOf(merged[0]) == textOf(merged[5]));
        RC_ASSERT(amendmentsWritten(merged[0], "true") == amendmentsWritten(merged[5], "true"));
        RC_ASSERT(merged[0].check({}).faults == std::vector<std::string>{});
    });
    CHECK(holds);
}
