#pragma once
/// The spectral columns of a file of reference values; private to reference_values.cpp.

#include <colorlib/base/result.hpp>
#include <colorlib/chart/reference_sheet_internal.hpp>
#include <cstddef>
#include <optional>
#include <string_view>
#include <vector>

namespace colorlib {

/// Columns in the order of wavelength, at even steps.
struct SpectralColumns {
  double start_nm = 0, step_nm = 0;
  std::vector<std::size_t> columns;
};

/// The wavelength that a column's name states, in nm: SPECTRAL_NM550, SPEC_550, nm550, R_550, 550nm,
/// SPEC_550000 (thousandths) and their like; nothing for any other name.
std::optional<double> wavelength_nm_of(std::string_view column);

/// No columns when the sheet has no spectra. Errors (unreadable_reference): a wavelength twice, uneven steps.
Result<SpectralColumns> spectral_columns_of(const ReferenceSheet& sheet);

}  // namespace colorlib
