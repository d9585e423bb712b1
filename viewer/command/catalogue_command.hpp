#pragma once
/// `tintfall catalogue`: collections and their readings, kept and searched.

#include <colorlib/records/catalogue.hpp>
#include <optional>
#include <string>
#include <vector>
#include <viewer/command/catalogue_options.hpp>
#include <viewer/command/command.hpp>
#include <viewer/command/json_output.hpp>
#include <viewer/command/output_check.hpp>

namespace tintfall {

class CatalogueCommand : public Command {
 public:
  std::string_view name() const override { return "catalogue"; }
  std::string_view summary() const override {
    return "Keep collections with their readings, and find them again by colour, name, collector, date ...";
  }
  void declare(CLI::App& app) override;
  int run(Streams& streams) override;

 private:
  colorlib::Result<colorlib::CatalogueAddress> address() const;
  /// The catalogue itself, what is read into it, and what is to be written.
  colorlib::Result<CallFiles> files() const;
  colorlib::Result<colorlib::Catalogue> open(colorlib::Catalogue::Open how) const;
  /// What `add` was told that nothing of the call could take.
  std::optional<colorlib::Error> said_for_nothing() const;
  int add(Streams& streams);
  int list(Streams& streams);
  int show(Streams& streams);
  int find(Streams& streams);
  int edit(Streams& streams);
  int remove(Streams& streams);
  int export_to_file(Streams& streams);
  int import_files(Streams& streams);
  int check(Streams& streams);
  int back_up(Streams& streams);
  int refuse(const colorlib::Error& error, Streams& streams) const {
    return report_error(error, json_, streams);
  }
  /// The collections that a query is about; every one when it does not narrow.
  colorlib::Result<std::vector<std::string>> numbers_of(colorlib::Catalogue& catalogue) const;

  CLI::App *add_ = nullptr, *list_ = nullptr, *show_ = nullptr, *find_ = nullptr, *edit_ = nullptr,
           *remove_ = nullptr, *export_ = nullptr, *import_ = nullptr, *check_ = nullptr, *backup_ = nullptr;
  std::string address_, number_, record_, out_, format_, places_ = "coarse", fields_file_, reagent_, copies_,
                                                         pictures_;
  std::vector<std::string> files_, photos_;
  FieldChoices fields_, new_fields_;
  QueryChoices query_;
  bool restore_ = false, rebuild_index_ = false, history_ = false;
  JsonTarget json_;
};

}  // namespace tintfall
