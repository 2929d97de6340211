// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/store/entries/certificate_number.h"

#include <fmt/core.h>

#include <algorithm>
#include <optional>

#include "core/quantities/sha256.h"

namespace midden {

namespace {

std::string upperCase(std::string digits) {
    std::transform(digits.begin(), digits.end(), digits.begin(), [](unsigned char c) { return std::toupper(c); });
    return digits;
}

/// What stands behind `name` up to the next tab or the end. A name or note cannot hold a tab there.
std::string_view fieldOf(std::string_view line, std::string_view name) {
    const auto at = line.find(name);
    if (at == std::string_view::npos) {
        return {};
    }
    const auto value = line.substr(at + name.size());
    return value.substr(0, value.find('\t'));
}

/// When the batch of a canonical record started (core/certificate/canonical.h).
std::optional<Moment> startIn(std::string_view record) {
    constexpr std::string_view batch = "\nentries\nbatch\t";
    const auto at = record.find(batch);
    if (at == std::string_view::npos) {
        return std::nullopt;
    }
    auto line = record.substr(at + batch.size() - 1);
    line = line.substr(0, line.find('\n'));
    const auto started = line.find("\tstarted=");
    const auto time = parseIsoTime(std::string{fieldOf(line, "\tstarted=")});
    const auto offset = parseIsoTime("2000-01-01T00:00" +
                                     std::string{fieldOf(line.substr(std::min(started, line.size())), "\toffset=")});
    if (!time || !offset) {
        return std::nullopt;
    }
    return Moment{instantOf(time->wall, time->offset), offset->offset};
}

}  // namespace

std::vector<std::string> certificateNumbers(Moment started, std::string_view digest, Instant issued) {
    const auto day = wallTimeOf(started);
    const auto code = upperCase(sha256(std::string{digest} + " " + isoUtc(issued)));
    std::vector<std::string> numbers;
    for (std::size_t at = 0; at + 8 <= code.size(); at += 8) {
        numbers.push_back(fmt::format("{:04}{:02}{:02}-{}-{}", day.year, day.month, day.day, code.substr(at, 4),
                                      code.substr(at + 4, 4)));
    }
    return numbers;
}

bool numberFits(const IssuedCertificate& certificate) {
    if (!certificate.canonical.starts_with("middenbook.record/1\n")) {
        return true;
    }
    const auto started = startIn(certificate.canonical);
    if (!started) {
        return false;
    }
    const auto numbers = certificateNumbers(*started, certificate.digest, certificate.issued);
    return std::find(numbers.begin(), numbers.end(), certificate.number) != numbers.end();
}

}  // namespace midden
