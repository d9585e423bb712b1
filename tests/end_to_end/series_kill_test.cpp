/// A series that is killed at random moments loses no finished frame and leaves no broken file.
#include <fcntl.h>
#include <gmock/gmock.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <chrono>
#include <colorlib/records/series_record.hpp>
#include <cstdlib>
#include <fstream>
#include <nlohmann/json.hpp>
#include <set>
#include <sstream>
#include <tests/end_to_end/demo_series.hpp>
#include <tests/scenes/random.hpp>
#include <tests/viewer/command/command_run.hpp>
#include <thread>

namespace tintfall {
namespace {

using nlohmann::json;
using testing::Eq;
using testing::IsSupersetOf;

pid_t start(const std::vector<std::string>& arguments) {
  const pid_t child = fork();
  if (child != 0) return child;
  std::vector<char*> call;
  for (const std::string& argument : arguments) call.push_back(const_cast<char*>(argument.c_str()));
  call.push_back(nullptr);
  const int nowhere = open("/dev/null", O_WRONLY);
  dup2(nowhere, STDOUT_FILENO);
  dup2(nowhere, STDERR_FILENO);
  execv(call[0], call.data());
  _exit(127);
}

/// The photos whose whole line stands in the journal.
std::set<std::string> finished(const std::string& journal) {
  std::set<std::string> names;
  std::istringstream stream(journal);
  std::string line;
  std::getline(stream, line);
  while (std::getline(stream, line) && !stream.eof()) names.insert(json::parse(line)["frame"]["photo"]);
  return names;
}

TEST(SeriesKilled, NothingFinishedIsLost) {
  const bool full = std::getenv("TINTFALL_FULL") != nullptr;
  const int kills_wanted = full ? 50 : 8;
  const ScratchFolder scratch;
  write_demo_series(scratch.path(""));
  const std::vector<std::string> call{TINTFALL_PROGRAM,
                                      "series",
                                      scratch.path("series"),
                                      "--reference",
                                      scratch.path("ref.txt"),
                                      "--regions",
                                      scratch.path("regions.json"),
                                      "--applied",
                                      "+6",
                                      "--quiet",
                                      "--json",
                                      scratch.path("out.json")};
  int status = 0;
  const auto began = std::chrono::steady_clock::now();
  waitpid(start(call), &status, 0);
  const auto whole = std::chrono::steady_clock::now() - began;
  ASSERT_THAT(status, Eq(0));
  const std::string undisturbed = scratch.read("out.json");
  EXPECT_FALSE(scratch.has("out.json.journal"));

  colorlib::scenes::Random random(20261125);
  int kills = 0, rounds = 0, kept = 0;
  std::set<std::string> before;
  std::filesystem::remove(scratch.path("out.json"));
  while (kills < kills_wanted && rounds < 10 * kills_wanted) {
    ++rounds;
    const pid_t child = start(call);
    std::this_thread::sleep_for(
        std::chrono::duration<double>(random.uniform() * 0.7 * std::chrono::duration<double>(whole).count()));
    kill(child, SIGKILL);
    waitpid(child, &status, 0);
    if (WIFSIGNALED(status)) {
      ++kills;
      // No output yet, or a whole one.
      if (scratch.has("out.json")) {
        EXPECT_TRUE(scratch.read("out.json") == undisturbed);
      }
      const auto now = scratch.has("out.json.journal") ? finished(scratch.read("out.json.journal"))
                                                       : std::set<std::string>();
      if (!scratch.has("out.json")) {
        EXPECT_THAT(now, IsSupersetOf(before)) << "kill " << kills;
        before = now;
        kept += static_cast<int>(now.size());
      }
      if (now.size() < demo_series().names.size() && !scratch.has("out.json")) continue;
    }
    // Finished, or about to be: the record must be that of the undisturbed run. Then all over again.
    waitpid(start(call), &status, 0);
    ASSERT_THAT(status, Eq(0));
    EXPECT_TRUE(scratch.read("out.json") == undisturbed);
    std::filesystem::remove(scratch.path("out.json"));
    before.clear();
  }
  EXPECT_THAT(kills, Eq(kills_wanted));
  waitpid(start(call), &status, 0);
  EXPECT_THAT(status, Eq(0));
  EXPECT_TRUE(scratch.read("out.json") == undisturbed);
  // Neither journal nor scraps of outputs stay behind.
  EXPECT_THAT(scratch.entries(), Eq(4)) << "series, ref.txt, regions.json, out.json";
  std::printf("%d kills in %d runs, %d finished frames found again\n", kills, rounds, kept);
  const char* folder = std::getenv("TINTFALL_RESULTS_DIR");
  if (!full || folder == nullptr || HasFailure()) return;
  std::ofstream file(std::string(folder) + "/interrupted_series.md");
  file << "# A series killed again and again\n\nWritten by `./run tests --full`: `tintfall series` on a "
          "rendered series of "
       << demo_series().names.size()
       << " photos, killed (SIGKILL) at random moments.\n\n| kills | runs | finished frames found "
          "again after a kill | frames lost | broken or left-over files | records that differ from the "
          "undisturbed one |\n"
          "| --- | --- | --- | --- | --- | --- |\n| "
       << kills << " | " << rounds << " | " << kept
       << " | 0 | 0 | 0 |\n\nThe test fails when one of the zeros is none.\n";
  EXPECT_TRUE(file.flush());
}

TEST(SeriesKilled, AnInterruptKeepsWhatIsDoneAndSaysHowToGoOn) {
  const ScratchFolder scratch;
  write_demo_series(scratch.path(""));
  const std::vector<std::string> call{
      TINTFALL_PROGRAM, "series", scratch.path("series"),  "--regions", scratch.path("regions.json"),
      "--quiet",        "--json", scratch.path("out.json")};
  // Interrupted as soon as the first frame is kept.
  const pid_t child = start(call);
  for (int i = 0;
       i < 2000 && (!scratch.has("out.json.journal") || finished(scratch.read("out.json.journal")).empty());
       ++i)
    std::this_thread::sleep_for(std::chrono::milliseconds(2));
  kill(child, SIGINT);
  int status = 0;
  waitpid(child, &status, 0);
  ASSERT_TRUE(WIFEXITED(status));
  if (WEXITSTATUS(status) == 0) GTEST_SKIP() << "it was done before the interrupt came";
  EXPECT_THAT(WEXITSTATUS(status), Eq(5));
  EXPECT_FALSE(scratch.has("out.json"));
  EXPECT_FALSE(finished(scratch.read("out.json.journal")).empty());
  waitpid(start(call), &status, 0);
  EXPECT_THAT(status, Eq(0));
  EXPECT_FALSE(scratch.has("out.json.journal"));
}

}  // namespace
}  // namespace tintfall
