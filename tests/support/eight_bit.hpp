#pragma once
/// A photo's stored values in 8 bits, for pictures that tests change and write again.

#include <algorithm>
#include <colorlib/image/photo.hpp>

namespace colorlib {

inline Image8 eight_bit(const Photo& photo) {
  if (const auto* p8 = std::get_if<Image8>(&photo.store())) return *p8;
  const auto& fine = std::get<Image16>(photo.store());
  Image8 coarse(fine.rows, fine.columns, fine.channels);
  std::transform(fine.data.begin(), fine.data.end(), coarse.data.begin(),
                 [](std::uint16_t v) { return static_cast<std::uint8_t>((v + 128) / 257); });
  return coarse;
}

}  // namespace colorlib
