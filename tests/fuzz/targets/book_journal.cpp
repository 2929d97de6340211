// SPDX-License-Identifier: GPL-3.0-or-later
// Any bytes as what lies beside a sound book: the first says whether they are a journal, a journal that goes on to name
// a neighbour, or a write-ahead log. The neighbour stays, and a journal that names it is left alone like the book.
#include <fstream>
#include <iterator>

#include "core/store/logbook.h"
#include "tests/fuzz/fuzz_input.h"

namespace midden {

namespace {

std::string bytesOf(const std::filesystem::path& file) {
    std::ifstream in{file, std::ios::binary};
    return {std::istreambuf_iterator<char>{in}, {}};
}

std::string soundBook() {
    const fuzz::BookFile file;
    Logbook::open(file.path(), Logbook::Mode::createIfAbsent);
    return bytesOf(file.path());
}

std::string fourBytes(std::size_t number) {
    std::string bytes;
    for (const int shift : {24, 16, 8, 0}) {
        bytes += static_cast<char>((number >> static_cast<unsigned>(shift)) & 0xffU);
    }
    return bytes;
}

/// The end of a journal that names another file.
std::string naming(const std::string& name) {
    std::size_t sum = 0;
    for (const char byte : name) {
        sum += static_cast<unsigned char>(byte);
    }
    return fourBytes(0x40000000 / 8'192 + 1) + name + fourBytes(name.size()) + fourBytes(sum) +
           std::string{"\xd9\xd5\x05\xf9\x20\xa1\x63\xd7", 8};
}

enum class Beside { journal, journalNaming, writeAheadLog };

void tryBeside(Beside what, std::string_view bytes) {
    static const std::string sound = soundBook();
    const fuzz::BookFile file;
    const std::string neighbour = file.path().string() + ".neighbour";
    std::ofstream{neighbour} << "somebody's own";
    const std::string beside = file.path().string() + (what == Beside::writeAheadLog ? "-wal" : "-journal");
    file.write(sound);
    std::ofstream{beside, std::ios::binary} << bytes << (what == Beside::journalNaming ? naming(neighbour) : "");
    fuzz::readEverything(file.path());
    fuzz::expect(bytesOf(neighbour) == "somebody's own", "what is no file of the book stays");
    if (what == Beside::journalNaming) {
        fuzz::expect(bytesOf(file.path()) == sound, "a book with a hostile journal is left alone");
        fuzz::expect(std::filesystem::exists(beside), "a hostile journal is left where it is");
    }
    std::filesystem::remove(neighbour);
}

}  // namespace

}  // namespace midden

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {  // NOLINT
    using namespace midden;
    fuzz::Input input{data, size};
    const auto what = static_cast<Beside>(input.takeByte() % 3);
    tryBeside(what, input.text());
    return 0;
}
