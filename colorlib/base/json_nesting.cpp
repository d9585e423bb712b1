#include <algorithm>
#include <colorlib/base/json_nesting.hpp>

namespace colorlib {

int json_nesting(std::string_view text) {
  int open = 0, deepest = 0;
  bool quoted = false;
  for (std::size_t i = 0; i < text.size(); ++i) {
    const char c = text[i];
    if (quoted) {
      if (c == '\\') ++i;
      if (c == '"') quoted = false;
    } else if (c == '"') {
      quoted = true;
    } else if (c == '[' || c == '{') {
      deepest = std::max(deepest, ++open);
    } else if (c == ']' || c == '}') {
      --open;
    }
  }
  return deepest;
}

}  // namespace colorlib
