#include <cmath>
#include <colorlib/reaction/kinetic_curves.hpp>
#include <numbers>

namespace colorlib {
namespace {

/// (1 - exp(-x)) / x, 1 at 0.
double mean_decay(double x) { return std::abs(x) < 1e-12 ? 1 - x / 2 : -std::expm1(-x) / x; }

}  // namespace

double first_order_progress(double since_onset_s, double rate) {
  return since_onset_s <= 0 ? 0 : -std::expm1(-rate * since_onset_s);
}

double half_time_s(double rate) { return std::numbers::ln2 / rate; }
double rate_from_half_time(double half_time_s) { return std::numbers::ln2 / half_time_s; }
double time_to_share_s(double rate, double share) { return -std::log1p(-share) / rate; }

ConsecutiveShares consecutive_shares(double since_onset_s, double first_rate, double second_rate) {
  const double u = since_onset_s;
  if (u <= 0) return {};
  ConsecutiveShares shares;
  shares.a = std::exp(-first_rate * u);
  // k1 (exp(-k2 u) - exp(-k1 u)) / (k1 - k2), written with the slower rate in front so that equal rates, and
  // unequal ones of any size, need no case of their own.
  const double slow = std::fmin(first_rate, second_rate), apart = std::abs(first_rate - second_rate);
  shares.b = first_rate * u * std::exp(-slow * u) * mean_decay(apart * u);
  shares.c = std::fmax(0, 1 - shares.a - shares.b);
  return shares;
}

ConsecutivePeak consecutive_peak(double first_rate, double second_rate) {
  const double apart = first_rate - second_rate;
  // ln(k1/k2) / (k1 - k2) tends to 1 / k.
  const double when = std::abs(apart) < 1e-9 * first_rate ? 2 / (first_rate + second_rate)
                                                          : std::log1p(apart / second_rate) / apart;
  return {when, std::exp(-second_rate * when)};
}

}  // namespace colorlib
