#include <cmath>
#include <fstream>
#include <sstream>
#include <stdexcept>
#include <tests/published/colord_spectra.hpp>

namespace colorlib::colord {

long double Spectra::at(std::size_t row, int nm) const {
  if (nm < start_nm || (nm - start_nm) % step_nm != 0) throw std::out_of_range("no sample there");
  return rows.at(row).at(static_cast<std::size_t>((nm - start_nm) / step_nm));
}

Spectra read(const std::string& file) {
  const std::string path = "/usr/share/colord/" + file;
  std::ifstream stream(path);
  if (!stream) throw std::runtime_error(path + " cannot be opened; install colord-data");
  std::string line;
  double start = 0, end = 0;
  std::size_t bands = 0;
  bool named = false;
  Spectra spectra;
  // The column names are not trusted: one file writes its wavelengths there in thousandths.
  while (std::getline(stream, line)) {
    std::istringstream words(line);
    std::string key;
    if (!(words >> key)) continue;
    if (key == "SPECTRAL_START_NM") words >> start;
    if (key == "SPECTRAL_END_NM") words >> end;
    if (key == "SPECTRAL_BANDS") words >> bands;
    if (key == "SAMPLE_ID") named = true;
    if (key == "BEGIN_DATA") break;
  }
  if (bands < 2) throw std::runtime_error(path + " does not state its bands");
  spectra.start_nm = static_cast<int>(std::lround(start));
  spectra.step_nm = static_cast<int>(std::lround((end - start) / static_cast<double>(bands - 1)));
  std::string word;
  while (stream >> word && word != "END_DATA") {
    spectra.names.push_back(named ? word : "");
    if (named) stream >> word;
    std::vector<long double> row{std::stold(word)};
    while (row.size() < bands && stream >> word) row.push_back(std::stold(word));
    if (row.size() != bands) throw std::runtime_error(path + " ends in the middle of a row");
    spectra.rows.push_back(std::move(row));
  }
  return spectra;
}

}  // namespace colorlib::colord
