#pragma once
/// The rules of the tree that a compiler does not check: which room may include which, what headers may drag
/// in, how long a file may grow. They work on texts in memory, so that their own tests can hand them trees
/// that break them.

#include <filesystem>
#include <string>
#include <string_view>
#include <vector>

namespace layering {

struct SourceFile {
  std::string path;  ///< from the root of the tree, with '/'
  std::string text;
};

struct Violation {
  std::string path;
  int line = 0;  ///< counted from 1; 0: the file as a whole
  std::string sentence;
};

/// One `#include` line.
struct Include {
  int line = 0;
  std::string target;   ///< without its brackets or quotes
  bool quoted = false;  ///< "x" instead of <x>
};

/// Every .hpp, .cpp, .cmake and CMakeLists.txt below colorlib/, viewer/, tests/ and cmake/ of `root`.
std::vector<SourceFile> read_tree(const std::filesystem::path& root);

std::vector<Include> includes_of(std::string_view text);

/// The rooms of colorlib, each allowed to include itself and those before it.
const std::vector<std::string>& rooms_in_order();

/// Rooms at the end of the data's way that may not include one another (comparison and exports).
bool side_by_side(std::string_view a, std::string_view b);

/// All rules at once, in the order of the files.
std::vector<Violation> violations_in(const std::vector<SourceFile>& files);

/// One line each: "path:line: sentence".
std::string listed(const std::vector<Violation>& violations);

}  // namespace layering
