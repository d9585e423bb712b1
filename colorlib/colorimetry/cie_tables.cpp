#include <fmt/format.h>

#include <colorlib/base/reference_table.hpp>
#include <colorlib/colorimetry/cie_tables.hpp>

namespace colorlib {
namespace {

constexpr double first_nm = 380, step_nm = 5;
constexpr std::size_t bands = 81;

/// The columns of these names as spectra, after a look at the wavelengths.
Result<std::vector<Spectrum>> read_spectra(const std::filesystem::path& path, std::string_view what,
                                           const std::vector<std::string_view>& names) {
  const auto table = ReferenceTable::read(path, what);
  if (!table) return fail(table.error());
  std::vector<std::string_view> wanted{"wavelength_nm"};
  wanted.insert(wanted.end(), names.begin(), names.end());
  const auto columns = table->require(wanted);
  if (!columns) return fail(columns.error());
  if (table->rows() != bands)
    return fail(ErrorCode::unreadable_table,
                fmt::format("Reading {} '{}': {} rows found, 380 to 780 nm by 5 nm makes {}.", what,
                            table->name(), table->rows(), bands),
                "Put back the file that came with the program.");
  std::vector<Spectrum> spectra(names.size(), Spectrum{first_nm, step_nm, {}});
  for (std::size_t row = 0; row < bands; ++row) {
    const auto wavelength = table->number(row, columns->front());
    if (!wavelength) return fail(wavelength.error());
    if (*wavelength != first_nm + step_nm * static_cast<double>(row))
      return fail(
          ErrorCode::unreadable_table,
          fmt::format("Reading {} '{}', line {}: {:g} nm found where {:g} nm belongs.", what, table->name(),
                      table->line(row), *wavelength, first_nm + step_nm * static_cast<double>(row)),
          "Put back the file that came with the program.");
    for (std::size_t i = 0; i < spectra.size(); ++i) {
      const auto value = table->number(row, (*columns)[i + 1]);
      if (!value) return fail(value.error());
      spectra[i].values.push_back(*value);
    }
  }
  return spectra;
}

}  // namespace

const Spectrum& CieTables::illuminant(Illuminant which) const {
  switch (which) {
    case Illuminant::a:
      return illuminant_a;
    case Illuminant::c:
      return illuminant_c;
    case Illuminant::d50:
      return illuminant_d50;
    case Illuminant::d65:
      break;
  }
  return illuminant_d65;
}

Result<CieTables> read_cie_tables(const std::filesystem::path& reference_folder) {
  auto functions = read_spectra(reference_folder / "cie_1931_observer.csv",
                                "the table of the CIE 1931 observer", {"x_bar", "y_bar", "z_bar"});
  if (!functions) return fail(functions.error());
  auto powers = read_spectra(reference_folder / "cie_illuminants.csv", "the table of CIE illuminants",
                             {"a", "c", "d50", "d65"});
  if (!powers) return fail(powers.error());
  auto& f = *functions;
  auto& p = *powers;
  return CieTables{{std::move(f[0]), std::move(f[1]), std::move(f[2])},
                   std::move(p[0]),
                   std::move(p[1]),
                   std::move(p[2]),
                   std::move(p[3])};
}

}  // namespace colorlib
