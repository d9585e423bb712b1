#include <CLI/App.hpp>
#include <CLI/Config.hpp>
#include <CLI/Formatter.hpp>
#include <CLI/Validators.hpp>
#include <viewer/command/naming_options.hpp>

namespace tintfall {

using namespace colorlib;

void declare_naming(CLI::App& app, NamingChoices& choices) {
  choices.app = &app;
  app.add_option("--level", choices.level, "How finely to name: 1 (13 names), 2 (29) or 3 (267)")
      ->check(CLI::Range(1, 3))
      ->capture_default_str();
  app.add_option("--of", choices.of, "Whose trade terms to use: deposit, bruise or reaction")
      ->check(CLI::IsMember({"deposit", "bruise", "reaction"}))
      ->capture_default_str();
  app.add_option("--tolerance", choices.tolerance_de00,
                 "What counts as the same colour, in CIEDE2000; stated, it also replaces the tolerances of "
                 "trade terms")
      ->check(CLI::Range(0.0, 50.0))
      ->capture_default_str();
  app.add_option("--scale", choices.scales,
                 "A scale of your own beside the names: CSV (name,L,a,b) or CGATS; repeatable")
      ->type_name("FILE")
      ->expected(1)
      ->take_all();
  app.add_option("--spelling", choices.spelling, "american (as the names are published) or british")
      ->check(CLI::IsMember({"american", "british"}))
      ->capture_default_str();
  app.add_option("--words", choices.words,
                 "A file with other words for the names: CSV (published,said); repeatable")
      ->type_name("FILE")
      ->expected(1)
      ->take_all();
}

bool is_said(const NamingChoices& choices, const char* option) {
  const CLI::Option* known = choices.app != nullptr ? choices.app->get_option_no_throw(option) : nullptr;
  return known != nullptr && known->count() > 0;
}

Result<NamingTools> naming_tools_from(const NamingChoices& choices, const std::filesystem::path& folder) {
  auto namer = Namer::load(folder);
  if (!namer) return fail(namer.error());
  auto wording =
      Wording::for_spelling(choices.spelling == "british" ? Spelling::british : Spelling::american, folder);
  if (!wording) return fail(wording.error());
  NamingTools tools{std::move(*namer), {}, std::move(*wording), {}, choices.tolerance_de00, false};
  tools.tolerance_stated = is_said(choices, "--tolerance");
  tools.options.level = static_cast<NameLevel>(choices.level);
  tools.options.terms = choices.of == "bruise"     ? TermKind::bruise
                        : choices.of == "reaction" ? TermKind::reaction
                                                   : TermKind::deposit;
  for (const auto& file : choices.words)
    if (const auto added = tools.wording.add(file); !added) return fail(added.error());
  for (const auto& file : choices.scales) {
    auto scale = ColorScale::load(file, tools.namer.renotation(), choices.tolerance_de00);
    if (!scale) return fail(scale.error());
    tools.scales.push_back(std::move(*scale));
  }
  return tools;
}

}  // namespace tintfall
