// SPDX-License-Identifier: GPL-3.0-or-later
// The printed certificate, read back with poppler and qpdf as anybody would.
#include <QDir>
#include <QFile>
#include <QImage>
#include <QProcess>
#include <QRegularExpression>
#include <QTemporaryDir>

#include "core/quantities/sha256.h"
#include "core/store/logbook.h"
#include "tests/core/certificate/sample_batches.h"
#include "tests/ui/support/qt_support.h"
#include "ui/certificate/certificate_file.h"
#include "ui/certificate/paper_chart.h"
#include "ui/shared/pdf_seal.h"

using namespace midden;
using namespace midden::ui;
using namespace midden::testing;

namespace {

/// What a program answers; standard output and error together.
QByteArray answerOf(const QString& program, const QStringList& arguments) {
    QProcess process;
    process.setProcessChannelMode(QProcess::MergedChannels);
    process.start(program, arguments);
    REQUIRE(process.waitForFinished(aMinute));
    return process.readAll();
}

/// A certificate on the disk.
class Printed {
  public:
    explicit Printed(const SampleBatch& batch, QPageSize::PageSizeId size = QPageSize::A4) {
        const IssueNote note{"20260301-AAAA-BBBB", at(20, 10), "20260301-0000-1111", ""};
        const auto certificate = batch.certificate(note);
        const auto drawChart = [&batch](QPainter& painter, const QRectF& target) {
            drawPaperChart(painter, target, {batch.record, batch.review, TimeZone::utc()});
        };
        const CertificateSheet sheet{certificate, drawChart, millimetresOf(size)};
        bytes =
            pdfOf(sheet, size, {"Batch certificate", note.issued.at, QByteArray::fromStdString(certificate.digest)});
        digest = QString::fromStdString(certificate.digest);
        QFile file{path()};
        REQUIRE(file.open(QIODevice::WriteOnly));
        file.write(bytes);
    }

    QString path() const { return folder_.filePath("certificate.pdf"); }
    QString text() const {
        const auto words = QString::fromUtf8(answerOf("pdftotext", {"-layout", path(), "-"}));
        return words.simplified();
    }
    QString info() const { return QString::fromUtf8(answerOf("pdfinfo", {path()})); }
    int pages() const {
        const QRegularExpression count{"Pages: +(\\d+)"};
        return count.match(info()).captured(1).toInt();
    }
    QImage picture() const {
        answerOf("pdftoppm", {"-r", "72", "-png", "-singlefile", path(), folder_.filePath("page")});
        return QImage{folder_.filePath("page.png")};
    }
    /// The file with its streams unpacked, so that it can be searched.
    QByteArray unpacked() const {
        answerOf("qpdf", {"--qdf", "--object-streams=disable", path(), folder_.filePath("plain.pdf")});
        QFile file{folder_.filePath("plain.pdf")};
        REQUIRE(file.open(QIODevice::ReadOnly));
        return file.readAll();
    }

    QByteArray bytes;
    QString digest;

  private:
    QTemporaryDir folder_;
};

int pixelsOf(const QImage& image, QRgb colour) {
    int count = 0;
    for (int y = 0; y < image.height(); ++y) {
        for (int x = 0; x < image.width(); ++x) {
            count += image.pixel(x, y) == colour ? 1 : 0;
        }
    }
    return count;
}

/// One line a font.
QStringList fontsOf(const Printed& printed) {
    const auto lines = QString::fromUtf8(answerOf("pdffonts", {printed.path()})).split('\n', Qt::SkipEmptyParts);
    REQUIRE(lines.size() > 2);
    return lines.mid(2);
}

/// Opacities other than 1 and soft masks.
QStringList transparencyIn(const QString& pdf) {
    static const QRegularExpression seeThrough{"/(?:ca|CA) (?!1(?:\\.0+)?\\s)\\S+|/SMask (?!/None)\\S+"};
    QStringList found;
    for (auto match = seeThrough.globalMatch(pdf); match.hasNext();) {
        found.append(match.next().captured());
    }
    return found;
}

std::vector<SampleBatch> everyShape() {
    return {shownBatch(),     notShownBatch(),      withinErrorBatch(), onePositionBatch(),
            longNamesBatch(), manyPositionsBatch(), emptyBatch()};
}

}  // namespace

TEST_CASE("the page says in plain letters what the certificate says") {
    const NoQtWarnings quiet;
    const Printed printed{shownBatch()};
    const auto text = printed.text();
    for (const auto* words : {"Batch certificate", "Certificate 20260301-AAAA-BBBB", "Long Lane allotments",
                              "The readings reached the time–temperature figures of “the logbook's own target”.",
                              "kitchen scraps 17.5 kg", "Read by: Ann and Joseph", "No laboratory tests were made.",
                              "page 1 of 1", "Takes the place of certificate", "20260301-0000-1111"}) {
        CAPTURE(words);
        CHECK(text.contains(words));
    }
    CHECK(text.contains(printed.digest));
}

TEST_CASE("not shown is printed as whole as shown") {
    const Printed printed{notShownBatch()};
    CHECK(printed.pages() == 1);
    const auto text = printed.text();
    CHECK(text.contains("The readings did not reach the time–temperature figures of “the logbook's own target”."));
    CHECK(text.contains("no reading 72 h"));
    CHECK(text.contains("stalled"));
}

TEST_CASE("the chart is on the page") {
    const auto picture = Printed{shownBatch()}.picture();
    REQUIRE_FALSE(picture.isNull());
    CHECK(pixelsOf(picture, qRgb(0xdd, 0xec, 0xec)) > 5'000);  // the window of credited time
    const auto text = Printed{shownBatch()}.text();
    for (const auto* words : {"core", "side", "55 °C", "144 h", "9 Mar", "outside air"}) {
        CAPTURE(words);
        CHECK(text.contains(words));
    }
}

TEST_CASE("a certificate without readings has no window") {
    CHECK(pixelsOf(Printed{emptyBatch()}.picture(), qRgb(0xdd, 0xec, 0xec)) == 0);
}

TEST_CASE("one page where it fits and more where it does not") {
    CHECK(Printed{shownBatch(), QPageSize::A4}.pages() == 1);
    CHECK(Printed{shownBatch(), QPageSize::Letter}.pages() == 1);
    CHECK(Printed{notShownBatch(), QPageSize::Letter}.pages() == 1);
    CHECK(Printed{onePositionBatch(), QPageSize::Letter}.pages() == 1);
    const Printed many{manyPositionsBatch()};
    CHECK(many.pages() == 2);
    const auto text = many.text();
    CHECK(text.contains("Batch certificate – North, March"));
    CHECK(text.contains("page 2 of 2"));
    CHECK(text.count(many.digest) == 2);
}

TEST_CASE("the paper is the one asked for") {
    CHECK(Printed{shownBatch(), QPageSize::A4}.info().contains("595 x 842 pts (A4)"));
    CHECK(Printed{shownBatch(), QPageSize::Letter}.info().contains("612 x 792 pts (letter)"));
}

TEST_CASE("the same certificate is the same bytes") {
    CHECK(Printed{shownBatch()}.bytes == Printed{shownBatch()}.bytes);
    CHECK(Printed{shownBatch()}.bytes != Printed{notShownBatch()}.bytes);
}

TEST_CASE("the same certificate is the same bytes in every time zone") {
    const auto here = Printed{shownBatch()}.bytes;
    const auto before = qgetenv("TZ");
    qputenv("TZ", "Asia/Kolkata");
    tzset();
    const auto there = Printed{shownBatch()}.bytes;
    qputenv("TZ", before);
    tzset();
    CHECK(here == there);
}

TEST_CASE("every file is sound") {
    for (const auto& batch : everyShape()) {
        const auto checked = answerOf("qpdf", {"--check", Printed{batch}.path()});
        CHECK(checked.contains("No syntax or stream encoding errors found"));
        CHECK_FALSE(checked.contains("WARNING"));
    }
}

TEST_CASE("every file carries its fonts and their letters can be copied") {
    for (const auto& batch : everyShape()) {
        const auto fonts = fontsOf(Printed{batch});
        CHECK(fonts.filter("Lato-Regular").size() == 1);
        CHECK(fonts.filter(QRegularExpression{" yes +(yes|no) +yes "}) == fonts);
    }
}

TEST_CASE("the file says what it is and when it was issued") {
    const Printed printed{shownBatch()};
    const auto info = printed.info();
    CHECK(info.contains(QRegularExpression{"Title: +Batch certificate"}));
    CHECK(info.contains(QRegularExpression{"Creator: +Middenbook"}));
    CHECK(info.contains("20 10:00:00 2026"));
    CHECK(printed.bytes.contains("pdfaid:part=\"1\""));
    CHECK(printed.bytes.contains("xmp:CreateDate=\"2026-03-20T10:00:00Z\" xmp:ModifyDate=\"2026-03-20T10:00:00Z\""));
    CHECK(printed.bytes.contains("/ID [ <" + printed.digest.left(32).toLatin1() + ">"));
}

// PDF/A-1 allows no transparency (ISO 19005-1, clause 6.4; from memory, unverified).
TEST_CASE("nothing on the page is transparent") {
    for (const auto& batch : everyShape()) {
        const auto seen = transparencyIn(QString::fromLatin1(Printed{batch}.unpacked()));
        CAPTURE(seen.join("; "));
        CHECK(seen.isEmpty());
    }
}

TEST_CASE("what people typed is text and never markup") {
    const auto text = Printed{longNamesBatch()}.text();
    CHECK(text.contains("<b>side</b>"));
}

TEST_CASE("a certificate is known again until somebody changes a byte of it") {
    const Printed printed{shownBatch()};
    const auto second = printed.bytes.lastIndexOf("> <") + 3;
    CHECK(isSealed(printed.bytes, "certificate"));
    CHECK_FALSE(isSealed(printed.bytes, "round sheet"));
    for (const auto at : {qsizetype{20}, printed.bytes.size() / 2, second, second + 31, printed.bytes.size() - 2}) {
        auto changed = printed.bytes;
        changed[at] = changed[at] == 'x' ? 'y' : 'x';
        CAPTURE(at);
        CHECK_FALSE(isSealed(changed, "certificate"));
    }
    CHECK_FALSE(isSealed(printed.bytes + "\n", "certificate"));
    CHECK_FALSE(isSealed({}, "certificate"));
}

TEST_CASE("a certificate takes the place of one as it was left, also of a version without seals") {
    const Printed printed{shownBatch()};
    const auto path = printed.path().toStdString();
    CHECK_NOTHROW(certificateFile(path));
    auto unsealed = printed.bytes;  // both identifiers were the same, and the title told the number
    unsealed.replace(unsealed.lastIndexOf("> <") + 3, 32, printed.digest.left(32).toLatin1());
    unsealed.replace("Batch certificate</rdf:li>", "Batch certificate 20260301-AAAA-BBBB</rdf:li>");
    for (const bool isChanged : {false, true}) {
        QFile file{printed.path()};
        REQUIRE(file.open(QIODevice::WriteOnly));
        file.write(isChanged ? unsealed + "1 0 obj\nendobj\n%%EOF\n" : unsealed);
        file.close();
        if (isChanged) {
            CHECK_THROWS_AS(certificateFile(path), FileTrouble);
        } else {
            CHECK_NOTHROW(certificateFile(path));
        }
    }
}

TEST_CASE("a certificate whose page cannot have its name is not kept in the book") {
    const Printed printed{shownBatch()};
    const QTemporaryDir folder;
    const auto path = folder.filePath("new.pdf");
    auto output = certificateFile(path.toStdString());
    bool isKept = false;
    const auto store = [&] {
        isKept = true;
        QFile taken{path};  // by another program, at the last moment
        REQUIRE(taken.open(QIODevice::WriteOnly));
        taken.write("mine");
    };
    CHECK_THROWS_AS(saveIssued(output, printed.bytes, {store, [&] { isKept = false; }}), FileTrouble);
    CHECK_FALSE(isKept);
    QFile taken{path};
    REQUIRE(taken.open(QIODevice::ReadOnly));
    CHECK(taken.readAll() == "mine");
}

TEST_CASE("a certificate the book does not take has no page") {
    const Printed printed{shownBatch()};
    const QTemporaryDir folder;
    auto output = certificateFile(folder.filePath("new.pdf").toStdString());
    const auto refuse = [] { throw LogbookError{LogbookError::Kind::busy, "busy"}; };
    CHECK_THROWS_AS(saveIssued(output, printed.bytes, {refuse, [] {}}), LogbookError);
    CHECK_FALSE(QFile::exists(folder.filePath("new.pdf")));
}
