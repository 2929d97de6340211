// SPDX-License-Identifier: GPL-3.0-or-later
#include "ui/shared/words.h"
#include "ui/stall/stall_panel.h"

namespace midden::ui {

std::vector<Answer> answersTo(const CausePlan& cause) {
    Observation entry;
    std::vector<Answer> answers;
    if (cause.id == "not-known") {
        entry.kind = ObservationKind::squeeze;
        const std::pair<const char*, QString> results[] = {
            {"dry", StallPanel::tr("dry")}, {"right", StallPanel::tr("right")}, {"wet", StallPanel::tr("wet")}};
        for (const auto& [value, word] : results) {
            entry.value = value;
            const QString text = StallPanel::tr("Squeeze test: %1").arg(word);
            answers.push_back({text, text, entry, {}, false});
        }
        return answers;
    }
    entry.kind = ObservationKind::remedy;
    entry.subject = cause.id;
    entry.value = words::utf8(cause.logged);
    const QString text =
        cause.adds ? StallPanel::tr("Log: %1…").arg(cause.logged) : StallPanel::tr("Log: %1").arg(cause.logged);
    answers.push_back({text, StallPanel::tr("Log as done: %1").arg(cause.logged), entry, cause.acts, cause.adds});
    return answers;
}

}  // namespace midden::ui
