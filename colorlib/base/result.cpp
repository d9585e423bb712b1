#include <colorlib/base/result.hpp>

namespace colorlib {

std::string_view code_name(ErrorCode code) {
  switch (code) {
    case ErrorCode::bad_call:
      return "bad-call";
    case ErrorCode::unreadable_photo:
      return "unreadable-photo";
    case ErrorCode::unsupported_photo:
      return "unsupported-photo";
    case ErrorCode::unreadable_chart:
      return "unreadable-chart";
    case ErrorCode::unreadable_reference:
      return "unreadable-reference";
    case ErrorCode::unreadable_regions:
      return "unreadable-regions";
    case ErrorCode::unreadable_record:
      return "unreadable-record";
    case ErrorCode::unreadable_catalogue:
      return "unreadable-catalogue";
    case ErrorCode::unreadable_table:
      return "unreadable-table";
    case ErrorCode::chart_not_found:
      return "chart-not-found";
    case ErrorCode::untrustworthy:
      return "untrustworthy";
    case ErrorCode::cannot_write:
      return "cannot-write";
    case ErrorCode::cancelled:
      return "cancelled";
  }
  return "unknown";
}

}  // namespace colorlib
