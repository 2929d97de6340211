// SPDX-License-Identifier: GPL-3.0-or-later
#include "core/quantities/sha256.h"

#include <catch2/catch.hpp>

using midden::sha256;

// Secure Hash Standard (FIPS 180-4); the messages and digests are those of NIST's "SHA-256 example values"
// (Cryptographic Standards and Guidelines, Examples with Intermediate Values), also in RFC 6234, section 8.5.
TEST_CASE("the digest agrees with the published example values") {
    CHECK(sha256("abc") == "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
    CHECK(sha256("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq") ==
          "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
    CHECK(sha256(std::string(1'000'000, 'a')) == "cdc76e5c9914fb9281a1c7e284d73e67f1809a48a497200e046d39ccc7112cd0");
}

TEST_CASE("the digest of nothing is the well known one") {
    // printf '' | sha256sum
    CHECK(sha256("") == "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}
