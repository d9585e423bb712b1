#include <cmath>
#include <colorlib/calibration/specular_judge_internal.hpp>
#include <colorlib/calibration/specular_judge_weights_internal.hpp>

namespace colorlib {

double specular_log_odds(const EvidenceValues& evidence, bool developed) {
  const SpecularJudge& judge = developed ? judge_developed : judge_linear;
  UnitValues sums = judge.starts;
  for (std::size_t k = 0; k < evidence_count; ++k)
    for (std::size_t u = 0; u < sums.size(); ++u) sums[u] += judge.weights[k][u] * evidence[k];
  double odds = judge.start;
  for (std::size_t u = 0; u < sums.size(); ++u) odds += judge.shares[u] * std::tanh(sums[u]);
  return odds;
}

double specular_threshold(bool developed) { return (developed ? judge_developed : judge_linear).threshold; }

}  // namespace colorlib
