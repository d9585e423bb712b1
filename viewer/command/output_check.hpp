#pragma once
/// Whether an output can be written, asked before the work begins.

#include <colorlib/base/result.hpp>
#include <string>
#include <string_view>
#include <variant>

namespace tintfall {

/// Looks at the output's folder, and at what stands in its place; writes nothing. Empty and "-" are fine.
/// `option` is what named it ("--json"). Errors: cannot_write.
colorlib::Result<std::monostate> check_can_write(std::string_view option, const std::string& output);

}  // namespace tintfall
