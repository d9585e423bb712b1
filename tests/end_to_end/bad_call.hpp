#pragma once
/// What every refused call owes its caller: exit status, one sentence, advice, JSON where it was asked for,
/// and old outputs untouched.

#include <string>
#include <tests/viewer/command/command_run.hpp>
#include <vector>

namespace tintfall {

/// How a call must fail.
struct Refusal {
  int status = 3;
  std::string code;  ///< as in the error object
  std::string word;  ///< a part of the sentence
};

/// Runs `tintfall` with `--json -` and with `--json FILE` over an existing file, and checks both. The longest
/// time that a refusal may take is 20 s, so that a hang is seen as what it is.
void expect_refused(const std::vector<std::string>& arguments, const Refusal& refusal);

}  // namespace tintfall
