#pragma once
/// One sub-command of `tintfall`: what it is called, which options it takes, what it does.

#include <string_view>
#include <viewer/command/streams.hpp>

namespace CLI {
class App;
}

namespace tintfall {

/// One instance serves one call: `declare` binds members to options, the parser fills them, `run` uses them.
class Command {
 public:
  virtual ~Command() = default;
  /// The word after `tintfall`.
  virtual std::string_view name() const = 0;
  /// One line for the list of commands.
  virtual std::string_view summary() const = 0;
  /// Adds options, positionals, a footer. `app` outlives the command's `run`.
  virtual void declare(CLI::App& app) = 0;
  /// The exit status (exit_status.hpp). Called once, after the options were parsed.
  virtual int run(Streams& streams) = 0;
};

}  // namespace tintfall
