// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/records/kind_nouns.h"
#include "core/store/entries/entry_store.h"
#include "core/store/entries/texts.h"
#include "core/store/logbook.h"

namespace midden {

namespace {

constexpr const char* undone = "undone";

template <class E>
E asItStands(Logbook::State& state, const typename IdOf<E>::type& id) {
    auto stands = EntryStore<E>::find(state, id);
    if (!stands) {
        refuse("the " + std::string{nounOf(entryKind<E>).one} + " is no longer in the book");
    }
    return *std::move(stands);
}

const std::string& whyOf(const auto& edit) {
    static const std::string nothing;
    if constexpr (requires { edit.why; }) {
        return edit.why;
    } else {
        return nothing;
    }
}

class Editor {
  public:
    explicit Editor(Logbook::State& state) : state_{state} {}

    template <class E>
    Applied operator()(const Put<E>& edit) {
        state_.undoing = edit.undoing;
        if (!edit.undoing) {
            expectKeepable(edit.entry, static_cast<const E*>(nullptr));
        }
        const auto id = EntryStore<E>::put(state_, edit.entry);
        return {Withdraw<E>{id, undone}, id};
    }

    template <class E>
    Applied operator()(const Amend<E>& edit) {
        state_.undoing = edit.undoing;
        const E was = asItStands<E>(state_, edit.id);
        if (!edit.undoing) {
            expectKeepable(edit.entry, &was);
        }
        const auto id = EntryStore<E>::amend(state_, was, edit.entry);
        return {Amend<E>{id, was, undone, true}, id};
    }

    template <class E>
    Applied operator()(const Withdraw<E>& edit) {
        const E was = asItStands<E>(state_, edit.id);
        EntryStore<E>::withdraw(state_, edit.id);
        return {Put<E>{was, true}, std::monostate{}};
    }

  private:
    Logbook::State& state_;
};

/// Tells the file's own rules who makes the amendments of this transaction, when and why.
void beginAudit(Logbook::State& state, const std::string& why) {
    Query{state.file, "UPDATE hand SET at = ?, who = ?, why = ?"}.with(state.clock(), state.who, why).run();
}

void endAudit(Logbook::State& state) {
    Query{state.file, "UPDATE hand SET at = NULL, who = '', why = ''"}.run();
}

}  // namespace

void sign(const Logbook::State& state, Provenance& provenance) {
    if (provenance.entered) {
        return;  // an entry put back keeps its first hand
    }
    if (provenance.who.empty()) {
        provenance.who = state.who;
    }
    if (provenance.source == Source::typed) {
        provenance.entered = state.clock();
    }
}

Applied Logbook::apply(const Edit& edit) {
    Transaction transaction{state_->file};
    beginAudit(*state_, std::visit([](const auto& one) { return whyOf(one); }, edit));
    Applied applied = std::visit(Editor{*state_}, edit);
    endAudit(*state_);
    transaction.commit();
    return applied;
}

}  // namespace midden
