#pragma once
/// Short codes that a reading or a photo carries, each with what to do. The list with reasons:
/// docs/reference/flags.md.

#include <string>
#include <string_view>
#include <vector>

namespace colorlib {

struct Flag {
  std::string code;    ///< "clipped", "specular", "uneven-light", "small-region", ...
  std::string advice;  ///< one sentence
};

/// The flag of a known code with its advice.
Flag flag(std::string_view code);
/// The flag of a code that was read from a file; without advice when this build does not know the code.
Flag flag_of_code(std::string code);
/// All codes this build can give, each once.
std::vector<Flag> known_flags();

}  // namespace colorlib
