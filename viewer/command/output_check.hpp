#pragma once
/// What a call writes, held against what it reads, asked before the work begins.

#include <colorlib/base/result.hpp>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace tintfall {

/// What may be named as an output.
enum class OutputKind {
  file,     ///< a file that no photo's name may be said for
  picture,  ///< a file that may end in .png, as photos do, too
  text,     ///< a file, or "-" for standard output
};

/// A file that a call will write. Empty: none.
struct Output {
  std::string option;  ///< what named it ("--json")
  std::string file;
  OutputKind kind = OutputKind::file;
};

/// Every file of one call.
struct CallFiles {
  std::vector<std::string> inputs;  ///< empty names are passed over
  std::vector<Output> outputs;
};

/// The rule of every command that writes: no output is one of the inputs, and no two outputs are one file, by
/// whatever path, symbolic or hard link they are named. What is written to a device or pipe replaces nothing.
/// Errors: bad_call.
colorlib::Result<std::monostate> check_kept_apart(const CallFiles& files);

/// Each output is named as its kind may be: a mistyped call must cost no photo, not even one that was to be
/// read but slid into an option, and leave no file called "-". Errors: bad_call.
colorlib::Result<std::monostate> check_names(const std::vector<Output>& outputs);

/// Looks at the output's folder, and at what stands in its place; writes nothing. Empty and "-" are fine.
/// `option` is what named it ("--json"). Errors: cannot_write.
colorlib::Result<std::monostate> check_can_write(std::string_view option, const std::string& output);

/// An output of one format only, told by its ending (".png") in any case; asked before check_names, which
/// tells less of a photo's name. Empty, "-" and folders are fine here. Errors: bad_call.
colorlib::Result<std::monostate> check_ending(std::string_view option, const std::string& output,
                                              const std::string& ending);

/// Kept apart, named as its kind may be, and writable: every output. Errors: bad_call, cannot_write.
colorlib::Result<std::monostate> check_files(const CallFiles& files);

}  // namespace tintfall
