#include <fmt/format.h>

#include <CLI/App.hpp>
#include <CLI/Config.hpp>
#include <CLI/Formatter.hpp>
#include <algorithm>
#include <colorlib/base/file_access.hpp>
#include <colorlib/base/strict_text.hpp>
#include <nlohmann/json.hpp>
#include <set>
#include <viewer/command/catalogue_command.hpp>
#include <viewer/command/catalogue_print.hpp>
#include <viewer/command/counted.hpp>
#include <viewer/command/exit_status.hpp>
#include <viewer/command/json_text.hpp>
#include <viewer/command/progress_line.hpp>
#include <viewer/command/text_wrap.hpp>

namespace tintfall {

using namespace colorlib;

namespace {

/// Answers of any length, but bounded.
constexpr std::size_t most_hits = 100'000;

}  // namespace

void CatalogueCommand::declare(CLI::App& app) {
  app.require_subcommand(1);
  const auto command = [&](const char* name, const char* what) {
    CLI::App* sub = app.add_subcommand(name, what);
    sub->add_option("--catalogue", address_,
                    "A file, or postgresql://host/database; else $TINTFALL_CATALOGUE, else "
                    "~/.local/share/tintfall/catalogue.db")
        ->type_name("FILE|SERVER");
    return sub;
  };
  const auto number = [&](CLI::App* sub) {
    sub->add_option("NUMBER", number_, "The collection's number")->required();
  };

  add_ = command("add", "Add collections, and records of photographs to them");
  add_->add_option("RECORD", files_,
                   "Records that 'tintfall read --json' or '--save' wrote; the item is the number");
  add_->add_option("--number", number_,
                   "The collection that the records, or the fields said by options, belong to");
  add_->add_option("--fields", fields_file_,
                   "Collections from a file: JSON or CSV with the names of the fields; options fill what it "
                   "leaves blank")
      ->type_name("FILE");
  add_->add_option("--reagent", reagent_, "Reagent with its strength, when the record does not say it");
  auto* photo = add_->add_option("--photo", photos_,
                                 "The photograph of each record, for its content hash; never copied")
                    ->type_name("FILE")
                    ->take_all();
  add_->add_option("--copy-photos", copies_, "Copy these photographs into a folder, named by content hash")
      ->type_name("FOLDER")
      ->needs(photo);
  fields_.declare(*add_);

  list_ = command("list", "List collections");
  query_.declare(*list_, false);
  show_ = command("show", "Show one collection with its records");
  number(show_);
  show_->add_flag("--history", history_,
                  "Also what was changed, when and by whom, and records that were removed");
  find_ =
      command("find", "Find readings by colour, name, people, dates, tissue, reagent, and any mix of them");
  query_.declare(*find_, true);
  for (CLI::App* sub : {list_, find_})
    sub->add_option("--limit", query_.query.limit, "At most so many; 0: all")->check(CLI::Range(most_hits));

  edit_ = command("edit", "Change fields of a collection; the values before stay in its history");
  number(edit_);
  edit_->add_option("--new-number", record_, "Another number");
  new_fields_.declare(*edit_);
  remove_ =
      command("remove", "Put a collection, or one of its records, out of sight; it can be brought back");
  number(remove_);
  remove_->add_option("--record", record_, "Only the record whose hash begins so")->type_name("HASH");
  remove_->add_flag("--restore", restore_, "Bring it back");

  export_ = command("export", "Write collections for other programs and people");
  export_
      ->add_option("--out", out_,
                   "The file; its ending tells the format. With - and --format standard output")
      ->type_name("FILE|-")
      ->required();
  export_->add_option("--format", format_, "csv, cgats, dwca (Darwin Core archive), text, jsonl or pdf")
      ->type_name("FORMAT");
  export_
      ->add_option("--places", places_, "How much of the places: none, coarse (0.1 degree, no site) or exact")
      ->capture_default_str();
  export_
      ->add_option("--pictures", pictures_,
                   "pdf: a folder with PHOTO.overlay.png, or the photographs themselves")
      ->type_name("FOLDER");
  query_.declare(*export_, true);
  import_ = command("import", "Read what 'export' wrote: csv, cgats, dwca, text or jsonl, told by content");
  import_->add_option("FILE", files_, "Files")->required();
  check_ = command("check", "Look whether the catalogue is sound");
  check_->add_flag("--rebuild-index", rebuild_index_,
                   "First make the index of colours anew from the readings");
  backup_ = command("backup", "Copy the catalogue into one file while others go on using it");
  backup_
      ->add_option("FILE", out_,
                   "The copy; an older one is replaced as a whole, a file of another kind is not")
      ->required();
  for (CLI::App* sub : {list_, show_, find_, check_}) declare_json(*sub, json_);
  app.footer(
      "\nExamples: tintfall catalogue add photo.jpg.reading.json --number QH-03 --collector 'Odmira Vell'\n"
      "          tintfall catalogue find --near 42 19 29 --within 4 --from 2031\n"
      "          tintfall catalogue export --out autumn.csv --from 2031-09\n"
      "\nPasswords of servers come from ~/.pgpass, never from the command line.");
}

Result<CatalogueAddress> CatalogueCommand::address() const {
  if (!address_.empty()) return catalogue_address_from(address_);
  const auto usual = usual_catalogue();
  if (!usual) return fail(usual.error());
  return catalogue_address_from(*usual);
}

Result<CallFiles> CatalogueCommand::files() const {
  const auto where = address();
  if (!where) return fail(where.error());
  CallFiles files{files_, {json_.output()}};
  if (!where->server) files.inputs.push_back(where->text);
  files.inputs.push_back(fields_file_);
  files.inputs.insert(files.inputs.end(), photos_.begin(), photos_.end());
  if (export_->parsed()) files.outputs.push_back({"--out", out_, OutputKind::text});
  if (backup_->parsed()) files.outputs.push_back({"backup", out_});
  std::error_code problem;  // what is no folder is told by the export
  if (!pictures_.empty())
    for (std::filesystem::directory_iterator file(pictures_, problem), end; !problem && file != end;
         file.increment(problem))
      files.inputs.push_back(file->path().string());
  return files;
}

Result<Catalogue> CatalogueCommand::open(Catalogue::Open how) const {
  const auto address = this->address();
  if (!address) return fail(address.error());
  return Catalogue::open(*address, how);
}

int CatalogueCommand::run(Streams& streams) {
  const auto files = this->files();
  if (!files) return refuse(files.error(), streams);
  if (const auto sound = check_files(*files); !sound) return refuse(sound.error(), streams);
  if (add_->parsed()) return add(streams);
  if (list_->parsed()) return list(streams);
  if (show_->parsed()) return show(streams);
  if (find_->parsed()) return find(streams);
  if (edit_->parsed()) return edit(streams);
  if (remove_->parsed()) return remove(streams);
  if (export_->parsed()) return export_to_file(streams);
  if (import_->parsed()) return import_files(streams);
  return check_->parsed() ? check(streams) : back_up(streams);
}

int CatalogueCommand::list(Streams& streams) {
  const auto query = query_.checked();
  if (!query) return refuse(query.error(), streams);
  auto asked = *query;
  if (list_->count("--limit") == 0) asked.limit = 0;
  auto catalogue = open(Catalogue::Open::existing);
  if (!catalogue) return refuse(catalogue.error(), streams);
  const auto lines = catalogue->list(asked);
  if (!lines) return refuse(lines.error(), streams);
  if (json_.wanted())
    if (const auto written = write_json(json_text(json_from(*lines)), json_, streams); !written)
      return refuse(written.error(), streams);
  if (json_.to_standard_output()) return status_done;
  print_lines(*lines, streams.out);
  streams.out << '\n' << caution_text() << '\n';
  return status_done;
}

int CatalogueCommand::show(Streams& streams) {
  auto catalogue = open(Catalogue::Open::existing);
  if (!catalogue) return refuse(catalogue.error(), streams);
  const auto entry = catalogue->show(number_, history_);
  if (!entry) return refuse(entry.error(), streams);
  if (json_.wanted())
    if (const auto written = write_json(json_text(json_from(*entry)), json_, streams); !written)
      return refuse(written.error(), streams);
  if (json_.to_standard_output()) return status_done;
  print_entry(*entry, streams.colour, streams.out);
  if (history_) {
    const auto changes = catalogue->history(number_);
    if (!changes) return refuse(changes.error(), streams);
    print_history(*changes, streams.out);
  }
  streams.out << '\n' << caution_text() << '\n';
  return status_done;
}

int CatalogueCommand::find(Streams& streams) {
  const auto query = query_.checked();
  if (!query) return refuse(query.error(), streams);
  auto catalogue = open(Catalogue::Open::existing);
  if (!catalogue) return refuse(catalogue.error(), streams);
  const auto hits = catalogue->find(*query);
  if (!hits) return refuse(hits.error(), streams);
  if (json_.wanted())
    if (const auto written = write_json(json_text(json_from(*hits, *query)), json_, streams); !written)
      return refuse(written.error(), streams);
  if (json_.to_standard_output()) return status_done;
  print_hits(*hits, *query, streams.colour, streams.out);
  streams.out << '\n' << caution_text() << '\n';
  return status_done;
}

int CatalogueCommand::edit(Streams& streams) {
  auto fields = new_fields_.said();
  if (!record_.empty()) fields.emplace_back("number", record_);
  if (fields.empty())
    return refuse({ErrorCode::bad_call, "Nothing was said that should change.",
                   "Add for example --place 'Tansy Hollow'."},
                  streams);
  auto catalogue = open(Catalogue::Open::existing);
  if (!catalogue) return refuse(catalogue.error(), streams);
  if (const auto edited = catalogue->edit(number_, fields); !edited) return refuse(edited.error(), streams);
  streams.out << fmt::format("{}: {} set.\n", number_, counted(fields.size(), "field"));
  return status_done;
}

int CatalogueCommand::remove(Streams& streams) {
  auto catalogue = open(Catalogue::Open::existing);
  if (!catalogue) return refuse(catalogue.error(), streams);
  const auto done = restore_ ? catalogue->restore(number_, record_) : catalogue->remove(number_, record_);
  if (!done) return refuse(done.error(), streams);
  const std::string what = record_.empty() ? number_ : fmt::format("record {} of {}", record_, number_);
  streams.out << (restore_ ? fmt::format("{} is back.\n", what)
                           : fmt::format("{} removed; --restore brings it back.\n", what));
  return status_done;
}

int CatalogueCommand::check(Streams& streams) {
  auto catalogue = open(Catalogue::Open::existing);
  if (!catalogue) return refuse(catalogue.error(), streams);
  ProgressLine progress(streams, "catalogue");
  if (rebuild_index_)
    if (const auto rebuilt = catalogue->rebuild_index(); !rebuilt) return refuse(rebuilt.error(), streams);
  const auto health = catalogue->check(progress);
  progress.clear();
  if (!health) return refuse(health.error(), streams);
  if (json_.wanted()) {
    const nlohmann::ordered_json json{{"schema_version", health->schema_version},
                                      {"collections", health->collections},
                                      {"records", health->records},
                                      {"readings", health->readings},
                                      {"problems", health->problems},
                                      {"advice", health->advice}};
    if (const auto written = write_json(json_text(json), json_, streams); !written)
      return refuse(written.error(), streams);
  }
  if (!json_.to_standard_output()) {
    streams.out << fmt::format("{}, {}, {}; schema version {}\n", counted(health->collections, "collection"),
                               counted(health->records, "record"), counted(health->readings, "reading"),
                               health->schema_version);
    for (const std::string& problem : health->problems) streams.out << problem << '\n';
    streams.out << (health->problems.empty() ? "The catalogue is sound.\n" : health->advice + "\n");
  }
  return health->problems.empty() ? status_done : status_input;
}

int CatalogueCommand::back_up(Streams& streams) {
  auto catalogue = open(Catalogue::Open::existing);
  if (!catalogue) return refuse(catalogue.error(), streams);
  ProgressLine progress(streams, "backup");
  const auto copied = catalogue->backup(out_, progress);
  progress.clear();
  if (!copied) return refuse(copied.error(), streams);
  streams.out << fmt::format("Copied to '{}'.\n", out_);
  return status_done;
}

}  // namespace tintfall
