#include <fmt/format.h>

#include <CLI/App.hpp>
#include <CLI/Config.hpp>
#include <CLI/Formatter.hpp>
#include <CLI/Validators.hpp>
#include <colorlib/base/data_folder.hpp>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/naming/name_sentence.hpp>
#include <colorlib/records/json_layout.hpp>
#include <istream>
#include <nlohmann/json.hpp>
#include <optional>
#include <viewer/command/exit_status.hpp>
#include <viewer/command/name_answer.hpp>
#include <viewer/command/name_command.hpp>
#include <viewer/command/output_check.hpp>
#include <viewer/command/text_wrap.hpp>

namespace tintfall {
namespace {

using namespace colorlib;

// A line of a list is one colour; anything longer is not.
constexpr std::size_t longest_line = 1000;
constexpr std::size_t most_errors_told = 20;

std::string dumped(const nlohmann::ordered_json& object) {
  return object.dump(-1, ' ', false, nlohmann::json::error_handler_t::replace);
}

/// A line that begins with # and is no hex code.
bool is_remark(std::string_view line) {
  return line.front() == '#' &&
         (line.size() != 7 || line.find_first_not_of("0123456789abcdefABCDEF", 1) != std::string_view::npos);
}

/// One line of `in`, cut off (and the rest skipped) beyond the limit; nothing at the end.
std::optional<std::string> next_line(std::istream& in) {
  std::string line;
  char c = 0;
  bool any = false;
  while (in.get(c)) {
    any = true;
    if (c == '\n') break;
    if (line.size() <= longest_line) line += c;
  }
  if (!any) return std::nullopt;
  return line;
}

}  // namespace

void NameCommand::declare(CLI::App& app) {
  app.add_option(
      "COLOUR", color_,
      "L a b, or a Munsell notation ('7.5YR 5/6', 'N 5'), or an sRGB code (eddbbd). Without it, or with -, a "
      "list is read from standard input, one colour a line, and answered with one line of JSON each");
  app.add_option(
         "-u,--expanded", expanded_,
         "Expanded uncertainty (k = 2): one number for all, or three for L, a and b with commas between")
      ->delimiter(',')
      ->expected(1, 3)
      ->type_name("U|UL,Ua,Ub");
  white_option_ =
      app.add_option("--white", white_,
                     "The white that typed L a b refer to: A, C, D50, D55 or D65; always 2 degree")
          ->capture_default_str();
  app.add_option("--is", terms_,
                 "Ask whether the colour may be called TERM: yes, no or undecided; repeatable")
      ->type_name("TERM")
      ->expected(1)
      ->take_all();
  app.add_flag("--known", known_, "List the words that --is knows, and leave");
  declare_naming(app, naming_);
  declare_json(app, json_);
  app.footer(
      "\nEvery answer is CIELAB relative to D50 and the CIE 1931 2 degree observer.\n"
      "Example: tintfall name 41 20 31 -u 1.2 --is rust");
}

int NameCommand::run(Streams& streams) {
  if (expanded_.size() == 2)
    return report_error(
        {ErrorCode::bad_call, "Two numbers were given for --expanded; one or three were needed.",
         "Write one for all of L, a and b, or three like 1.2,0.8,1.4."},
        json_, streams);
  for (const double expanded : expanded_)
    if (!(expanded >= 0 && expanded <= 100))
      return report_error(
          {ErrorCode::bad_call,
           fmt::format("An expanded uncertainty of {} was given; 0 to 100 is needed.", expanded),
           "Write the expanded uncertainty of L, a and b in CIELAB units."},
          json_, streams);
  const bool from_input = color_.empty() || (color_.size() == 1 && color_.front() == "-");
  CallFiles files{naming_.scales, {json_.output()}};
  files.inputs.insert(files.inputs.end(), naming_.words.begin(), naming_.words.end());
  if (from_input && !known_) files.inputs.emplace_back("/dev/stdin");  // a list that is fed from a file
  if (const auto sound = check_files(files); !sound) return report_error(sound.error(), json_, streams);
  const auto tools = naming_tools_from(naming_, data_folder());
  if (!tools) return report_error(tools.error(), json_, streams);
  if (known_) return list_known_words(*tools, streams);
  return from_input ? name_list(*tools, streams) : name_one(*tools, streams);
}

namespace {

/// What the options say, for one colour after the other.
struct Asking {
  White white;
  std::string white_name;
  Vector3 lab_expanded{};
  std::vector<std::string> terms;

  Result<NameQuestion> question(std::string_view typed, const NamingTools& tools) const {
    const auto color = color_from_text(typed, white, tools.namer.renotation());
    if (!color) return fail(color.error());
    return NameQuestion{std::string(typed), *color, white_name, lab_expanded, terms};
  }
};

Result<Asking> asking_from(const std::string& white_name, const std::vector<double>& expanded,
                           const std::vector<std::string>& terms, const NamingTools& tools) {
  const auto white = white_from_name(white_name);
  if (!white) return fail(white.error());
  Asking asking{*white, white_name, {}, terms};
  for (char& c : asking.white_name) c = static_cast<char>(std::toupper(static_cast<unsigned char>(c)));
  for (std::size_t i = 0; i < 3 && !expanded.empty(); ++i)
    asking.lab_expanded[i] = expanded[std::min(i, expanded.size() - 1)];
  // A word that nobody knows is a mistake of the call, not of a colour.
  NameQuestion probe{"", {{50, 0, 0}, ColorTextKind::lab}, "D50", {}, terms};
  if (!terms.empty())
    if (const auto answered = answer_to(probe, tools); !answered) return fail(answered.error());
  return asking;
}

}  // namespace

int NameCommand::name_one(const NamingTools& tools, Streams& streams) const {
  std::string typed;
  for (const auto& part : color_) typed += (typed.empty() ? "" : " ") + part;
  const auto asking = asking_from(white_, expanded_, terms_, tools);
  if (!asking) return report_error(asking.error(), json_, streams);
  const auto question = asking->question(typed, tools);
  if (!question) return report_error(question.error(), json_, streams);
  if (white_option_->count() > 0 && question->color.kind != ColorTextKind::lab)
    return report_error(
        {ErrorCode::bad_call,
         fmt::format(
             "--white {} was given with {} '{}', and it says which white typed L a b refer to.", white_,
             question->color.kind == ColorTextKind::munsell ? "the Munsell notation" : "the sRGB code",
             typed),
         "Leave --white out: Munsell notations refer to illuminant C, sRGB codes to D65."},
        json_, streams);
  const auto answer = answer_to(*question, tools);
  if (!answer) return report_error(answer.error(), json_, streams);
  if (json_.wanted()) {
    const auto written = write_json(dumped(json_from(*question, *answer, tools)), json_, streams);
    if (!written) return report_error(written.error(), json_, streams);
  }
  if (json_.to_standard_output()) return status_done;
  print(*question, *answer, tools, streams.colour, streams.out);
  streams.out << '\n' << caution_text() << '\n';
  return status_done;
}

int NameCommand::name_list(const NamingTools& tools, Streams& streams) const {
  const auto asking = asking_from(white_, expanded_, terms_, tools);
  if (!asking) return report_error(asking.error(), json_, streams);
  const bool to_file = json_.wanted() && !json_.to_standard_output();
  std::string kept;
  std::size_t number = 0, answered = 0, refused = 0;
  while (const auto line = next_line(streams.in)) {
    ++number;
    const auto typed = trimmed(number == 1 ? without_byte_order_mark(*line) : std::string_view(*line));
    if (typed.empty() || is_remark(typed)) continue;
    std::string said;
    const auto question = asking->question(typed, tools);
    if (question) {
      const auto answer = answer_to(*question, tools);
      if (!answer) return report_error(answer.error(), json_, streams);
      ++answered;
      said = dumped(json_from(*question, *answer, tools)) + "\n";
      if (to_file) streams.out << sentence_from(answer->words, tools.wording) << '\n';
    } else {
      ++refused;
      nlohmann::ordered_json problem;
      problem["line"] = number;
      problem["error"] = error_object(question.error());
      said = dumped(problem) + "\n";
      if (refused <= most_errors_told)
        streams.err << fmt::format("tintfall: line {}: {}\n", number, question.error().message);
    }
    if (to_file)
      kept += said;
    else
      streams.out << json_without_controls(said) << std::flush;
    if (!streams.out) break;  // the reader has stopped
  }
  if (refused > most_errors_told)
    streams.err << fmt::format("tintfall: {} more lines were refused\n", refused - most_errors_told);
  if (answered == 0) {
    if (refused > 0 && !to_file) return status_input;  // each line has said why
    return report_error(
        {ErrorCode::unreadable_table, "Reading colours from standard input: no line held one.",
         "Write one colour a line: L a b, a Munsell notation or an sRGB code."},
        json_, streams);
  }
  if (to_file)
    if (const auto written = write_json(kept, json_, streams); !written)
      return report_error(written.error(), json_, streams);
  return status_done;
}

int NameCommand::list_known_words(const NamingTools& tools, Streams& streams) const {
  nlohmann::ordered_json lists;
  for (const TermKind kind : {TermKind::deposit, TermKind::bruise, TermKind::reaction}) {
    auto& list = lists[fmt::format("{}_terms", term_kind_word(kind))] = nlohmann::ordered_json::array();
    for (const auto& term : tools.namer.trade_terms().terms())
      if (term.kind == kind) list.push_back(tools.wording.said(term.term));
  }
  auto& classes = lists["deposit_classes"] = nlohmann::ordered_json::array();
  for (const auto& known : tools.namer.trade_terms().classes())
    classes.push_back(tools.wording.said(known.name));
  for (const NameLevel level : {NameLevel::broad, NameLevel::middle, NameLevel::full}) {
    auto& list = lists[fmt::format("names_of_level_{}", static_cast<int>(level))] =
        nlohmann::ordered_json::array();
    for (const auto& name : tools.namer.names().names_at(level)) list.push_back(tools.wording.said(name));
  }
  for (const auto& scale : tools.scales)
    for (const auto& entry : scale.entries()) lists["scales"][scale.name()].push_back(entry.name);
  if (const auto written = write_json(dumped(lists), json_, streams); !written)
    return report_error(written.error(), json_, streams);
  if (json_.to_standard_output()) return status_done;
  for (const auto& [heading, words] : lists.items()) {
    if (words.is_object()) continue;
    std::string line = heading + ":";
    for (char& c : line) c = c == '_' ? ' ' : c;
    for (const auto& word : words)
      line += fmt::format("{} {}", &word == &words.front() ? "" : ",", word.get<std::string>());
    streams.out << line << '\n';
  }
  return status_done;
}

}  // namespace tintfall
