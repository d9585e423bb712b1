#pragma once
/// What became of each photograph of a batch, one line each.

#include <colorlib/naming/wording.hpp>
#include <colorlib/records/record.hpp>
#include <optional>
#include <ostream>
#include <string>
#include <vector>

namespace tintfall {

struct PhotoOutcome {
  std::string photo;
  std::optional<colorlib::Record> record;
  std::string reason;  ///< why there is none
};

/// One line a reading, one a refusal with its reason, and a count.
void print_table(const std::vector<PhotoOutcome>& outcomes, const colorlib::Wording& wording,
                 std::ostream& out);

}  // namespace tintfall
