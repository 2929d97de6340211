// SPDX-License-Identifier: GPL-3.0-or-later
// The small forms of the Round: each makes one entry, or a few that belong together.
#pragma once

#include <optional>

#include "ui/shared/book.h"

class QWidget;

namespace midden::ui {

class InlineForm;

/// A batch somebody is about to write something about.
struct FormTarget {
    Book& book;
    Moment when;
    std::optional<Bin> bin;
    std::optional<Batch> batch;
};

/// The batch's name.
QString nameOf(const FormTarget& target);
/// Nothing, or that nothing was saved; the bar above has the reason.
QString outcome(bool done);

/// A batch in `target.bin`, or, without one, a new bin with its positions and its first batch.
InlineForm* makeStartForm(const FormTarget& target, QWidget* parent);
InlineForm* makeAddedForm(const FormTarget& target, QWidget* parent);
InlineForm* makeSqueezeForm(const FormTarget& target, QWidget* parent);
InlineForm* makeNoteForm(const FormTarget& target, QWidget* parent);
/// Curing, its tests, screening.
InlineForm* makeRipeningForm(const FormTarget& target, QWidget* parent);
InlineForm* makeFinishForm(const FormTarget& target, QWidget* parent);
InlineForm* makeMoveForm(const FormTarget& target, QWidget* parent);
/// Filled once, or fed on top every few days and emptied at the base.
InlineForm* makeFeedingForm(const FormTarget& target, QWidget* parent);

/// Of fed batches alone: how deep they were forked, what was taken out, and the rest after which a hold can be shown.
InlineForm* makeForkedForm(const FormTarget& target, QWidget* parent);
InlineForm* makeHarvestForm(const FormTarget& target, QWidget* parent);
InlineForm* makeRestForm(const FormTarget& target, QWidget* parent);

/// One key: turned, forked, watered, lid open.
bool enterAeration(const FormTarget& target, AerationKind kind);

}  // namespace midden::ui
