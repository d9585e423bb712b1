#pragma once
/// Where `./run tests --full` leaves what it measured.

#include <gtest/gtest.h>

#include <cstdlib>
#include <fstream>
#include <string>

namespace colorlib {

/// Writes `text` to a page of docs/results when TINTFALL_RESULTS_DIR names that folder; a page that cannot be
/// written fails the test.
inline void write_result_page(const std::string& file, const std::string& text) {
  const char* folder = std::getenv("TINTFALL_RESULTS_DIR");
  if (folder == nullptr) return;
  std::ofstream page(std::string(folder) + "/" + file);
  page << text;
  EXPECT_TRUE(page.flush()) << file;
}

}  // namespace colorlib
