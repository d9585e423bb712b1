#pragma once
/// Random numbers that are the same on every platform: no standard distributions are used.

#include <cmath>
#include <cstdint>
#include <numbers>

namespace colorlib::scenes {

/// One step of the splitmix64 generator; also a good mixer of seeds. Source: Steele, Lea & Flood 2014.
inline std::uint64_t splitmix64(std::uint64_t& state) {
  std::uint64_t z = (state += 0x9e3779b97f4a7c15ull);
  z = (z ^ (z >> 30)) * 0xbf58476d1ce4e5b9ull;
  z = (z ^ (z >> 27)) * 0x94d049bb133111ebull;
  return z ^ (z >> 31);
}

/// xoshiro256++ (Blackman & Vigna 2019) with Box-Muller normals.
class Random {
 public:
  /// `stream` gives independent sequences for the same seed, one a purpose.
  explicit Random(std::uint64_t seed, std::uint64_t stream = 0) {
    std::uint64_t s = seed ^ (stream * 0xd1342543de82ef95ull + 0x632be59bd9b4e019ull);
    for (auto& word : state_) word = splitmix64(s);
  }

  std::uint64_t bits() {
    const auto turn = [](std::uint64_t x, int k) { return (x << k) | (x >> (64 - k)); };
    const std::uint64_t result = turn(state_[0] + state_[3], 23) + state_[0];
    const std::uint64_t t = state_[1] << 17;
    state_[2] ^= state_[0];
    state_[3] ^= state_[1];
    state_[1] ^= state_[2];
    state_[0] ^= state_[3];
    state_[2] ^= t;
    state_[3] = turn(state_[3], 45);
    return result;
  }
  /// Uniform in [0, 1).
  double uniform() { return static_cast<double>(bits() >> 11) * 0x1.0p-53; }
  /// Uniform in [low, high).
  double uniform(double low, double high) { return low + (high - low) * uniform(); }
  /// Uniform whole number in [0, count).
  int below(int count) { return static_cast<int>(uniform() * count); }
  bool chance(double probability) { return uniform() < probability; }
  /// Mean 0, standard deviation 1.
  double normal() {
    if (spare_ready_) {
      spare_ready_ = false;
      return spare_;
    }
    const double radius = std::sqrt(-2.0 * std::log(1.0 - uniform()));
    const double angle = 2.0 * std::numbers::pi * uniform();
    spare_ = radius * std::sin(angle);
    spare_ready_ = true;
    return radius * std::cos(angle);
  }
  double normal(double mean, double sd) { return mean + sd * normal(); }

 private:
  std::uint64_t state_[4] = {};
  double spare_ = 0;
  bool spare_ready_ = false;
};

}  // namespace colorlib::scenes
