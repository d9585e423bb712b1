#include <fmt/format.h>

#include <colorlib/chart/reference_text.hpp>

namespace colorlib {
namespace {

std::string quoted(std::string text) {
  for (char& c : text) {
    if (c == '"') c = '\'';
    if (static_cast<unsigned char>(c) < 0x20) c = ' ';
  }
  return '"' + text + '"';
}

}  // namespace

std::string reference_text(const ReferenceValues& values,
                           const std::vector<std::pair<std::string, std::string>>& statements) {
  std::string text = "CGATS.17\n\n";
  for (const auto& [keyword, said] : statements) text += fmt::format("{} {}\n", keyword, quoted(said));
  text +=
      "WEIGHTING_FUNCTION \"ILLUMINANT, D50\"\nWEIGHTING_FUNCTION \"OBSERVER, 2 degree\"\n"
      "\nNUMBER_OF_FIELDS 7\nBEGIN_DATA_FORMAT\nSAMPLE_ID LAB_L LAB_A LAB_B STDEV_L STDEV_A "
      "STDEV_B\nEND_DATA_FORMAT\n\n";
  text += fmt::format("NUMBER_OF_SETS {}\nBEGIN_DATA\n", values.patches.size());
  for (const PatchReference& patch : values.patches) {
    const auto& u = patch.standard_uncertainty;
    text += fmt::format("{} {:.4f} {:.4f} {:.4f} {:.4f} {:.4f} {:.4f}\n", quoted(patch.id), patch.lab.l,
                        patch.lab.a, patch.lab.b, u[0], u[1], u[2]);
  }
  return text + "END_DATA\n";
}

}  // namespace colorlib
