#pragma once
/// A record as lines for a person.

#include <colorlib/naming/namer.hpp>
#include <colorlib/naming/wording.hpp>
#include <colorlib/records/record.hpp>
#include <ostream>
#include <vector>

namespace tintfall {

struct SummaryOptions {
  bool colour = false;   ///< swatches by 24-bit terminal codes
  bool verbose = false;  ///< dropped patches, parts of the uncertainty
  colorlib::Wording wording;
};

/// `words` holds one description a reading, as the person wants to read it (level, kind of terms).
void print_summary(const colorlib::Record& record, const std::vector<colorlib::ColorDescription>& words,
                   const SummaryOptions& options, std::ostream& out);
/// What stands once under all summaries.
void print_caution(std::ostream& out);

}  // namespace tintfall
