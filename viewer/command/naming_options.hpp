#pragma once
/// How colours are to be named: the options that every naming command shares.

#include <colorlib/naming/color_scale.hpp>
#include <colorlib/naming/namer.hpp>
#include <colorlib/naming/wording.hpp>
#include <filesystem>
#include <string>
#include <vector>

namespace CLI {
class App;
}

namespace tintfall {

/// As typed.
struct NamingChoices {
  int level = 3;
  std::string of = "deposit", spelling = "american";
  std::vector<std::string> words, scales;
  double tolerance_de00 = colorlib::default_tolerance_de00;
  const CLI::App* app = nullptr;  ///< filled by declare_naming
};

/// Adds --level, --of, --tolerance, --scale, --spelling and --words to a command.
void declare_naming(CLI::App& app, NamingChoices& choices);

/// Whether one of these options was said; false for one that the command has taken out.
bool is_said(const NamingChoices& choices, const char* option);

/// Everything loaded that the choices ask for.
struct NamingTools {
  colorlib::Namer namer;
  colorlib::NamingOptions options;
  colorlib::Wording wording;
  std::vector<colorlib::ColorScale> scales;
  double tolerance_de00 = colorlib::default_tolerance_de00;
  bool tolerance_stated = false;
};

/// `folder` as for Namer::load. Errors: bad_call, unreadable_table.
colorlib::Result<NamingTools> naming_tools_from(const NamingChoices& choices,
                                                const std::filesystem::path& folder);

}  // namespace tintfall
