#ifdef TINTFALL_HEIF
#include <gtest/gtest.h>

#include <colorlib/image/heif_structure_internal.hpp>

#include "photo_files.hpp"

namespace colorlib {
namespace {

using namespace photo_files;

TEST(HeifStructure, FindsTheCodedSizeOfRealFiles) {
  for (const auto& [width, height] : {std::pair{64, 64}, std::pair{160, 120}, std::pair{1024, 72}}) {
    const auto structure = read_heif_structure(heif(plain_8(width, height, {180, 120, 60})));
    EXPECT_TRUE(structure.sound);
    EXPECT_TRUE(structure.all_hevc);
    EXPECT_EQ(structure.coded_width, width);
    EXPECT_EQ(structure.coded_height, height);
  }
}

TEST(HeifStructure, CutsAndNonsenseAreNotSound) {
  const std::string file = heif(plain_8(64, 48, {180, 120, 60}));
  for (const std::size_t size :
       {std::size_t{0}, std::size_t{3}, std::size_t{24}, std::size_t{100}, file.size() - 1})
    EXPECT_FALSE(read_heif_structure(file.substr(0, size)).sound) << size;
  EXPECT_FALSE(read_heif_structure(std::string(1000, '\xff')).sound);
  EXPECT_FALSE(read_heif_structure(std::string(1000, '\0')).sound);
}

TEST(HeifStructure, ParameterSetsThatEndEarlyHaveNoSize) {
  EXPECT_FALSE(hevc_size(""));
  EXPECT_FALSE(hevc_size(std::string(4, '\1')));
  EXPECT_FALSE(hevc_size(std::string(200, '\0'))) << "codes without an end";
}

}  // namespace
}  // namespace colorlib
#endif
