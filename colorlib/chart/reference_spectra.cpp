#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/chart/reference_spectra_internal.hpp>
#include <iterator>
#include <utility>

namespace colorlib {

std::optional<double> wavelength_nm_of(std::string_view column) {
  static constexpr std::string_view prefixes[] = {
      "",  "NM",   "SPECTRAL_NM", "SPECTRAL",    "SPEC", "SPECTRUM", "SPEC_NM",
      "R", "R_NM", "REFL",        "REFLECTANCE", "WL",   "LAMBDA",   "W"};
  std::string name = upper_case(trimmed(column));
  const auto first_digit = name.find_first_of("0123456789");
  if (first_digit == std::string::npos) return std::nullopt;
  std::string_view prefix = std::string_view(name).substr(0, first_digit);
  while (prefix.ends_with('_') || prefix.ends_with(' ')) prefix.remove_suffix(1);
  if (std::find(std::begin(prefixes), std::end(prefixes), prefix) == std::end(prefixes)) return std::nullopt;
  std::string_view figure = std::string_view(name).substr(first_digit);
  if (figure.ends_with("NM")) figure.remove_suffix(2);
  while (figure.ends_with('_') || figure.ends_with(' ')) figure.remove_suffix(1);
  if (figure.find_first_not_of("0123456789.") != std::string_view::npos) return std::nullopt;
  auto wavelength = number_from(figure);
  if (wavelength && *wavelength >= 200'000) *wavelength /= 1000;
  if (!wavelength || *wavelength < 200 || *wavelength > 1200) return std::nullopt;
  return wavelength;
}

Result<SpectralColumns> spectral_columns_of(const ReferenceSheet& sheet) {
  std::vector<std::pair<double, std::size_t>> found;
  for (std::size_t i = 0; i < sheet.columns.size(); ++i)
    if (const auto wavelength = wavelength_nm_of(sheet.columns[i])) found.emplace_back(*wavelength, i);
  SpectralColumns spectral;
  if (found.size() < 2) return spectral;
  std::sort(found.begin(), found.end());
  spectral.start_nm = found.front().first;
  spectral.step_nm = (found.back().first - found.front().first) / static_cast<double>(found.size() - 1);
  for (std::size_t i = 0; i < found.size(); ++i) {
    const double even_nm = spectral.start_nm + spectral.step_nm * static_cast<double>(i);
    // Names carry at most a thousandth of a nanometre; the longest chain of roundings stays below this.
    constexpr double tolerance_nm = 0.05;
    if (std::abs(found[i].first - even_nm) > tolerance_nm || (i > 0 && found[i].first == found[i - 1].first))
      return fail(ErrorCode::unreadable_reference,
                  fmt::format("Reading the reference values '{}': the wavelengths must go on at even steps, "
                              "column '{}' does not.",
                              quotable(sheet.name, 120), quotable(sheet.columns[found[i].second])),
                  "Export the spectra at even steps, such as every 10 nm.");
    spectral.columns.push_back(found[i].second);
  }
  return spectral;
}

}  // namespace colorlib
