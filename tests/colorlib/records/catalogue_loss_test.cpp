/// Nothing is lost: by kill -9, by two programs at once, by a full disk.
#include <fmt/format.h>
#include <gmock/gmock.h>
#include <sys/resource.h>
#include <sys/wait.h>

#include <csignal>
#include <cstdio>
#include <random>
#include <tests/colorlib/records/catalogue_entries.hpp>
#include <tests/support/postgresql_server.hpp>
#include <thread>

namespace colorlib {
namespace {

using testing::HasSubstr;
using testing::IsEmpty;

Progress silent;

bool full() { return std::getenv("TINTFALL_FULL") != nullptr; }

std::size_t collections_in(Catalogue& catalogue) {
  CatalogueQuery all;
  all.limit = 0;
  return catalogue.list(all)->size();
}

/// Adds made-up collections until it is killed; each acknowledgement is one byte into `acknowledgements`.
[[noreturn]] void add_for_ever(const CatalogueAddress& address, std::size_t first, int acknowledgements) {
  auto catalogue = Catalogue::open(address, Catalogue::Open::create);
  if (!catalogue) ::_exit(1);
  for (std::size_t batch = 0;; ++batch) {
    const auto entries = made_up_entries(first + batch * 25, 25, 4);
    const auto added = catalogue->add(entries, silent, [&](const AddSummary&) {
      if (::write(acknowledgements, "+", 1) != 1) ::_exit(2);
    });
    if (!added) ::_exit(3);
  }
}

std::size_t acknowledged(int pipe) {
  std::size_t count = 0;
  char block[512];
  for (ssize_t read; (read = ::read(pipe, block, sizeof block)) > 0;) count += static_cast<std::size_t>(read);
  return count;
}

/// Kills a bulk addition `times` times at random moments into the same catalogue; everything acknowledged
/// must be there afterwards.
void kill_often(const CatalogueAddress& address, int times) {
  constexpr unsigned seed = 20261125;
  std::mt19937 random(seed);
  std::uniform_int_distribution<int> moment_ms(1, 250);
  std::size_t least = 0;
  { ASSERT_TRUE(Catalogue::open(address, Catalogue::Open::create)); }
  for (int time = 0; time < times; ++time) {
    int ends[2];
    ASSERT_EQ(::pipe(ends), 0);
    const std::size_t first = static_cast<std::size_t>(time) * 1'000'000;
    const pid_t child = ::fork();
    ASSERT_GE(child, 0);
    if (child == 0) add_for_ever(address, first, ends[1]);
    ::close(ends[1]);
    ::usleep(static_cast<useconds_t>(moment_ms(random)) * 1000);
    ASSERT_EQ(::kill(child, SIGKILL), 0);
    int status = 0;
    ASSERT_EQ(::waitpid(child, &status, 0), child);
    ASSERT_TRUE(WIFSIGNALED(status)) << "it ended by itself with " << WEXITSTATUS(status);
    const std::size_t batches = acknowledged(ends[0]);
    ::close(ends[0]);
    least += batches * 25;
    auto catalogue = Catalogue::open(address, Catalogue::Open::existing);
    ASSERT_TRUE(catalogue) << catalogue.error().message;
    for (std::size_t i = 0; i < batches * 25; i += 24) {
      const auto entry = catalogue->show(fmt::format("M-{:08}", first + i));
      ASSERT_TRUE(entry) << "acknowledged and lost";
      ASSERT_EQ(entry->records.size(), 4u);
    }
    ASSERT_GE(collections_in(*catalogue), least);
    if (time % 10 == 9 || time + 1 == times) {
      ASSERT_THAT(catalogue->check(silent)->problems, IsEmpty());
    }
  }
  auto catalogue = Catalogue::open(address, Catalogue::Open::existing);
  std::printf("%d kills (seed %u): %zu collections acknowledged, %zu there, none torn\n", times, seed, least,
              collections_in(*catalogue));
  EXPECT_GT(least, 0u) << "every kill came before the first batch: nothing was tested";
}

TEST(CatalogueLoss, KillsLoseNothingAcknowledged) {
  const ScratchCatalogue scratch;
  kill_often(scratch.address(), full() ? 100 : 12);
}

TEST(CatalogueLoss, KillsLoseNothingOnAServer) {
  PostgresqlServer* server = PostgresqlServer::shared();
  if (server == nullptr) GTEST_SKIP() << PostgresqlServer::missing();
  kill_often({true, server->new_database()}, full() ? 20 : 3);
}

/// Two processes add 40 batches each, half of the numbers shared.
void write_at_once(const CatalogueAddress& address) {
  { ASSERT_TRUE(Catalogue::open(address, Catalogue::Open::create)); }
  pid_t children[2];
  for (int which = 0; which < 2; ++which) {
    children[which] = ::fork();
    ASSERT_GE(children[which], 0);
    if (children[which] != 0) continue;
    auto catalogue = Catalogue::open(address, Catalogue::Open::existing);
    if (!catalogue) ::_exit(1);
    for (std::size_t batch = 0; batch < 40; ++batch) {
      const auto entries = made_up_entries(batch * 20 + static_cast<std::size_t>(which) * 10, 20, 2);
      if (const auto added = catalogue->add(entries, silent); !added) {
        std::fprintf(stderr, "%s\n", added.error().message.c_str());
        ::_exit(2);
      }
    }
    ::_exit(0);
  }
  for (const pid_t child : children) {
    int status = 0;
    ASSERT_EQ(::waitpid(child, &status, 0), child);
    EXPECT_TRUE(WIFEXITED(status) && WEXITSTATUS(status) == 0) << WEXITSTATUS(status);
  }
  auto catalogue = Catalogue::open(address, Catalogue::Open::existing);
  EXPECT_EQ(collections_in(*catalogue), 810u);
  const auto health = catalogue->check(silent);
  EXPECT_THAT(health->problems, IsEmpty());
  EXPECT_EQ(health->records, 1620u);
  EXPECT_EQ(health->readings, 1620u);
}

TEST(CatalogueLoss, TwoWritersLoseNothing) {
  const ScratchCatalogue scratch;
  write_at_once(scratch.address());
}

TEST(CatalogueLoss, TwoWritersLoseNothingOnAServer) {
  PostgresqlServer* server = PostgresqlServer::shared();
  if (server == nullptr) GTEST_SKIP() << PostgresqlServer::missing();
  write_at_once({true, server->new_database()});
}

// A limit on the size of files stands for a disk with no room.
TEST(CatalogueLoss, AFullDiskIsRefusedInWordsAndNothingIsTorn) {
  const ScratchCatalogue scratch;
  {
    auto catalogue = scratch.open();
    ASSERT_TRUE(catalogue->add(scenario_entries(), silent));
  }
  int ends[2];
  ASSERT_EQ(::pipe(ends), 0);
  const pid_t child = ::fork();
  ASSERT_GE(child, 0);
  if (child == 0) {
    std::signal(SIGXFSZ, SIG_IGN);
    const rlimit limit{600'000, 600'000};
    ::setrlimit(RLIMIT_FSIZE, &limit);
    auto catalogue = scratch.open(Catalogue::Open::existing);
    if (!catalogue) ::_exit(1);
    const auto added = catalogue->add(made_up_entries(0, 2000, 4), silent);
    if (added) ::_exit(2);
    const std::string said =
        fmt::format("{}|{}|{}", code_name(added.error().code), added.error().message, added.error().advice);
    ::_exit(::write(ends[1], said.data(), said.size()) > 0 ? 0 : 3);
  }
  ::close(ends[1]);
  char block[1000];
  const auto size = ::read(ends[0], block, sizeof block);
  const std::string said(block, size > 0 ? static_cast<std::size_t>(size) : 0);
  ::close(ends[0]);
  int status = 0;
  ASSERT_EQ(::waitpid(child, &status, 0), child);
  ASSERT_TRUE(WIFEXITED(status) && WEXITSTATUS(status) == 0) << WEXITSTATUS(status);
  EXPECT_THAT(said, HasSubstr("cannot-write|"));
  EXPECT_THAT(said, HasSubstr("could not grow"));
  auto catalogue = scratch.open(Catalogue::Open::existing);
  ASSERT_TRUE(catalogue) << catalogue.error().message;
  EXPECT_THAT(catalogue->check(silent)->problems, IsEmpty());
  for (const CatalogueEntry& entry : scenario_entries())
    EXPECT_EQ(*catalogue->show(entry.collection.number), entry);
}

}  // namespace
}  // namespace colorlib
