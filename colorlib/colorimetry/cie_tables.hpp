#pragma once
/// The CIE's observer and illuminants, read from the project's own tables.

#include <colorlib/base/result.hpp>
#include <colorlib/colorimetry/spectrum.hpp>
#include <filesystem>

namespace colorlib {

enum class Illuminant { a, c, d50, d65 };

/// The CIE 1931 observer (2 degree) and four illuminants, all from 380 to 780 nm by 5 nm. The illuminants are
/// relative power: 1 at 560 nm, but C on the scale of its old table (1.053 there).
struct CieTables {
  Observer observer_1931;
  Spectrum illuminant_a, illuminant_c, illuminant_d50, illuminant_d65;

  const Spectrum& illuminant(Illuminant which) const;
};

/// Reads `cie_1931_observer.csv` and `cie_illuminants.csv` in `reference_folder` (data_folder() /
/// "reference"). Errors (unreadable_table): a file or column is missing, a cell is not a number, wavelengths
/// not 380 to 780 by 5.
Result<CieTables> read_cie_tables(const std::filesystem::path& reference_folder);

}  // namespace colorlib
