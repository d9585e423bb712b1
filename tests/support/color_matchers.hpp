#pragma once
/// Assertions in the domain's words, and printers for colours.

#include <fmt/format.h>
#include <gmock/gmock.h>

#include <colorlib/base/result.hpp>
#include <colorlib/colorimetry/color_difference.hpp>
#include <colorlib/colorimetry/color_types.hpp>
#include <ostream>

namespace colorlib {

inline void PrintTo(const Lab& c, std::ostream* out) {
  *out << fmt::format("Lab({:.4f}, {:.4f}, {:.4f})", c.l, c.a, c.b);
}
inline void PrintTo(const Xyz& c, std::ostream* out) {
  *out << fmt::format("XYZ({:.6f}, {:.6f}, {:.6f})", c.x, c.y, c.z);
}
inline void PrintTo(const Error& e, std::ostream* out) {
  *out << fmt::format("{}: {} [{}]", code_name(e.code), e.message, e.advice);
}

/// EXPECT_THAT(lab, NearInDeltaE(expected, 0.05));
MATCHER_P2(NearInDeltaE, expected, tolerance,
           fmt::format("within dE00 {} of Lab({}, {}, {})", tolerance, expected.l, expected.a, expected.b)) {
  const double distance = difference_ciede2000(arg, expected);
  *result_listener << fmt::format("dE00 {:.5f} away", distance);
  return distance <= tolerance;
}

/// EXPECT_THAT(result, FailsWith(ErrorCode::unreadable_photo, HasSubstr("truncated")));
MATCHER_P2(FailsWith, code, message_matcher, "fails with the code and a fitting sentence") {
  if (arg.has_value()) {
    *result_listener << "succeeded";
    return false;
  }
  *result_listener << fmt::format("{}: {} [{}]", code_name(arg.error().code), arg.error().message,
                                  arg.error().advice);
  return arg.error().code == code && !arg.error().advice.empty() &&
         testing::ExplainMatchResult(message_matcher, arg.error().message, result_listener);
}

}  // namespace colorlib
