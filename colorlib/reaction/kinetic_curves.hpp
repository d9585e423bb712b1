#pragma once
/// How far a reaction has come at a time: the curves of first-order kinetics. Time `since_onset_s` counts
/// from the onset and may be negative: nothing has happened then. Rates in 1/s, positive.

namespace colorlib {

/// 1 - exp(-k u), in [0, 1): a first-order approach to an end.
double first_order_progress(double since_onset_s, double rate);

/// Half time in seconds of a first-order step, ln 2 / k, and the way back.
double half_time_s(double rate);
double rate_from_half_time(double half_time_s);
/// From the onset until `share`, in [0, 1), of the change is done: -ln(1 - share) / k.
double time_to_share_s(double rate, double share);

/// What is there of A, B and C in the consecutive reaction A -> B -> C; the three make up 1.
struct ConsecutiveShares {
  double a = 1, b = 0, c = 0;
};
/// Both steps of first order, rates k1 and k2, in any relation. Error below 1e-12, also where k1 = k2.
ConsecutiveShares consecutive_shares(double since_onset_s, double first_rate, double second_rate);

/// When B is at its most, in seconds from the onset, ln(k1/k2) / (k1 - k2), and how much of it there is then,
/// (k1/k2)^(k2/(k2 - k1)).
struct ConsecutivePeak {
  double since_onset_s = 0, share = 0;
};
ConsecutivePeak consecutive_peak(double first_rate, double second_rate);

}  // namespace colorlib
