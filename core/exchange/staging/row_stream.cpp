// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/exchange/staging/row_stream.h"

#include <fmt/core.h>

#include <algorithm>
#include <tuple>

namespace midden {

namespace {

WrittenTemperature writtenOf(const StagedReading& row, const std::vector<StagedColumn>& columns) {
    return {row.tenThousandths, columns[row.column()].unit};
}

Refusal contradiction(const StagedReading& a, const StagedReading& b, const std::vector<StagedColumn>& columns) {
    const auto& [first, second] = b.line < a.line ? std::tie(b, a) : std::tie(a, b);
    const auto& file = columns[second.column()].file;
    const auto& otherFile = columns[first.column()].file;
    const auto where =
        otherFile == file ? fmt::format("line {}", first.line) : fmt::format("line {} of {}", first.line, otherFile);
    return {file,
            second.line,
            {fmt::format("{} here, but {} in {}, for the same place and time {}",
                         writtenWithUnit(writtenOf(second, columns)), writtenWithUnit(writtenOf(first, columns)), where,
                         isoLocal({second.at(), columns[second.column()].offset})),
             "one value for each place and time"}};
}

bool beginsLater(const RunChain* a, const RunChain* b) {
    return b->block().front() < a->block().front();
}

using Links = std::vector<RunChain::Link>;

Links linksOf(const StagedRows& staged, const PlacedRows& placed) {
    Links links;
    for (const auto& part : placed.parts) {
        for (const auto& run : staged.list(part.list).runs) {
            links.push_back({&run, &part.belongs});
        }
    }
    std::sort(links.begin(), links.end(), [](const auto& a, const auto& b) { return a.run->first < b.run->first; });
    return links;
}

/// As few chains as there are runs that overlap: one for a file in time order, or newest first.
std::vector<Links> chained(const Links& links) {
    std::vector<Links> chains;
    for (const auto& link : links) {
        const auto before = std::find_if(chains.begin(), chains.end(), [&](const Links& chain) {
            return !(link.run->first < chain.back().run->last);
        });
        (before == chains.end() ? chains.emplace_back() : *before).push_back(link);
    }
    return chains;
}

std::vector<RunChain> chainsOf(const StagedRows& staged, const PlacedRows& placed) {
    constexpr std::size_t shortestBlock = 64;
    auto chains = chained(linksOf(staged, placed));
    const auto fair = staged.room().rowsInMemory / std::max<std::size_t>(chains.size(), 1);
    const auto length = std::clamp(fair, shortestBlock, RowStream::blockLength);
    std::vector<RunChain> made;
    made.reserve(chains.size());
    for (auto& links : chains) {
        made.emplace_back(staged, std::move(links), length);
    }
    return made;
}

}  // namespace

void RunChain::fill() {
    if (!block_.empty()) {
        return;
    }
    buffer_.clear();
    while (buffer_.size() < blockLength_ && link_ < links_.size()) {
        readMore();
    }
    block_ = buffer_;
}

void RunChain::readMore() {
    const auto* const run = links_[link_].run;
    const auto& belongs = *links_[link_].belongs;
    const auto had = buffer_.size();
    const auto count = std::min(blockLength_ - had, run->count - done_);
    buffer_.resize(had + count);
    rows_->read(*run, done_, std::span{buffer_}.subspan(had));
    if (belongs) {
        const auto wrong = [&](const StagedReading& row) { return !belongs(row.at()); };
        const auto fresh = buffer_.begin() + static_cast<std::ptrdiff_t>(had);
        buffer_.erase(std::remove_if(fresh, buffer_.end(), wrong), buffer_.end());
    }
    done_ += count;
    if (done_ == run->count) {
        ++link_;
        done_ = 0;
    }
}

RowStream::RowStream(const StagedRows& staged, const PlacedRows& placed, const std::vector<StagedColumn>& columns)
    : columns_{columns}, chains_{chainsOf(staged, placed)} {
    for (auto& chain : chains_) {
        chain.fill();
        if (!chain.block().empty()) {
            open_.push_back(&chain);
        }
    }
    std::make_heap(open_.begin(), open_.end(), beginsLater);
}

FileResult<std::span<const StagedReading>> RowStream::next() {
    std::span<StagedReading> rows;
    std::size_t kept = 0;
    while (kept == 0) {
        rows = nextInOrder();
        if (rows.empty()) {
            break;
        }
        for (const auto& row : rows) {
            const bool repeats = before_ && before_->at() == row.at();
            if (repeats && toCelsius(writtenOf(*before_, columns_)) != toCelsius(writtenOf(row, columns_))) {
                return tl::unexpected{contradiction(*before_, row, columns_)};
            }
            before_ = row;
            rows[kept] = row;
            kept += repeats ? 0 : 1;
        }
    }
    return rows.first(kept);
}

std::span<StagedReading> RowStream::nextInOrder() {
    if (open_.size() > 1) {
        return merged();
    }
    if (open_.empty()) {
        return {};
    }
    auto& only = *open_.front();
    only.fill();
    const auto rows = only.block();
    only.drop(rows.size());
    return rows;
}

std::span<StagedReading> RowStream::merged() {
    merged_.clear();
    while (merged_.size() < blockLength && open_.size() > 1) {
        std::pop_heap(open_.begin(), open_.end(), beginsLater);
        takeFrom(*open_.back(), open_.front()->block().front());
        open_.back()->fill();
        if (open_.back()->block().empty()) {
            open_.pop_back();
        } else {
            std::push_heap(open_.begin(), open_.end(), beginsLater);
        }
    }
    return merged_;
}

/// Its rows at hand up to where another chain has an earlier one.
void RowStream::takeFrom(RunChain& chain, const StagedReading& ofAnother) {
    const auto rows = chain.block();
    const auto end = std::find_if(rows.begin() + 1, rows.end(), [&](const auto& row) { return ofAnother < row; });
    merged_.insert(merged_.end(), rows.begin(), end);
    chain.drop(static_cast<std::size_t>(end - rows.begin()));
}

}  // namespace midden
