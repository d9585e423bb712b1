#include <gmock/gmock.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdio>
#include <iostream>
#include <string>
#include <viewer/command/library_messages.hpp>

namespace tintfall {
namespace {

constexpr const char* noise = "apriltag.c:457:homography_compute2(): WRN: Matrix is singular.\n";

TEST(LibraryMessages, OnlyTheKnownWarningIsNoise) {
  EXPECT_TRUE(is_library_noise(noise));
  for (const char* kept :
       {"", "tintfall: the photo cannot be read\n", "apriltag.c:100:f(): Failed to allocate\n",
        "tintfall: WRN: Matrix is singular.\n"})
    EXPECT_FALSE(is_library_noise(kept)) << kept;
}

// In a process of its own, which sees the rest of its life through the filter.
TEST(LibraryMessages, EverythingElseIsPrinted) {
  int ends[2];
  ASSERT_EQ(::pipe(ends), 0);
  const pid_t child = ::fork();
  ASSERT_GE(child, 0);
  if (child == 0) {
    ::dup2(ends[1], STDERR_FILENO);
    leave_out_library_noise();
    std::fprintf(stderr, "%s:%d:%s(): WRN: Matrix is singular.\n", "apriltag.c", 457, "homography_compute2");
    std::fprintf(stderr, "one %d\n", 1);
    std::cerr << "two\n" << std::flush;
    std::fputs("three\n", stderr);
    ::_exit(0);
  }
  ::close(ends[1]);
  std::string said;
  char block[512];
  for (ssize_t size; (size = ::read(ends[0], block, sizeof block)) > 0;)
    said.append(block, static_cast<std::size_t>(size));
  ::close(ends[0]);
  int status = 0;
  ASSERT_EQ(::waitpid(child, &status, 0), child);
  EXPECT_EQ(said, "one 1\ntwo\nthree\n");
}

}  // namespace
}  // namespace tintfall
