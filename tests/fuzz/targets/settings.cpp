// SPDX-License-Identifier: GPL-3.0-or-later
// What a book says about itself: its zone, its target, its group's criteria and materials, as any hand may have
// written them. A question can always be asked, and what cannot be read is never thrown away.
#include <array>

#include "core/criteria/criteria_json.h"
#include "core/store/read/book_rules.h"
#include "tests/fuzz/fuzz_input.h"

namespace midden {

namespace {

using fuzz::expect;

constexpr std::array<const Setting*, 5> settings{&setting::criteria, &setting::materials, &setting::targetTemperature,
                                                 &setting::targetHours, &setting::zone};

void checkMaterials(std::string_view text) {
    const auto read = Materials::parse(text);
    if (read) {
        const auto again = Materials::parse(tableOf(read->all()));
        expect(again && again->all() == read->all(), "materials read back as they were written");
    }
}

}  // namespace

}  // namespace midden

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {  // NOLINT
    using namespace midden;
    static auto book = Logbook::inMemory();
    fuzz::Input input{data, size};
    const auto* named = settings.at(input.takeByte() % settings.size());
    for (const auto* other : settings) {
        book.setSetting(*other, other == named ? input.text() : std::string_view{});
    }
    const auto questions = questionsOf(book);
    fuzz::expect(questions.criteria.size() > shippedCriteria().size(), "the target and what ships are always asked");
    fuzz::expect(book.setting(*named) == input.text(), "a setting is kept as it was said");
    checkMaterials(input.text());
    return 0;
}
