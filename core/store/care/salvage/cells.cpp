// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/care/salvage/cells.h"

#include <algorithm>
#include <array>
#include <bit>
#include <utility>

#include "core/quantities/utf8.h"

namespace midden::salvage {

namespace {

/// Reads from the front; once something does not fit, everything after it is refused.
class Reader {
  public:
    explicit Reader(Bytes bytes) : bytes_{bytes} {}

    bool isGood() const { return good_; }
    std::size_t left() const { return bytes_.size(); }

    Bytes take(std::uint64_t count) {
        if (count > bytes_.size()) {
            good_ = false;
            return {};
        }
        const Bytes taken = bytes_.first(static_cast<std::size_t>(count));
        bytes_ = bytes_.subspan(static_cast<std::size_t>(count));
        return taken;
    }
    std::uint64_t varint() {
        std::uint64_t number = 0;
        for (int i = 0; i < 9; ++i) {
            const Bytes byte = take(1);
            if (byte.empty()) {
                return 0;
            }
            if (i == 8) {
                return number << 8U | byte[0];
            }
            number = number << 7U | (byte[0] & 0x7FU);
            if (byte[0] < 0x80) {
                break;
            }
        }
        return number;
    }
    std::uint32_t number32() {
        const Bytes four = take(4);
        return four.empty() ? 0 : bigEndian(four, 0, 4);
    }

  private:
    Bytes bytes_;
    bool good_ = true;
};

std::int64_t wholeNumber(Bytes bytes) {
    std::uint64_t number = (bytes[0] & 0x80U) != 0 ? ~std::uint64_t{0} : 0;
    for (const unsigned char byte : bytes) {
        number = number << 8U | byte;
    }
    return static_cast<std::int64_t>(number);
}

std::uint64_t bytesOf(std::uint64_t type) {
    constexpr std::array<std::uint64_t, 10> fixed{0, 1, 2, 3, 4, 6, 8, 8, 0, 0};
    return type < fixed.size() ? fixed.at(type) : (type - 12) / 2;
}

/// Nothing where the value is of no kind a logbook has.
std::optional<Value> valueOf(std::uint64_t type, Bytes bytes) {
    if (type == 0) {
        return Value{};
    }
    if (type <= 6) {
        return wholeNumber(bytes);
    }
    if (type == 7) {
        return std::bit_cast<double>(wholeNumber(bytes));
    }
    if (type == 8 || type == 9) {
        return static_cast<std::int64_t>(type - 8);
    }
    if (type < 13 || type % 2 == 0) {
        return std::nullopt;
    }
    std::string text{bytes.begin(), bytes.end()};
    const bool isText = text.find('\0') == std::string::npos && !firstNotUtf8(text);
    return isText ? std::optional<Value>{std::move(text)} : std::nullopt;
}

std::optional<std::vector<Value>> recordOf(Bytes payload) {
    Reader size{payload};
    const std::uint64_t head = size.varint();
    if (!size.isGood() || head > payload.size() || head < payload.size() - size.left()) {
        return std::nullopt;
    }
    Reader types{payload.first(static_cast<std::size_t>(head)).subspan(payload.size() - size.left())};
    Reader body{payload.subspan(static_cast<std::size_t>(head))};
    std::vector<Value> values;
    while (types.left() > 0) {
        const std::uint64_t type = types.varint();
        const Bytes bytes = body.take(bytesOf(type));
        const auto value = types.isGood() && body.isGood() ? valueOf(type, bytes) : std::nullopt;
        if (!value) {
            return std::nullopt;
        }
        values.push_back(*value);
    }
    return body.left() == 0 ? std::optional{values} : std::nullopt;
}

/// How many bytes of a payload stand in the cell itself.
std::uint64_t localBytes(std::uint64_t payload, std::uint64_t usable, bool isIndex) {
    const std::uint64_t most = isIndex ? (usable - 12) * 64 / 255 - 23 : usable - 35;
    if (payload <= most) {
        return payload;
    }
    const std::uint64_t least = (usable - 12) * 32 / 255 - 23;
    const std::uint64_t fitting = least + (payload - least) % (usable - 4);
    return fitting <= most ? fitting : least;
}

/// The payload with what stands on overflow pages; nothing when their chain is broken.
std::optional<std::vector<unsigned char>> payloadAt(const Pages& pages, Reader& cell, std::uint64_t size,
                                                    bool isIndex) {
    const Bytes local = cell.take(localBytes(size, pages.usable(), isIndex));
    std::vector<unsigned char> payload{local.begin(), local.end()};
    PageNumber next = payload.size() < size ? cell.number32() : 0;
    while (cell.isGood() && payload.size() < size) {
        const Bytes page = pages.page(next);
        if (page.empty()) {
            return std::nullopt;
        }
        const auto count = std::min<std::uint64_t>(pages.usable() - 4, size - payload.size());
        const Bytes part = page.subspan(4, static_cast<std::size_t>(count));
        payload.insert(payload.end(), part.begin(), part.end());
        next = bigEndian(page, 0, 4);
    }
    return cell.isGood() ? std::optional{payload} : std::nullopt;
}

}  // namespace

Cell cellAt(const Pages& pages, const TreePage& page, std::size_t at) {
    Cell cell;
    Reader reader{page.bytes.first(pages.usable()).subspan(at)};
    cell.child = page.isLeaf() ? 0 : reader.number32();
    cell.mayHoldRow = page.kind != PageKind::tableInterior;
    if (!cell.mayHoldRow) {
        return cell;
    }
    const std::uint64_t size = reader.varint();
    Row row;
    if (!page.isIndex()) {
        row.rowid = static_cast<std::int64_t>(reader.varint());
    }
    // No payload is larger than the file it stands in.
    if (!reader.isGood() || size > std::uint64_t{pages.count()} * pages.usable()) {
        return cell;
    }
    const auto payload = payloadAt(pages, reader, size, page.isIndex());
    auto values = payload ? recordOf(*payload) : std::nullopt;
    if (values) {
        row.values = std::move(*values);
        cell.row = std::move(row);
    }
    return cell;
}

}  // namespace midden::salvage
