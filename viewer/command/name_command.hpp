#pragma once
#include <string>
#include <vector>
#include <viewer/command/command.hpp>
#include <viewer/command/json_output.hpp>
#include <viewer/command/naming_options.hpp>

namespace CLI {
class Option;
}

namespace tintfall {

/// `tintfall name`: one colour from the call, or a list from standard input.
class NameCommand : public Command {
 public:
  std::string_view name() const override { return "name"; }
  std::string_view summary() const override {
    return "Words for a colour: plain-language name, alternatives, Munsell notation, trade terms";
  }
  void declare(CLI::App& app) override;
  int run(Streams& streams) override;

 private:
  int name_one(const NamingTools& tools, Streams& streams) const;
  int name_list(const NamingTools& tools, Streams& streams) const;
  int list_known_words(const NamingTools& tools, Streams& streams) const;

  std::vector<std::string> color_;
  std::vector<std::string> terms_;
  std::vector<double> expanded_;
  std::string white_ = "D50";
  const CLI::Option* white_option_ = nullptr;
  bool known_ = false;
  NamingChoices naming_;
  JsonTarget json_;
};

}  // namespace tintfall
