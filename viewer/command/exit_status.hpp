#pragma once
/// How the program ends, as scripts see it.

#include <colorlib/base/result.hpp>

namespace tintfall {

inline constexpr int status_done = 0;      ///< at least one reading stands
inline constexpr int status_bad_call = 2;  ///< the call is wrong
inline constexpr int status_input = 3;     ///< an input cannot be read or used, or an output not be written
inline constexpr int status_no_chart = 4;  ///< the chart was not found
inline constexpr int status_untrustworthy =
    5;  ///< no trustworthy result can be given, or the work was stopped

int exit_status(colorlib::ErrorCode code);

}  // namespace tintfall
