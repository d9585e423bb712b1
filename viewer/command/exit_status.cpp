#include <viewer/command/exit_status.hpp>

namespace tintfall {

int exit_status(colorlib::ErrorCode code) {
  using colorlib::ErrorCode;
  switch (code) {
    case ErrorCode::bad_call:
      return status_bad_call;
    case ErrorCode::unreadable_photo:
    case ErrorCode::unsupported_photo:
    case ErrorCode::unreadable_chart:
    case ErrorCode::unreadable_reference:
    case ErrorCode::unreadable_regions:
    case ErrorCode::unreadable_record:
    case ErrorCode::unreadable_catalogue:
    case ErrorCode::unreadable_table:
    case ErrorCode::cannot_write:
      return status_input;
    case ErrorCode::chart_not_found:
      return status_no_chart;
    case ErrorCode::untrustworthy:
    case ErrorCode::cancelled:
      return status_untrustworthy;
  }
  return status_untrustworthy;
}

}  // namespace tintfall
