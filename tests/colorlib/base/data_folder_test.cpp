#include <gtest/gtest.h>

#include <colorlib/base/data_folder.hpp>
#include <cstdlib>
#include <filesystem>
#include <optional>
#include <string>

namespace colorlib {
namespace {

/// Sets an environment variable and puts back what was there.
class Environment {
 public:
  Environment(const char* name, const char* value) : name_(name) {
    if (const char* old = std::getenv(name)) old_ = old;
    value ? ::setenv(name, value, 1) : ::unsetenv(name);
  }
  ~Environment() { old_ ? ::setenv(name_, old_->c_str(), 1) : ::unsetenv(name_); }

 private:
  const char* name_;
  std::optional<std::string> old_;
};

TEST(DataFolder, IsTheOneTheEnvironmentStates) {
  const Environment stated("TINTFALL_DATA", "some/where");
  EXPECT_EQ(data_folder(), "some/where");
}

TEST(DataFolder, IsTheSourceTreeOfThisBuildOtherwise) {
  const Environment unset("TINTFALL_DATA", nullptr);
  EXPECT_TRUE(std::filesystem::equivalent(data_folder(), TINTFALL_SOURCE_FOLDER));
  EXPECT_TRUE(std::filesystem::is_directory(data_folder() / "reference"));
}

TEST(DataFolder, AnEmptyVariableStatesNothing) {
  const Environment empty("TINTFALL_DATA", "");
  EXPECT_TRUE(std::filesystem::equivalent(data_folder(), TINTFALL_SOURCE_FOLDER));
}

}  // namespace
}  // namespace colorlib
