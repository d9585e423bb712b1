#include <gmock/gmock.h>

#include <colorlib/records/content_hash.hpp>
#include <fstream>

namespace colorlib {
namespace {

// The two examples of one and of two blocks, and the empty message [FIPS180].
TEST(ContentHash, IsSha256) {
  EXPECT_EQ(sha256_of("abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
  EXPECT_EQ(sha256_of("abcdbcdecdefdefgefghfghighijhijkijkljklmklmnlmnomnopnopq"),
            "248d6a61d20638b8e5c026930c3e6039a33ce45964ff2167f6ecedd419db06c1");
  EXPECT_EQ(sha256_of(""), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
}

TEST(ContentHash, OfAFileEqualsThatOfItsBytes) {
  const auto path = std::filesystem::temp_directory_path() / "tintfall-content-hash-test.bin";
  std::string bytes(3'000'001, '\0');
  for (std::size_t i = 0; i < bytes.size(); ++i) bytes[i] = static_cast<char>(i * 31 % 251);
  std::ofstream(path, std::ios::binary) << bytes;
  const auto hash = sha256_of_file(path);
  std::filesystem::remove(path);
  ASSERT_TRUE(hash);
  EXPECT_EQ(*hash, sha256_of(bytes));
  EXPECT_FALSE(sha256_of_file(path));
  EXPECT_FALSE(sha256_of_file(path.parent_path()));
}

}  // namespace
}  // namespace colorlib
