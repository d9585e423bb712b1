#include <colorlib/image/heif_structure_internal.hpp>

namespace colorlib {
namespace {

/// Bits of a NAL unit, its emulation prevention bytes (the 3 of 0, 0, 3) left out. Reading past the end gives
/// zeros and is told.
class Bits {
 public:
  explicit Bits(std::string_view bytes) : bytes_(bytes) {}

  std::uint32_t bit() {
    if (left_ == 0) next_byte();
    --left_;
    return (byte_ >> left_) & 1u;
  }
  std::uint32_t bits(int count) {
    std::uint32_t value = 0;
    while (count-- > 0) value = (value << 1) | bit();
    return value;
  }
  void skip(int count) {
    while (count-- > 0) bit();
  }
  /// Exponential Golomb code, H.265 9.2.
  std::uint32_t golomb() {
    int zeros = 0;
    while (!ended_ && zeros < 31 && bit() == 0) ++zeros;
    return (1u << zeros) - 1 + bits(zeros);
  }
  bool ended() const { return ended_; }

 private:
  void next_byte() {
    if (at_ < bytes_.size() && zeros_ >= 2 && bytes_[at_] == 3) {
      ++at_;
      zeros_ = 0;
    }
    ended_ = at_ >= bytes_.size();
    byte_ = ended_ ? 0 : static_cast<unsigned char>(bytes_[at_++]);
    zeros_ = byte_ == 0 ? zeros_ + 1 : 0;
    left_ = 8;
  }

  std::string_view bytes_;
  std::size_t at_ = 0;
  int zeros_ = 0, left_ = 0;
  std::uint32_t byte_ = 0;
  bool ended_ = false;
};

}  // namespace

std::optional<HevcSize> hevc_size(std::string_view payload) {
  constexpr int profile_bits = 88, level_bits = 8;
  Bits bits(payload);
  bits.skip(4);  // video parameter set
  const std::uint32_t sub_layers = bits.bits(3);
  if (sub_layers > 6) return {};
  bits.skip(1 + profile_bits + level_bits);
  bool has_profile[8] = {}, has_level[8] = {};
  for (std::uint32_t i = 0; i < sub_layers; ++i) {
    has_profile[i] = bits.bit() != 0;
    has_level[i] = bits.bit() != 0;
  }
  if (sub_layers > 0) bits.skip(2 * static_cast<int>(8 - sub_layers));
  for (std::uint32_t i = 0; i < sub_layers; ++i)
    bits.skip((has_profile[i] ? profile_bits : 0) + (has_level[i] ? level_bits : 0));
  if (bits.golomb() > 15) return {};  // sequence parameter set
  const std::uint32_t chroma = bits.golomb();
  if (chroma > 3) return {};
  if (chroma == 3) bits.skip(1);
  const HevcSize size{bits.golomb(), bits.golomb()};
  if (bits.ended()) return {};
  return size;
}

}  // namespace colorlib
