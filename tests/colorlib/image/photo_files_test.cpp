#include <gmock/gmock.h>

#include <colorlib/image/photo_files.hpp>
#include <cstdlib>
#include <fstream>
#include <string>

namespace colorlib {
namespace {

using testing::ElementsAre;

TEST(PhotoFiles, AreKnownByTheirEndings) {
  for (const char* name : {"a.jpg", "A.JPEG", "a.png", "a.Tif", "a.tiff", "a.heic", "a.heif", "a.avif",
                           "a.dng", "a.arw", "a.cr2", "a.CR3", "a.nef", "a.orf", "a.pef", "a.raf", "a.rw2"})
    EXPECT_TRUE(has_photo_ending(name)) << name;
  for (const char* name : {"a", "jpg", "a.json", "a.jpg.reading.json", "a.mp4", "a.jpg.part"})
    EXPECT_FALSE(has_photo_ending(name)) << name;
}

TEST(PhotoFiles, OverlaysAndHiddenFilesAreNoPhotos) {
  EXPECT_TRUE(is_named_like_a_photo("folder/a.png"));
  EXPECT_FALSE(is_named_like_a_photo("folder/a.jpg.overlay.png"));
  EXPECT_FALSE(is_named_like_a_photo("folder/.a.jpg"));
}

TEST(PhotoFiles, OfAFolderComeAsAPersonCounts) {
  std::string pattern = (std::filesystem::temp_directory_path() / "photo-files-XXXXXX").string();
  ASSERT_NE(mkdtemp(pattern.data()), nullptr);
  const std::filesystem::path folder = pattern;
  for (const char* name :
       {"img-10.jpg", "img-2.CR3", "img-2.CR3.overlay.png", "img-2.CR3.reading.json", ".x.jpg"})
    std::ofstream(folder / name) << "x";
  std::filesystem::create_directory(folder / "folder.jpg");
  const auto photos = photos_of_folder(folder);
  ASSERT_TRUE(photos) << photos.error().message;
  EXPECT_THAT(*photos, ElementsAre(folder / "img-2.CR3", folder / "img-10.jpg"));
  std::filesystem::remove_all(folder);
  const auto gone = photos_of_folder(folder);
  ASSERT_FALSE(gone);
  EXPECT_EQ(gone.error().code, ErrorCode::unreadable_photo);
}

TEST(PhotoFiles, NamesCountAsAPersonCounts) {
  EXPECT_TRUE(counts_before("img-2.jpg", "img-10.jpg"));
  EXPECT_FALSE(counts_before("img-10.jpg", "img-2.jpg"));
  EXPECT_TRUE(counts_before("a", "a1"));
  EXPECT_FALSE(counts_before("a", "a"));
  EXPECT_NE(counts_before("a01", "a1"), counts_before("a1", "a01"));
}

}  // namespace
}  // namespace colorlib
