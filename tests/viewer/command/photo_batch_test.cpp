#include <gmock/gmock.h>

#include <atomic>
#include <chrono>
#include <new>
#include <stdexcept>
#include <tests/viewer/command/command_run.hpp>
#include <thread>
#include <viewer/command/photo_batch.hpp>
#include <viewer/command/photo_list.hpp>
#include <viewer/command/series_options.hpp>

namespace tintfall {
namespace {

using namespace colorlib;
using testing::ElementsAre;
using testing::HasSubstr;

TEST(PhotoList, OfAFolderIsItsPhotographsByName) {
  const ScratchFolder scratch;
  for (const char* name :
       {"b.jpg", "A.TIF", "c.dng", "c.dng.overlay.png", "c.dng.reading.json", "notes.txt", ".hidden.jpg"})
    scratch.write(name, "x");
  const auto list = photo_list_from({scratch.path("b.jpg"), scratch.path("")});
  ASSERT_TRUE(list) << list.error().message;
  EXPECT_TRUE(list->has_folder);
  std::vector<std::string> names;
  for (const std::string& photo : list->photos)
    names.push_back(std::filesystem::path(photo).filename().string());
  EXPECT_THAT(names, ElementsAre("b.jpg", "A.TIF", "b.jpg", "c.dng"));
}

TEST(PhotoList, OfASeriesIsTheSame) {
  const ScratchFolder scratch;
  for (const char* name : {"img-10.jpg", "img-2.nef", "img-2.nef.overlay.png"}) scratch.write(name, "x");
  const auto list = photo_list_from({scratch.path("")});
  const auto photos = photos_from({scratch.path("")});
  ASSERT_TRUE(list && photos);
  std::vector<std::string> of_series, names;
  for (const auto& photo : *photos) {
    of_series.push_back(photo.string());
    names.push_back(photo.filename().string());
  }
  EXPECT_EQ(of_series, list->photos);
  EXPECT_THAT(names, ElementsAre("img-2.nef", "img-10.jpg"));
}

TEST(PhotoList, RefusesAFolderWithoutPhotographs) {
  const ScratchFolder scratch;
  const auto list = photo_list_from({scratch.path("")});
  ASSERT_FALSE(list);
  EXPECT_THAT(list.error().message, HasSubstr("holds no photos"));
}

Result<Record> numbered(std::size_t i) {
  Record record;
  record.photo.name = std::to_string(i);
  if (i % 7 == 3) return fail(ErrorCode::unreadable_photo, "broken " + std::to_string(i));
  return record;
}

// The later ones finish first; all are told, in order.
TEST(PhotoBatch, TellsInOrderWhatSeveralThreadsRead) {
  Progress silent;
  std::vector<std::size_t> told;
  std::atomic<int> at_once{0}, most{0};
  read_photos(
      20, 4,
      [&](std::size_t i, Progress&) {
        const int now = ++at_once;
        for (int seen = most; now > seen && !most.compare_exchange_weak(seen, now);) {
        }
        std::this_thread::sleep_for(std::chrono::milliseconds(i % 4 == 0 ? 12 : 2));
        --at_once;
        if (i == 5) throw std::runtime_error("a mistake");
        return numbered(i);
      },
      [&](std::size_t i, Result<Record> result) {
        told.push_back(i);
        EXPECT_EQ(result.has_value(), i % 7 != 3 && i != 5) << i;
        if (result) {
          EXPECT_EQ(result->photo.name, std::to_string(i));
        }
      },
      silent);
  ASSERT_EQ(told.size(), 20u);
  EXPECT_TRUE(std::is_sorted(told.begin(), told.end()));
  EXPECT_GT(most, 1);
  EXPECT_LE(most, 4);
}

TEST(PhotoBatch, StopsWhenAsked) {
  struct Stop : Progress {
    bool cancelled() const override { return true; }
  } stop;
  std::atomic<int> read{0};
  std::size_t cancelled = 0;
  read_photos(
      50, 2,
      [&](std::size_t i, Progress& part) -> Result<Record> {
        ++read;
        for (int k = 0; k < 200 && !part.cancelled(); ++k)
          std::this_thread::sleep_for(std::chrono::milliseconds(5));
        if (part.cancelled()) return fail(ErrorCode::cancelled, "stopped");
        return numbered(i);
      },
      [&](std::size_t, Result<Record> result) {
        cancelled += !result && result.error().code == ErrorCode::cancelled;
      },
      stop);
  EXPECT_LT(read, 5);
  EXPECT_GT(cancelled, 45u);
}

TEST(PhotoBatch, WhatTakingThrowsEndsItAfterItsThreads) {
  Progress silent;
  std::atomic<int> at_work{0}, read{0};
  const auto all = [&] {
    read_photos(
        200, 3,
        [&](std::size_t i, Progress&) {
          ++read, ++at_work;
          std::this_thread::sleep_for(std::chrono::milliseconds(5));
          --at_work;
          return numbered(i);
        },
        [](std::size_t i, const Result<Record>&) {
          if (i == 2) throw std::bad_alloc();
        },
        silent);
  };
  EXPECT_THROW(all(), std::bad_alloc);
  EXPECT_EQ(at_work, 0);
  EXPECT_LT(read, 100) << "the rest need not be read";
}

TEST(PhotoBatch, WhatProgressThrowsEndsItToo) {
  struct Throwing : Progress {
    void report(double, std::string_view) override { throw std::runtime_error("no terminal"); }
  } throwing;
  const auto all = [&] {
    read_photos(
        8, 2,
        [](std::size_t i, Progress&) {
          std::this_thread::sleep_for(std::chrono::milliseconds(5));
          return numbered(i);
        },
        [](std::size_t, const Result<Record>&) {}, throwing);
  };
  EXPECT_THROW(all(), std::runtime_error);
}

TEST(PhotoBatch, MemoryThatRunsOutIsThePhotographsError) {
  Progress silent;
  std::vector<std::string> told;
  read_photos(
      3, 2,
      [](std::size_t i, Progress&) {
        if (i == 1) throw std::bad_alloc();
        return numbered(i);
      },
      [&](std::size_t, const Result<Record>& result) {
        told.push_back(result ? result->photo.name : result.error().message);
      },
      silent);
  EXPECT_THAT(told, ElementsAre("0", "Reading the photo needed more memory than there is.", "2"));
}

TEST(ReadFolder, GivesOneLineARefusal) {
  const ScratchFolder scratch;
  scratch.write("a.jpg", "no photo");
  scratch.write("b.png", "none either");
  const auto run = run_tintfall({"read", scratch.path(""), "--jobs", "2"});
  EXPECT_EQ(run.status, 3);
  EXPECT_THAT(run.out, HasSubstr("a.jpg  refused: "));
  EXPECT_THAT(run.out, HasSubstr("0 read, 2 refused"));
}

}  // namespace
}  // namespace tintfall
