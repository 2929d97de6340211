// SPDX-License-Identifier: GPL-3.0-or-later
// What a batch's certificate says. Everything that is drawn is in here (but the chart); nothing else is drawn.
// It states which time–temperature figures the readings reached. It claims nothing about the compost.
#pragma once

#include <string>
#include <vector>

#include "core/certificate/canonical.h"
#include "core/criteria/information.h"
#include "core/quantities/zone.h"
#include "core/review/batch_review.h"

namespace midden {

struct Fact {
    std::string label;
    std::string text;
};

/// One figure a rule asks for, beside what the readings gave.
struct FigureRow {
    std::string figure;   ///< "at or above 55 °C"
    std::string asked;    ///< "72 h in one run"
    std::string read;     ///< "96 h 30 min"
    std::string missing;  ///< "20 h"; empty when reached
};

/// One criterion: what it asks and what the readings show of it.
struct Finding {
    std::string id;
    Verdict verdict = Verdict::notShown;
    std::string jurisdiction;
    std::string sentence;            ///< the verdict in words
    std::vector<FigureRow> figures;  ///< alternatives one below the other
    bool anyIsEnough = false;        ///< the rows are alternatives
    std::vector<std::string> remarks;
    std::vector<Fact> conditions;  ///< what a thermometer cannot show, and "held", "not held", "not recorded"
    std::string source;
    std::string scope;
};

struct Certificate {
    std::string title;
    std::string stance;
    std::string group;  ///< may be empty
    std::string batch;
    std::string interim;            ///< for a batch still running: as of when; else empty
    std::vector<Fact> batchFacts;   ///< bin, dates, positions …
    Fact materials;                 ///< with their weights added up; may be long
    std::vector<Finding> findings;  ///< in the order the criteria were chosen
    std::vector<Fact> information;  ///< rules that are told and not judged; where from is in the text
    std::vector<Fact> course;       ///< turnings, gaps, stalls, thermometers
    std::string creditRule;         ///< how time is credited
    std::vector<Fact> signatures;   ///< "Read by" and the names in the book; the line itself is left to ink
    std::string cautions;
    std::string kind = "Certificate";  ///< what the number is of
    std::string number;                ///< empty: a preview, not issued
    std::string issued;                ///< date and time, in words
    std::string supersedes;            ///< a sentence, or empty
    std::string digest;                ///< SHA-256 of the canonical record
};

/// What was decided when the certificate was issued.
struct IssueNote {
    std::string number;  ///< empty for a preview
    Moment issued;
    std::string supersedes;  ///< the number of the certificate this one replaces
    std::string digest;
};

/// What a certificate is a function of.
struct CertificateInput {
    const BatchRecord& record;
    const BatchReview& review;
    const std::vector<Bin>& bins;
    const WrittenReadings& readings;
    std::string group;
    TimeZone zone = TimeZone::utc();  ///< whose clock the page shows
    std::vector<Information> information;
};

Certificate certificateOf(const CertificateInput& input, const IssueNote& note);

/// What is to be minded when compost is turned and spread; on every page that is printed.
std::string cautionsOnPaper();

}  // namespace midden
