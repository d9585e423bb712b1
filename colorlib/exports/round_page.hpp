#pragma once
/// A round on paper: each collector's bias as a picture, the colours that were read, the verdicts.

#include <colorlib/base/result.hpp>
#include <colorlib/colorimetry/color_types.hpp>
#include <string>
#include <vector>

namespace colorlib {

struct RoundPageBias {
  std::string name, words;  ///< of the collector; "bluer, lighter", or why nothing is said
  std::string beside;       ///< what differs in the records; may be empty
  Vector3 bias{};           ///< (L*, a*, b*)
  Vector3 half_width{};     ///< of the 95 % intervals; 0: none can be given
};

struct RoundPageMean {
  std::string collector, verdict;  ///< empty verdict: not judged
  Lab lab;                         ///< D50, 2 degree
  double de00 = 0;                 ///< from the assigned value
};

struct RoundPageItem {
  std::string name, assigned_from;  ///< "reference: ...", or "consensus of 4"
  Lab assigned;
  std::vector<RoundPageMean> means;
};

struct RoundPage {
  std::string title, remark;
  std::string bias_from;  ///< what biases are measured from: "the references"
  std::vector<RoundPageBias> biases;
  std::vector<RoundPageItem> items;
  std::vector<std::string> notes;
};

/// The bytes of a PDF, A4 upright; further pages where items need them. The a*, b* part of each bias is a
/// mark in a square with its intervals as bars, the L* part a mark in the column beside it, all on one scale.
/// Equal calls give equal bytes. Errors: cannot_write.
Result<std::string> round_page_pdf(const RoundPage& page);

}  // namespace colorlib
