// SPDX-License-Identifier: GPL-3.0-or-later
// The parts of a certificate's page, from top to bottom.
#pragma once

#include <string>
#include <vector>

#include "core/certificate/certificate.h"
#include "ui/certificate/page_flow.h"

namespace midden::ui {

/// Where text stands across the page, in page units.
struct Measure {
    double left = 0;
    double width = 0;
    double right() const { return left + width; }
};

PageBlock headingBlock(const Certificate& certificate, Measure measure);
/// Labels and texts in two columns, each fact kept whole.
PageBlock factsInColumns(const std::vector<Fact>& facts, Measure measure);
/// One block a fact, so that a long list may be broken over pages.
std::vector<PageBlock> factRows(const std::vector<Fact>& facts, Measure measure);
/// One criterion: the verdict, its figures, remarks, conditions and source.
std::vector<PageBlock> findingBlocks(const Finding& finding, Measure measure);
PageBlock paragraph(const std::string& text, Measure measure, double points);
PageBlock signatureBlock(const std::vector<Fact>& signatures, Measure measure);

}  // namespace midden::ui
