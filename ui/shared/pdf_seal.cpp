// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shared/pdf_seal.h"

#include <string>

#include "core/quantities/sha256.h"

namespace midden::ui {

namespace {

constexpr qsizetype sealLength = 32;

/// Where the second identifier stands in the trailer; a length of 0 = nowhere.
struct Place {
    qsizetype at = 0;
    qsizetype length = 0;
};

Place placeOf(const QByteArray& pdf) {
    const auto array = pdf.indexOf("/ID [ <", pdf.lastIndexOf("\ntrailer"));
    const auto second = array < 0 ? -1 : pdf.indexOf("> <", array);
    const auto end = second < 0 ? -1 : pdf.indexOf("> ]", second + 3);
    return end < 0 ? Place{} : Place{second + 3, end - second - 3};
}

QByteArray withSeal(const QByteArray& pdf, const Place& place, const QByteArray& seal) {
    return pdf.left(place.at) + seal + pdf.mid(place.at + place.length);
}

QByteArray sealOf(const QByteArray& pdf, const Place& place, const char* kind) {
    const auto blank = withSeal(pdf, place, QByteArray(sealLength, '0'));
    return QByteArray::fromStdString(sha256(std::string{kind} + '\n' + blank.toStdString())).left(sealLength);
}

/// Qt gives identifiers to PDF/A alone. They stand behind the table of where everything is, which stays true.
QByteArray withIdentifiers(QByteArray pdf) {
    const auto end = pdf.lastIndexOf(">>\nstartxref");
    if (placeOf(pdf).length == 0 && end >= 0) {
        const auto first = QByteArray::fromStdString(sha256(pdf.toStdString())).left(sealLength);
        pdf.insert(end, "/ID [ <" + first + "> <" + first + "> ]\n");
    }
    return pdf;
}

}  // namespace

QByteArray sealed(const QByteArray& written, const char* kind) {
    const auto pdf = withIdentifiers(written);
    const auto place = placeOf(pdf);
    return place.length == 0 ? pdf : withSeal(pdf, place, sealOf(pdf, place, kind));
}

bool isSealed(const QByteArray& pdf, const char* kind) {
    const auto place = placeOf(pdf);
    return place.length == sealLength && pdf.mid(place.at, place.length) == sealOf(pdf, place, kind);
}

}  // namespace midden::ui
