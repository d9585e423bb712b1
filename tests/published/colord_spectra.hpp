#pragma once
/// The spectra of the colord-data package as its files hold them, read without any of colorlib's code.

#include <string>
#include <vector>

namespace colorlib::colord {

/// One file: every row on the same wavelengths.
struct Spectra {
  int start_nm = 0, step_nm = 0;
  std::vector<std::string> names;  ///< as many as rows; empty words where the file names none
  std::vector<std::vector<long double>> rows;

  /// The sample at exactly `nm`; throws where there is none.
  long double at(std::size_t row, int nm) const;
};

/// `file` below the package's folder, e.g. "illuminant/CIE-A.sp". Throws std::runtime_error with the reason.
Spectra read(const std::string& file);

}  // namespace colorlib::colord
