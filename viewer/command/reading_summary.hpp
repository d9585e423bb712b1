#pragma once
/// A record as lines for a person.

#include <colorlib/naming/namer.hpp>
#include <colorlib/naming/wording.hpp>
#include <colorlib/reaction/protocol.hpp>
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
/// Whether a reagent spot stands in it, read or refused.
bool shows_reagent_spot(const colorlib::Record& record);
/// How what was used or made is handled, under the summaries.
void print_handling(const colorlib::Protocol& protocol, bool reagent_used, std::ostream& out);
/// What stands once under all summaries of photos. Which reagent it was a photo does not say: what goes for
/// every reagent stands there when a spot of one was read.
void print_reading_cautions(bool reagent_spot, std::ostream& out);
/// What stands once under everything else that shows colours.
void print_caution(std::ostream& out);

}  // namespace tintfall
