#include <algorithm>
#include <array>
#include <colorlib/naming/name_probability.hpp>

namespace colorlib {

std::vector<BlockShare> block_shares(const std::vector<Lab>& distribution,
                                     const MunsellRenotation& renotation, const ColorNames& names) {
  std::array<std::size_t, ColorNames::blocks + 1> counts{};
  for (const auto& color : distribution)
    ++counts[static_cast<std::size_t>(names.block_of(renotation.munsell_from_lab(color).munsell))];
  std::vector<BlockShare> shares;
  for (std::size_t block = 1; block < counts.size(); ++block)
    if (counts[block] > 0)
      shares.push_back({static_cast<int>(block),
                        static_cast<double>(counts[block]) / static_cast<double>(distribution.size())});
  return shares;
}

std::vector<NameProbability> name_probabilities(const std::vector<BlockShare>& shares,
                                                const ColorNames& names, NameLevel level) {
  std::vector<double> sums(names.names_at(level).size(), 0.0);
  for (const auto& share : shares) sums[names.name_index(share.block, level)] += share.probability;
  std::vector<NameProbability> probabilities;
  for (std::size_t name = 0; name < sums.size(); ++name)
    if (sums[name] > 0) probabilities.push_back({name, sums[name]});
  std::stable_sort(
      probabilities.begin(), probabilities.end(),
      [](const NameProbability& a, const NameProbability& b) { return a.probability > b.probability; });
  return probabilities;
}

}  // namespace colorlib
