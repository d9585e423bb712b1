#include <colorlib/base/median.hpp>
#include <colorlib/colorimetry/median_color.hpp>
#include <vector>

namespace colorlib {

Lab median_color(std::span<const Lab> colors) {
  Vector3 middle{};
  for (std::size_t k = 0; k < 3; ++k) {
    std::vector<double> values;
    for (const Lab& lab : colors) values.push_back(vector_from(lab)[k]);
    middle[k] = median(std::move(values));
  }
  return lab_from(middle);
}

}  // namespace colorlib
