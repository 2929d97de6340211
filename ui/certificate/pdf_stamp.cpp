// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/certificate/pdf_stamp.h"

#include <QList>
#include <algorithm>

namespace midden::ui {

namespace {

/// Bytes to be put in place of others.
struct Replacement {
    qsizetype at = 0;
    qsizetype length = 0;
    QByteArray bytes;

    qsizetype growth() const { return bytes.size() - length; }
};
using Replacements = QList<Replacement>;

/// Replaces what lies between `before` and the next `after`.
void between(const QByteArray& pdf, const char* before, const char* after, const QByteArray& bytes, Replacements& all) {
    const auto start = pdf.indexOf(before);
    if (start < 0) {
        return;
    }
    const auto from = start + static_cast<qsizetype>(qstrlen(before));
    const auto to = pdf.indexOf(after, from);
    if (to >= 0) {
        all.push_back({from, to - from, bytes});
    }
}

/// The dates of the XMP metadata, and the length of the stream they stand in.
void stampMetadata(const QByteArray& pdf, const QByteArray& date, Replacements& all) {
    Replacements dates;
    between(pdf, "xmp:CreateDate=\"", "\"", date, dates);
    between(pdf, "xmp:ModifyDate=\"", "\"", date, dates);
    qsizetype growth = 0;
    for (const auto& replacement : dates) {
        growth += replacement.growth();
    }
    const auto object = pdf.indexOf("/Subtype /XML");
    const auto word = object < 0 ? -1 : pdf.indexOf("/Length ", object);
    if (word >= 0) {
        const auto from = word + 8;
        auto to = from;
        while (to < pdf.size() && pdf.at(to) >= '0' && pdf.at(to) <= '9') {
            ++to;
        }
        const auto length = pdf.mid(from, to - from).toLongLong() + growth;
        all.push_back({from, to - from, QByteArray::number(length)});
    }
    all += dates;
}

/// Where a byte of the old file stands in the new one.
qsizetype moved(qsizetype at, const Replacements& all) {
    qsizetype by = 0;
    for (const auto& replacement : all) {
        by += replacement.at < at ? replacement.growth() : 0;
    }
    return at + by;
}

/// Every entry of the cross-reference table that is in use: ten digits, "00000 n".
void moveReferences(const QByteArray& pdf, Replacements& all) {
    const auto before = all;
    const auto table = pdf.lastIndexOf("\nxref\n");
    const auto trailer = pdf.indexOf("trailer", table);
    for (auto entry = pdf.indexOf(" 00000 n", table); entry >= 0 && entry < trailer;
         entry = pdf.indexOf(" 00000 n", entry + 1)) {
        const auto offset = pdf.mid(entry - 10, 10).toLongLong();
        all.push_back({entry - 10, 10, QByteArray::number(moved(offset, before)).rightJustified(10, '0')});
    }
    between(pdf, "startxref\n", "\n", QByteArray::number(moved(table + 1, before)), all);
}

QByteArray applied(const QByteArray& pdf, Replacements all) {
    std::sort(all.begin(), all.end(), [](const auto& a, const auto& b) { return a.at < b.at; });
    QByteArray result;
    qsizetype at = 0;
    for (const auto& replacement : all) {
        result += pdf.mid(at, replacement.at - at) + replacement.bytes;
        at = replacement.at + replacement.length;
    }
    return result + pdf.mid(at);
}

}  // namespace

QByteArray stamped(const QByteArray& pdf, Instant issued, const QByteArray& digest) {
    const auto iso = QByteArray::fromStdString(isoUtc(issued));
    auto compact = iso;
    for (const auto* mark : {"-", ":", "T", "Z"}) {
        compact.replace(mark, "");
    }
    const auto name = digest.left(32).leftJustified(32, '0');
    Replacements all;
    between(pdf, "/CreationDate (", ")", "D:" + compact + "Z", all);
    stampMetadata(pdf, iso, all);
    between(pdf, "/ID [ ", " ]", "<" + name + "> <" + name + ">", all);
    moveReferences(pdf, all);
    return applied(pdf, all);
}

}  // namespace midden::ui
