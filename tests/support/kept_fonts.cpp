// SPDX-License-Identifier: GPL-3.0-or-later
// Adds a font to fontconfig's own list, as Qt does for a font of the program's, leaves no pointer to it behind, and
// ends. Under the leak sanitizer it ends well only with sanitizer_settings.cpp.
#include <dlfcn.h>

#include <array>
#include <cstddef>
#include <cstdio>

namespace {

template <typename Function>
Function* found(void* library, const char* name) {
    return reinterpret_cast<Function*>(dlsym(library, name));
}

[[gnu::noinline]] bool addFont(const char* file) {
    void* const library = dlopen("libfontconfig.so.1", RTLD_NOW);
    if (library == nullptr) {
        return false;
    }
    auto* const current = found<void*()>(library, "FcConfigGetCurrent");
    auto* const add = found<int(void*, const unsigned char*)>(library, "FcConfigAppFontAddFile");
    return current != nullptr && add != nullptr && add(current(), reinterpret_cast<const unsigned char*>(file)) != 0;
}

[[gnu::noinline]] void overwriteStack() {
    std::array<char, 200'000> room{};
    volatile char* const start = room.data();
    for (std::size_t place = 0; place < room.size(); ++place) {
        start[place] = 0;
    }
}

}  // namespace

int main(int count, char** arguments) {
    if (count != 2 || !addFont(arguments[1])) {
        std::puts("the font could not be added");
        return 1;
    }
    overwriteStack();
    return 0;
}
