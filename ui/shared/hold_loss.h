// SPDX-License-Identifier: GPL-3.0-or-later
// What raw material takes from a batch: its hold starts again.
#pragma once

#include <span>

#include "ui/shared/question_bar.h"

namespace midden {
struct Addition;
enum class BatchId : std::int64_t;
}  // namespace midden

namespace midden::ui {

class Book;

/// "71 of 72 h at 55.0 °C would start again at 0." Empty when these additions, each with its time, take nothing away.
QString holdLoss(const Book& book, BatchId batch, std::span<const Addition> additions);
/// The same as a question; without words when nothing is to be asked.
Question holdLossQuestion(const Book& book, BatchId batch, std::span<const Addition> additions);

}  // namespace midden::ui
