#pragma once
/// Errors are values: a Result<T> holds a T or an Error whose words reach the user unchanged.

#include <optional>
#include <string>
#include <string_view>
#include <tl/expected.hpp>
#include <type_traits>
#include <utility>
#include <variant>

namespace colorlib {

/// What kind of thing went wrong. Few on purpose; the sentence carries the detail.
/// `code_name` gives the spelling used in JSON and in docs/reference/error_codes.md.
enum class ErrorCode {
  bad_call,              ///< the caller asked for something that cannot be meant
  unreadable_photo,      ///< missing, empty, truncated, damaged, or beyond the size limits
  unsupported_photo,     ///< a sound file of a kind that cannot serve (CMYK, HDR, no colour, ...)
  unreadable_chart,      ///< chart definition missing or malformed
  unreadable_reference,  ///< reference values missing, malformed, or not matching the chart
  unreadable_regions,    ///< regions file missing or malformed, or a region off the sheet
  unreadable_record,     ///< a reading record missing or malformed
  unreadable_catalogue,  ///< a catalogue missing, damaged, foreign, or of a newer version
  unreadable_table,      ///< a CSV table, scale, fields or times file missing or malformed
  chart_not_found,       ///< no chart in the photo, or not enough of it
  untrustworthy,         ///< everything was read, but no honest number can be given
  cannot_write,          ///< an output could not be written; what was there before is untouched
  cancelled,             ///< the caller asked to stop
};

/// The stable spelling of a code, e.g. "chart-not-found".
std::string_view code_name(ErrorCode code);
/// The reverse; nothing for a code that only a later version knows.
std::optional<ErrorCode> code_from_name(std::string_view name);

/// One failure, in words a user can act on.
struct Error {
  ErrorCode code;
  std::string message;  ///< what we were doing, what we found, what we needed: one sentence
  std::string advice;   ///< what to do about it: one sentence
};

/// Either a T or an Error; may not be ignored.
template <class T>
class [[nodiscard]] Result : public tl::expected<T, Error> {
 public:
  using tl::expected<T, Error>::expected;
};

/// `return fail(ErrorCode::unreadable_photo, fmt::format("Reading '{}': ...", name), "Take it again.");`
inline tl::unexpected<Error> fail(ErrorCode code, std::string message, std::string advice = {}) {
  return tl::unexpected<Error>(Error{code, std::move(message), std::move(advice)});
}
/// Passes an error on: `if (!photo) return fail(photo.error());`
inline tl::unexpected<Error> fail(Error error) { return tl::unexpected<Error>(std::move(error)); }

}  // namespace colorlib
