// SPDX-License-Identifier: GPL-3.0-or-later
// Settings and issued certificates.
#include "core/store/entries/texts.h"
#include "core/store/logbook.h"
#include "core/store/state.h"

namespace midden {

namespace {

IssuedCertificate certificateFrom(const Query& row) {
    return {row.text(0), BatchId{row.number(1)}, Instant{row.number(2)}, row.text(3), row.text(4), row.text(5)};
}

}  // namespace

std::optional<std::string> Logbook::storedSetting(const Setting& setting) const {
    Query query{state_->file, "SELECT value FROM setting WHERE name = ?"};
    query.with(setting.name);
    return query.next() ? std::optional{query.text(0)} : std::nullopt;
}

std::string Logbook::setting(const Setting& setting) const {
    return storedSetting(setting).value_or(std::string{setting.otherwise});
}

void Logbook::setSetting(const Setting& setting, std::string_view value) {
    if (setting.kind == SettingKind::text) {
        expectKeepableName(value);
    }
    Transaction transaction{state_->file};
    Query{state_->file,
          "INSERT INTO setting(name, value) VALUES (?, ?) ON CONFLICT(name) DO UPDATE SET value = excluded.value"}
        .with(setting.name, value)
        .run();
    transaction.commit();
}

std::vector<IssuedCertificate> Logbook::certificates(BatchId batch) const {
    std::vector<IssuedCertificate> certificates;
    Query query{state_->file,
                "SELECT number, batch, issued, digest, canonical, supersedes FROM certificate WHERE batch = ? "
                "ORDER BY issued, id"};
    query.with(batch);
    while (query.next()) {
        certificates.push_back(certificateFrom(query));
    }
    return certificates;
}

std::optional<IssuedCertificate> Logbook::certificate(std::string_view number) const {
    Query query{state_->file,
                "SELECT number, batch, issued, digest, canonical, supersedes FROM certificate WHERE number = ?"};
    query.with(number);
    return query.next() ? std::optional{certificateFrom(query)} : std::nullopt;
}

void Logbook::storeCertificate(const IssuedCertificate& certificate) {
    if (this->certificate(certificate.number)) {
        refuse("certificate " + certificate.number + " has been issued already");
    }
    Transaction transaction{state_->file};
    Query{state_->file,
          "INSERT INTO certificate(number, batch, issued, digest, supersedes, canonical) VALUES (?, ?, ?, ?, ?, ?)"}
        .with(certificate.number, certificate.batch, certificate.issued, certificate.digest, certificate.supersedes,
              certificate.canonical)
        .run();
    transaction.commit();
}

}  // namespace midden
