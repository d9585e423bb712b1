#include <fcntl.h>
#include <gmock/gmock.h>
#include <sys/resource.h>
#include <sys/stat.h>
#include <sys/wait.h>
#include <unistd.h>

#include <algorithm>
#include <colorlib/base/file_access.hpp>
#include <csignal>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <tests/support/color_matchers.hpp>

namespace colorlib {
namespace {

namespace fs = std::filesystem;
using testing::HasSubstr;

/// A folder of its own for each test, gone afterwards.
class Files : public testing::Test {
 protected:
  void SetUp() override {
    std::string name = (fs::temp_directory_path() / "file_access_XXXXXX").string();
    ASSERT_NE(::mkdtemp(name.data()), nullptr);
    folder_ = name;
  }
  void TearDown() override { fs::remove_all(folder_); }

  static void put(const fs::path& path, std::string_view bytes) {
    std::ofstream(path, std::ios::binary).write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
  }
  static std::string contents(const fs::path& path) {
    std::ifstream stream(path, std::ios::binary);
    return {std::istreambuf_iterator<char>(stream), {}};
  }
  std::ptrdiff_t entries() const {
    return std::distance(fs::directory_iterator(folder_), fs::directory_iterator());
  }

  static Result<std::string> read(const fs::path& path, std::size_t limit = 1000) {
    return read_file(path, "the chart definition", ErrorCode::unreadable_chart, limit);
  }

  fs::path folder_;
};

/// While it lives, no file grows beyond `bytes`: the disk is full, as far as this process can tell.
class FullDisk {
 public:
  explicit FullDisk(rlim_t bytes) {
    old_handler_ = std::signal(SIGXFSZ, SIG_IGN);
    ::getrlimit(RLIMIT_FSIZE, &old_limit_);
    const rlimit small{bytes, old_limit_.rlim_max};
    ::setrlimit(RLIMIT_FSIZE, &small);
  }
  ~FullDisk() {
    ::setrlimit(RLIMIT_FSIZE, &old_limit_);
    std::signal(SIGXFSZ, old_handler_);
  }

 private:
  rlimit old_limit_{};
  void (*old_handler_)(int) = nullptr;
};

TEST_F(Files, AreReadWhole) {
  std::string bytes("a\0b\r\n\xFF", 6);
  bytes.resize(200'000, 'x');
  put(folder_ / "f", bytes);
  EXPECT_EQ(read(folder_ / "f", bytes.size()).value(), bytes);
}

TEST_F(Files, BeyondTheLimitAreRefused) {
  put(folder_ / "f", std::string(1001, 'x'));
  EXPECT_THAT(read(folder_ / "f"),
              FailsWith(ErrorCode::unreadable_chart, HasSubstr("larger than 1000 bytes")));
}

TEST_F(Files, WithoutEndAreRefusedAtTheLimit) {
  EXPECT_THAT(read("/dev/zero"), FailsWith(ErrorCode::unreadable_chart, HasSubstr("larger than 1000 bytes")));
}

TEST_F(Files, WithAReadErrorAreRefusedNotCutShort) {
  // The first page of a process's memory is never there: opening succeeds, reading gives EIO.
  EXPECT_THAT(read("/proc/self/mem"),
              FailsWith(ErrorCode::unreadable_chart, testing::AllOf(HasSubstr("cannot be read to its end"),
                                                                    HasSubstr("Input/output error"))));
}

TEST_F(Files, MissingEmptyAndFoldersAreToldApart) {
  put(folder_ / "empty", "");
  EXPECT_THAT(read(folder_ / "none"), FailsWith(ErrorCode::unreadable_chart, HasSubstr("does not exist")));
  EXPECT_THAT(read(folder_ / "empty"), FailsWith(ErrorCode::unreadable_chart, HasSubstr("is empty")));
  EXPECT_THAT(read(folder_), FailsWith(ErrorCode::unreadable_chart, HasSubstr("is a folder")));
  EXPECT_THAT(read(folder_ / std::string(5000, 'n')),
              FailsWith(ErrorCode::unreadable_chart, HasSubstr("Reading")));
  EXPECT_THAT(read(folder_ / "none"),
              FailsWith(ErrorCode::unreadable_chart, HasSubstr("the chart definition")));
}

TEST_F(Files, AreWrittenNewAndOver) {
  ASSERT_TRUE(write_file_atomically(folder_ / "f", "first"));
  EXPECT_EQ(contents(folder_ / "f"), "first");
  ASSERT_TRUE(write_file_atomically(folder_ / "f", std::string("\0two", 4)));
  EXPECT_EQ(contents(folder_ / "f"), std::string("\0two", 4));
  ASSERT_TRUE(write_file_atomically(folder_ / "g", ""));
  EXPECT_EQ(contents(folder_ / "g"), "");
  EXPECT_EQ(entries(), 2) << "nothing may be left beside them";
}

TEST_F(Files, AreWrittenIntoTheWorkingFolderByABareName) {
  const auto before = fs::current_path();
  fs::current_path(folder_);
  const auto written = write_file_atomically("bare", "x");
  fs::current_path(before);
  ASSERT_TRUE(written);
  EXPECT_EQ(contents(folder_ / "bare"), "x");
}

TEST_F(Files, WithTheLongestNameAreWritten) {
  ASSERT_TRUE(write_file_atomically(folder_ / std::string(255, 'n'), "x"));
}

TEST_F(Files, SurviveAWriteThatFailsHalfWay) {
  put(folder_ / "f", "the old reading");
  const std::string bytes(20'000, 'x');
  {
    const FullDisk full(4096);
    EXPECT_THAT(write_file_atomically(folder_ / "f", bytes),
                FailsWith(ErrorCode::cannot_write, HasSubstr("File too large")));
  }
  EXPECT_EQ(contents(folder_ / "f"), "the old reading");
  EXPECT_EQ(entries(), 1) << "the half-written file must be gone";
}

TEST_F(Files, AreLeftAloneByAProcessKilledHalfWay) {
  put(folder_ / "f", "the old reading");
  const pid_t child = ::fork();
  ASSERT_GE(child, 0);
  if (child == 0) {
    const rlimit limit{4096, 4096};
    ::setrlimit(RLIMIT_FSIZE, &limit);
    ::signal(SIGXFSZ, SIG_DFL);  // kills at the first byte too many
    (void)write_file_atomically(folder_ / "f", std::string(20'000, 'x'));
    ::_exit(0);
  }
  int status = 0;
  ASSERT_EQ(::waitpid(child, &status, 0), child);
  ASSERT_TRUE(WIFSIGNALED(status));
  EXPECT_EQ(contents(folder_ / "f"), "the old reading");
  const int probe = ::open(folder_.c_str(), O_WRONLY | O_TMPFILE, 0600);
  if (probe < 0) GTEST_SKIP() << "the file system knows no files without a name";
  ::close(probe);
  EXPECT_EQ(entries(), 1) << "no scrap may be left behind";
}

TEST_F(Files, ThatCannotBeWrittenSayWhy) {
  EXPECT_THAT(write_file_atomically(folder_ / "none" / "f", "x"),
              FailsWith(ErrorCode::cannot_write, HasSubstr("No such file or directory")));
  put(folder_ / "file", "x");
  EXPECT_THAT(write_file_atomically(folder_ / "file" / "f", "x"),
              FailsWith(ErrorCode::cannot_write, HasSubstr("Not a directory")));
  EXPECT_THAT(write_file_atomically(folder_, "x"),
              FailsWith(ErrorCode::cannot_write, HasSubstr("Is a directory")));
  EXPECT_EQ(entries(), 1);
}

TEST_F(Files, ADeviceIsWrittenStraightThrough) {
  EXPECT_TRUE(write_file_atomically("/dev/null", "x"));
  EXPECT_TRUE(fs::is_character_file("/dev/null"));
  EXPECT_THAT(write_file_atomically("/dev/full", "x"),
              FailsWith(ErrorCode::cannot_write, HasSubstr("No space left on device")));
  EXPECT_TRUE(fs::is_character_file("/dev/full"));
}

TEST_F(Files, KeepTheirPermissionsAndNewOnesFollowTheMask) {
  put(folder_ / "private", "x");
  fs::permissions(folder_ / "private", fs::perms::owner_read | fs::perms::owner_write);
  ASSERT_TRUE(write_file_atomically(folder_ / "private", "y"));
  EXPECT_EQ(fs::status(folder_ / "private").permissions(), fs::perms::owner_read | fs::perms::owner_write);
  const mode_t mask = ::umask(027);
  const auto written = write_file_atomically(folder_ / "new", "y");
  ::umask(mask);
  ASSERT_TRUE(written);
  EXPECT_EQ(static_cast<int>(fs::status(folder_ / "new").permissions()), 0640);
}

TEST_F(Files, ALinkStaysALink) {
  put(folder_ / "real", "old");
  fs::create_symlink("real", folder_ / "link");
  ASSERT_TRUE(write_file_atomically(folder_ / "link", "new"));
  EXPECT_TRUE(fs::is_symlink(folder_ / "link"));
  EXPECT_EQ(contents(folder_ / "real"), "new");
}

}  // namespace
}  // namespace colorlib
