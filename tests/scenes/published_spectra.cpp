#include "tests/scenes/published_spectra.hpp"

#include <cmath>
#include <cstdlib>
#include <filesystem>
#include <fstream>
#include <map>
#include <mutex>
#include <sstream>
#include <stdexcept>

namespace colorlib::scenes {
namespace {

std::filesystem::path table_folder() {
  if (const char* chosen = std::getenv("TINTFALL_COLORD")) return chosen;
  return TINTFALL_COLORD_FOLDER;
}

/// All rows of one table on the scenes' grid: linear interpolation, which leaves 5 nm tables as they are.
std::vector<Spectrum> read_table(const std::string& relative) {
  const auto path = table_folder() / relative;
  std::ifstream in(path);
  if (!in) throw std::runtime_error("cannot read " + path.string() + "; install the package colord-data");
  double start_nm = 0, end_nm = 0;
  int bands = 0;
  bool named_rows = false, in_format = false;
  std::string word;
  while (in >> word && word != "BEGIN_DATA") {
    if (word == "SPECTRAL_START_NM") in >> start_nm;
    if (word == "SPECTRAL_END_NM") in >> end_nm;
    if (word == "SPECTRAL_BANDS") in >> bands;
    if (word == "BEGIN_DATA_FORMAT") in_format = true;
    if (in_format && word == "SAMPLE_ID") named_rows = true;
  }
  if (bands < 2) throw std::runtime_error(path.string() + " states no spectral bands");
  const double step = (end_nm - start_nm) / (bands - 1);
  std::vector<Spectrum> rows;
  while (in >> word && word != "END_DATA") {
    std::vector<double> values;
    if (!named_rows) values.push_back(std::stod(word));
    while (static_cast<int>(values.size()) < bands && in >> word) values.push_back(std::stod(word));
    Spectrum s;
    for (int i = 0; i < wave_count; ++i) {
      const double position = std::min(std::max((wave_nm(i) - start_nm) / step, 0.0), bands - 1.0);
      const int low = std::min(static_cast<int>(position), bands - 2);
      const double t = position - low;
      s[i] = (1 - t) * values[static_cast<std::size_t>(low)] + t * values[static_cast<std::size_t>(low) + 1];
    }
    rows.push_back(s);
  }
  return rows;
}

std::array<Spectrum, 3> first_three(const std::vector<Spectrum>& rows) {
  return {rows.at(0), rows.at(1), rows.at(2)};
}

}  // namespace

const std::array<Spectrum, 3>& observer_1931() {
  static const auto table = first_three(read_table("cmf/CIE1931-2deg-XYZ.cmf"));
  return table;
}

const Spectrum& illuminant(const std::string& name) {
  static std::map<std::string, Spectrum> known;
  static std::mutex guard;
  const std::lock_guard lock(guard);
  auto found = known.find(name);
  if (found == known.end())
    found = known.emplace(name, read_table("illuminant/CIE-" + name + ".sp").at(0)).first;
  return found->second;
}

const std::array<Spectrum, 3>& daylight_basis() {
  static const auto table = first_three(read_table("ref/CIE-1986-daylight-SPD.cmf"));
  return table;
}

const std::vector<Spectrum>& test_color_reflectances() {
  static const auto table = [] {
    auto rows = read_table("ref/CIE-TCS.sp");
    rows.resize(14);
    return rows;
  }();
  return table;
}

}  // namespace colorlib::scenes
