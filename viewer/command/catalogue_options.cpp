#include <fmt/format.h>

#include <CLI/App.hpp>
#include <CLI/Config.hpp>
#include <CLI/Formatter.hpp>
#include <algorithm>
#include <cmath>
#include <colorlib/records/record_json.hpp>
#include <viewer/command/catalogue_options.hpp>

namespace tintfall {

using namespace colorlib;

void FieldChoices::declare(CLI::App& app) {
  choices_.clear();
  for (const CollectionField& field : collection_fields()) {
    if (field.name == "number") continue;
    Choice& choice = choices_.emplace_back();
    choice.field = field.name;
    std::string option = "--" + choice.field;
    std::replace(option.begin(), option.end(), '_', '-');
    choice.option = app.add_option(option, choice.value, std::string(field.explanation))
                        ->type_name(field.kind == FieldKind::number   ? "NUMBER"
                                    : field.kind == FieldKind::time   ? "TIME"
                                    : field.kind == FieldKind::yes_no ? "yes|no"
                                                                      : "TEXT")
                        ->group("Fields of the collection");
  }
}

std::vector<std::pair<std::string, std::string>> FieldChoices::said() const {
  std::vector<std::pair<std::string, std::string>> fields;
  for (const Choice& choice : choices_)
    if (choice.option->count() > 0) fields.emplace_back(choice.field, choice.value);
  return fields;
}

void QueryChoices::declare(CLI::App& app, bool colours) {
  const std::string group = "Which";
  if (colours) {
    app.add_option("--near", near, "Readings near this colour: L* a* b* (D50, 2 degree), nearest first")
        ->type_name("L a b")
        ->expected(3)
        ->group(group);
    app.add_option("--expanded", expanded, "Expanded uncertainty (k = 2) of that colour, one or one each")
        ->type_name("U|UL,Ua,Ub")
        ->delimiter(',')
        ->group(group);
    app.add_option("--like", like, "Near the first colour of this record")
        ->type_name("RECORD.json")
        ->group(group);
    app.add_option("--within", within_de00, "How near, CIEDE2000")
        ->type_name("FLOAT")
        ->default_str(fmt::format("{}", query.within_de00))
        ->group(group);
  }
  app.add_option("--number", query.number, "This collection")->group(group);
  app.add_option("--name", query.word, "A name of colours, a trade term or a deposit class, as a whole")
      ->group(group);
  app.add_option("--collector", query.collector, "Collected or read by; part of a name will do")
      ->group(group);
  app.add_option("--working-name", query.working_name, "Part of the working name")->group(group);
  app.add_option("--from", query.from, "Collected on this day or later: YYYY, YYYY-MM or YYYY-MM-DD")
      ->group(group);
  app.add_option("--to", query.to, "Collected on this day or before")->group(group);
  app.add_option("--tissue", query.tissue, "Part of the tissue's name")->group(group);
  app.add_option("--state", query.state, "Part of the state: fresh, dried, ...")->group(group);
  app.add_option("--reagent", query.reagent, "Part of the reagent's name")->group(group);
  app.add_option("--kind", query.kind,
                 "Kind of region: deposit, substrate, spot, bruise, control, water, other")
      ->group(group);
  app.add_flag("--removed", query.removed, "What was removed, instead")->group(group);
}

Result<CatalogueQuery> QueryChoices::checked() const {
  CatalogueQuery asked = query;
  const auto wrong = [](std::string what, std::string advice) {
    return fail(ErrorCode::bad_call, std::move(what), std::move(advice));
  };
  if (!near.empty() && !like.empty())
    return wrong("--near and --like both say which colour to look for.", "Leave one of them out.");
  if (within_de00 && near.empty() && like.empty())
    return wrong("--within says how near to a colour, and no colour was named.",
                 "Add --near L a b or --like RECORD.json, or leave --within out.");
  asked.within_de00 = within_de00.value_or(query.within_de00);
  if (!near.empty()) asked.color = Lab{near[0], near[1], near[2]};
  if (!expanded.empty()) {
    if (near.empty() || (expanded.size() != 1 && expanded.size() != 3))
      return wrong("--expanded belongs to --near and takes one number or three.",
                   "Write for example --expanded 1.2.");
    for (std::size_t i = 0; i < 3; ++i) {
      const double u = expanded[expanded.size() == 1 ? 0 : i] / 2;
      if (!(u >= 0 && u < 100)) return wrong("An uncertainty is between 0 and 200.", "Check --expanded.");
      asked.color_covariance(static_cast<int>(i), static_cast<int>(i)) = u * u;
    }
  }
  if (!like.empty()) {
    const auto record = read_record(like);
    if (!record) return fail(record.error());
    for (const Reading& reading : record->readings) {
      if (reading.refused || asked.color) continue;
      asked.color = reading.lab;
      asked.color_covariance = reading.lab_covariance;
    }
    if (!asked.color)
      return wrong(fmt::format("The record '{}' holds no colour.", like),
                   "Name a record with a reading that stands.");
  }
  for (const std::string* day : {&query.from, &query.to})
    if (!day->empty() && !is_iso8601(*day))
      return wrong(fmt::format("'{}' is no ISO 8601 date.", *day),
                   "Write it like 2031, 2031-10 or 2031-10-05.");
  // "to 2031" holds all of 2031: what both say is compared, as far as days go.
  const std::size_t said =
      std::min({query.from.size(), query.to.size(), std::string_view("2031-10-05").size()});
  if (query.from.compare(0, said, query.to, 0, said) > 0)
    return wrong(
        fmt::format("--from {} lies after --to {}, so nothing can lie between them.", query.from, query.to),
        "Change them round.");
  if (!query.kind.empty())
    if (const auto kind = region_kind_from(query.kind); !kind)
      return fail(ErrorCode::bad_call, kind.error().message, kind.error().advice);
  if (!(asked.within_de00 >= 0 && asked.within_de00 <= 1000))
    return wrong("--within is a difference between 0 and 1000.", "5 shows what looks related.");
  return asked;
}

}  // namespace tintfall
