#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cctype>
#include <cmath>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/reaction/reaction_text.hpp>

namespace colorlib {
namespace {

/// A change of the controls below this is called none: the least that is called a difference by two careful
/// readings.
constexpr double unchanged_de00 = 1.5;
/// Water that changes by this much wets visibly.
constexpr double wetting_de00 = 1.5;
/// Controls that changed by as much as a strong reaction does, or frames that scatter by it, could hide one.
/// An untreated bruise changes that much by its nature.
constexpr double hiding_de00 = 10;

std::string number_in(double seconds, const DurationUnit& unit) {
  const double value = seconds / unit.seconds;
  std::string text = std::abs(value) < 9.95 ? fmt::format("{:.1f}", value) : fmt::format("{:.0f}", value);
  if (text.ends_with(".0")) text.resize(text.size() - 2);
  return text == "-0" ? "0" : text;
}

/// "2 s" and "1–3", with as many decimals as the interval's width calls for. Of times before the zero how
/// long before; `across` when the interval holds times on both sides of it.
struct IntervalText {
  std::string value, low, high;
  bool across = false;
  std::string interval() const { return fmt::format("{}\u2013{}", low, high); }
};
IntervalText interval_text(const TimeEstimate& time) {
  const DurationUnit unit = duration_unit(*time.value_s);
  const double width = (*time.high_s - *time.low_s) / unit.seconds;
  const int decimals = width >= 3 ? 0 : width >= 0.3 ? 1 : 2;
  const auto number = [&](double seconds) {
    return fmt::format("{:.{}f}", std::abs(seconds) / unit.seconds, decimals);
  };
  const bool before = *time.high_s <= 0;
  return {fmt::format("{} {}", number(*time.value_s), unit.name), number(before ? *time.high_s : *time.low_s),
          number(before ? *time.low_s : *time.high_s), *time.low_s < 0 && *time.high_s > 0};
}

std::string one_decimal(double value) { return fmt::format("{:.1f}", value); }

std::string lower(std::string_view text) {
  std::string result(text);
  for (char& c : result) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  return result;
}

bool mentions_injury(const Protocol& protocol) {
  const std::string damage = lower(trimmed(protocol.damage));
  if (!damage.empty() && damage != "none" && damage != "no") return true;
  for (const std::string* field : {&protocol.tissue, &protocol.zone, &protocol.state, &protocol.remarks})
    for (const char* word : {"bruise", "bruised", "cut", "wound", "scratch", "injur", "damage"})
      if (lower(*field).find(word) != std::string::npos) return true;
  return false;
}

bool check_failed(const Protocol& protocol) {
  const std::string said = lower(trimmed(protocol.known_positive));
  for (const char* word : {"negative", "fail", "none", "no ", "dead"})
    if (said.starts_with(word)) return true;
  return said == "-" || said == "no";
}

class Sentence {
 public:
  Sentence(const Kinetics& kinetics, const ReactionSubject& subject, const Namer& namer,
           const Wording& wording, const ReactionBins& bins)
      : k_(kinetics),
        subject_(subject),
        namer_(namer),
        wording_(wording),
        bins_(bins),
        bruise_(subject.kind == RegionKind::bruise) {}

  ReactionWords words() {
    ReactionWords result;
    judge(result);
    warn(result);
    result.verdict_text = verdict_text(result);
    result.sentence = fmt::format("{}: {}.", head(), body(result));
    return result;
  }

 private:
  /// In the reader's language.
  std::string phrase(std::string_view text, std::initializer_list<std::string_view> filled_in = {}) const {
    return wording_.phrase(text, filled_in);
  }
  std::string name_of(const ColorState& color) const {
    return wording_.said(namer_.describe(color.lab, color.covariance).name.name);
  }
  std::string moment() const {
    if (k_.began_before_zero) return phrase("the stated moment");
    if (subject_.zero == SeriesZero::first_photo) return phrase("the start of the series");
    if (subject_.zero == SeriesZero::found) return phrase("the first frame that shows a change");
    if (!bruise_) return phrase("the drop");
    const std::string method = lower(subject_.protocol.method);
    for (const char* known : {"cut", "press", "scratch", "rub", "break"})
      if (method.find(known) != std::string::npos) return phrase(fmt::format("the {}", known));
    return phrase("the injury");
  }
  std::string place() const {
    const Protocol& p = subject_.protocol;
    std::string place = p.tissue;
    if (!p.zone.empty()) place += fmt::format("{}{}", place.empty() ? "" : ", ", p.zone);
    return place.empty() ? phrase("tissue not said") : place;
  }
  std::string head() const {
    const Protocol& p = subject_.protocol;
    if (bruise_) return phrase("Bruise on %1", {place()});
    const std::string reagent = p.reagent.empty() ? phrase("Reagent not said") : p.reagent;
    return phrase("%1 on %2", {reagent + (p.strength.empty() ? "" : " ") + p.strength, place()});
  }
  std::string control_word() const {
    if (k_.has_bruise_control) return phrase("the untreated bruise");
    if (k_.has_water) return phrase("water");
    if (k_.has_untreated) return phrase("untreated tissue");
    return "";
  }

  void judge(ReactionWords& words) const {
    if (k_.state == KineticsState::described) {
      words.verdict = ReactionVerdict::described_only;
      return;
    }
    const bool may_reach = k_.change_de00 + 0.82 * k_.change_de00_expanded >= k_.threshold_de00;
    if (is_reaction(k_))
      words.verdict = ReactionVerdict::positive;
    else if ((k_.model != KineticModel::none && may_reach) ||
             (k_.threshold_de00 >= hiding_de00 && !k_.has_bruise_control))
      words.verdict = ReactionVerdict::undecided;
    else
      words.verdict = !bruise_ && check_failed(subject_.protocol) ? ReactionVerdict::void_reagent
                                                                  : ReactionVerdict::negative;
    if (words.verdict == ReactionVerdict::negative || words.verdict == ReactionVerdict::void_reagent) {
      words.sign = bins_.signs().front().sign;
      return;
    }
    const SignBin& sign = bins_.sign(k_.change_de00);
    words.sign = sign.sign;
    words.strength = phrase(sign.strength);
    if (words.verdict == ReactionVerdict::positive) {
      words.speed = speed();
      words.color = color();
    }
  }

  /// By the values, or by the bounds that there are: then "or faster", "or slower". Nothing when it is not
  /// known what the onset is to be counted from.
  std::string speed() const {
    if (k_.began_before_zero) return "";
    const auto most = [](const TimeEstimate& e) { return e.value_s ? e.value_s : e.less_than_s; };
    const auto onset = most(k_.onset), half = most(k_.half_time);
    if (onset && half) {
      const bool bound = !k_.onset.value_s || !k_.half_time.value_s;
      const std::string& word = bins_.speed(*onset, *half).word;
      return bound && word != bins_.speeds().front().word ? phrase("%1 or faster", {phrase(word)})
                                                          : phrase(word);
    }
    if (onset && k_.half_time.greater_than_s)
      return phrase("%1 or slower", {phrase(bins_.speed(*onset, *k_.half_time.greater_than_s).word)});
    return "";
  }

  const ReactionPhase& fullest() const {
    for (const ReactionPhase& phase : k_.phases)
      if (phase.kind == PhaseKind::peak || phase.kind == PhaseKind::plateau) return phase;
    return k_.phases.back();
  }

  std::string color() const {
    NamingOptions options;
    options.terms = bruise_ ? TermKind::bruise : TermKind::reaction;
    const ColorState& state = fullest().color;
    const ColorDescription description = namer_.describe(state.lab, state.covariance, options);
    return wording_.said(description.trade_terms.empty() ? description.name.name
                                                         : description.trade_terms.front());
  }

  void warn(ReactionWords& words) const {
    if (k_.began_before_zero)
      words.warnings.push_back(
          phrase("the change began before the stated moment: how soon after the application cannot be told"));
    const bool positive =
        words.verdict == ReactionVerdict::positive || words.verdict == ReactionVerdict::undecided;
    if (!bruise_) {
      if (mentions_injury(subject_.protocol) && !k_.has_bruise_control)
        words.warnings.push_back(
            phrase("bruise control missing: bruising under the drop imitates a reaction"));
      if (!k_.has_water)
        words.warnings.push_back(phrase("water control missing: wetting alone darkens tissue"));
      if (positive && check_failed(subject_.protocol))
        words.warnings.push_back(
            phrase("the reagent failed its known-positive check: doubt the reaction, too"));
    }
    if (!k_.has_water && !k_.has_untreated && !k_.has_bruise_control)
      words.warnings.push_back(
          phrase("no control at all: light that changed stands in the course as change"));
  }

  std::string verdict_text(const ReactionWords& words) const {
    switch (words.verdict) {
      case ReactionVerdict::positive: {
        std::string text = fmt::format("{}, {}", phrase("positive"), words.color);
        if (!words.speed.empty()) text += ", " + words.speed;
        text += fmt::format(", {} ({})", words.strength, words.sign);
        return text;
      }
      case ReactionVerdict::negative: {
        const std::string against = control_word();
        std::string text = against.empty() ? phrase("negative, without a control")
                                           : phrase("negative against %1", {against});
        if (k_.has_water && !k_.has_bruise_control && k_.subtracted_change_de00 >= wetting_de00)
          text += ", " + phrase("wetting only");
        return text;
      }
      case ReactionVerdict::undecided:
        if (k_.model == KineticModel::drift)
          return phrase(
              "undecided: a steady change of ΔE00 %1 over the series, too even for a reaction to be told",
              {one_decimal(k_.change_de00)});
        return phrase("undecided: a change of ΔE00 %1 ± %2, at least %3 can be told from its control",
                      {one_decimal(k_.change_de00), one_decimal(k_.change_de00_expanded),
                       one_decimal(k_.threshold_de00)});
      case ReactionVerdict::void_reagent:
        return phrase("void: reagent failed its known-positive check");
      case ReactionVerdict::described_only:
        return phrase("described only, too few frames for a verdict");
    }
    return "";
  }

  /// "pale yellow → strong blue", or with one name only what changed about it.
  std::string change(const ReactionPhase& from, const ReactionPhase& to) const {
    const std::string a = name_of(from.color), b = name_of(to.color);
    if (a != b) return fmt::format("{} → {}", a, b);
    const ColorChange change = color_change(from.color, to.color, namer_);
    if (change.directions.empty()) return phrase("stays %1", {a});
    std::string ways = phrase(change.directions.front());
    if (change.directions.size() > 1) ways = phrase("%1 and %2", {ways, phrase(change.directions[1])});
    return phrase("stays %1, %2", {a, ways});
  }

  std::string onset_part() const {
    const std::string since = moment();
    if (k_.onset.value_s) {
      const IntervalText time = interval_text(k_.onset);
      const std::string interval =
          time.across ? phrase("%1 before to %2 after", {time.low, time.high}) : time.interval();
      // Only a zero that was found can lie after the beginning: the frame in which it shows comes later.
      return phrase(*k_.onset.value_s < 0 ? "begins %1 before %2 (%3)" : "begins %1 after %2 (%3)",
                    {time.value, since, interval});
    }
    if (k_.onset.less_than_s && *k_.onset.less_than_s < 0)
      return phrase("begins more than %1 before %2", {duration_text(-*k_.onset.less_than_s), since});
    if (k_.onset.less_than_s)
      return phrase("begins within %1 of %2", {duration_text(*k_.onset.less_than_s), since});
    return phrase("its beginning cannot be told");
  }
  std::string half_part() const {
    if (k_.half_time.value_s) {
      const IntervalText time = interval_text(k_.half_time);
      return phrase("halfway %1 later (%2)", {time.value, time.interval()});
    }
    if (k_.half_time.less_than_s)
      return phrase("halfway less than %1 later", {duration_text(*k_.half_time.less_than_s)});
    if (k_.half_time.greater_than_s)
      return phrase("halfway more than %1 later", {duration_text(*k_.half_time.greater_than_s)});
    return phrase("its half time cannot be told");
  }
  std::string end_part() const {
    const ReactionPhase& last = k_.phases.back();
    const std::string when = duration_text(last.seconds);
    const bool open = last.kind == PhaseKind::last_seen;
    const auto led_to = [&](std::string_view pattern) {
      const std::string text = phrase(pattern, {name_of(last.color), when});
      return open ? phrase("%1 and still changing", {text}) : text;
    };
    if (k_.model == KineticModel::fading) return led_to("fades to %1 by %2");
    if (k_.model == KineticModel::consecutive) return led_to("turns to %1 by %2");
    if (open) return phrase("still changing at %1", {when});
    // A bound on the half time leaves the end as open as the beginning.
    if (!k_.to_95.value_s) return "";
    return phrase("complete by %1", {when});
  }
  std::string control_name(RegionKind kind) const {
    return phrase(kind == RegionKind::bruise  ? "untreated bruise"
                  : kind == RegionKind::water ? "water control"
                                              : "untreated tissue");
  }
  std::string control_part() const {
    if (!k_.has_bruise_control && !k_.has_water && !k_.has_untreated) return phrase("no control");
    const RegionKind subtracted = k_.has_bruise_control ? RegionKind::bruise
                                  : k_.has_water        ? RegionKind::water
                                                        : RegionKind::control;
    const std::string control = control_name(subtracted);
    std::string text =
        k_.subtracted_change_de00 < unchanged_de00
            ? phrase("%1 unchanged", {control})
            : phrase("%1 changed by ΔE00 %2, taken out", {control, one_decimal(k_.subtracted_change_de00)});
    // Another kind that changed more is not taken out, but bounds what can be told.
    if (k_.most_changed_control != subtracted && k_.control_change_de00 >= unchanged_de00)
      text += "; " + phrase("%1 changed by ΔE00 %2, not taken out",
                            {control_name(k_.most_changed_control), one_decimal(k_.control_change_de00)});
    return text;
  }

  std::string body(const ReactionWords& words) const {
    const ReactionPhase& first = k_.phases.front();
    if (words.verdict == ReactionVerdict::described_only)
      return phrase("%1 after %2, ΔE00 %3; too few frames to say when and how fast; %4",
                    {change(first, k_.phases.back()), duration_text(k_.phases.back().seconds - first.seconds),
                     one_decimal(k_.change_de00), control_part()});
    if (words.verdict != ReactionVerdict::positive)
      return fmt::format("{} ({}); {}", verdict_text(words), name_of(first.color), control_part());
    std::string text = fmt::format("{}; {}, {}", change(first, fullest()), onset_part(), half_part());
    if (const std::string end = end_part(); !end.empty()) text += ", " + end;
    return fmt::format("{}; {}", text, control_part());
  }

  const Kinetics& k_;
  const ReactionSubject& subject_;
  const Namer& namer_;
  const Wording& wording_;
  const ReactionBins& bins_;
  bool bruise_;
};

}  // namespace

std::string_view verdict_name(ReactionVerdict verdict) {
  switch (verdict) {
    case ReactionVerdict::positive:
      return "positive";
    case ReactionVerdict::negative:
      return "negative";
    case ReactionVerdict::undecided:
      return "undecided";
    case ReactionVerdict::void_reagent:
      return "void";
    case ReactionVerdict::described_only:
      return "described";
  }
  return "";
}

DurationUnit duration_unit(double seconds) {
  if (std::abs(seconds) < 120) return {1, "s"};
  if (std::abs(seconds) < 7200) return {60, "min"};
  return {3600, "h"};
}

std::string duration_text(double seconds) {
  const DurationUnit unit = duration_unit(seconds);
  return fmt::format("{} {}", number_in(seconds, unit), unit.name);
}

ReactionWords reaction_words(const Kinetics& kinetics, const ReactionSubject& subject, const Namer& namer,
                             const Wording& wording, const ReactionBins& bins) {
  return Sentence(kinetics, subject, namer, wording, bins).words();
}

}  // namespace colorlib
