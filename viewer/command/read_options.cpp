#include <fmt/format.h>

#include <CLI/App.hpp>
#include <CLI/Config.hpp>
#include <CLI/Formatter.hpp>
#include <viewer/command/read_options.hpp>

namespace tintfall {

void declare_read(CLI::App& app, ReadChoices& choices) {
  app.add_option("PHOTO", choices.photos,
                 "Photographs: JPEG, PNG, TIFF, HEIF or camera raw; told by content, not by name. A folder "
                 "stands for "
                 "the photographs in it")
      ->required();

  const std::string sheet = "Which sheet";
  app.add_option("--chart", choices.chart,
                 "A shipped chart's name or a definition file; not needed when the markers tell which "
                 "shipped chart it is")
      ->type_name("NAME|DEF.json")
      ->group(sheet);
  app.add_option("--reference", choices.reference,
                 "The measured colours of the sheet (CGATS text or CSV); without it the chart's nominal "
                 "colours serve, and the uncertainty is wider")
      ->type_name("REF.txt")
      ->group(sheet);
  app.add_option("--sheet", choices.sheet,
                 "A printed sheet from 'tintfall sheet list': its chart, reference and date")
      ->type_name("LABEL")
      ->group(sheet);
  app.add_option("--corners", choices.corners,
                 "The sheet's corners in the photo, in pixels: top-left, top-right, bottom-right, "
                 "bottom-left of the upright sheet; needs --chart")
      ->type_name("x,y")
      ->expected(4)
      ->group(sheet);

  const std::string what = "What to read";
  app.add_option("--regions", choices.regions_file,
                 "A file of regions; without any the specimen in each opening is found")
      ->type_name("R.json")
      ->group(what);
  app.add_option("--region", choices.regions,
                 "A round region in mm from the sheet's top-left corner, on the sheet or beside one without "
                 "an opening; repeatable. KIND: deposit, substrate, spot, bruise, "
                 "control, water, other")
      ->type_name("KIND@x,y,r")
      ->expected(1)
      ->take_all()
      ->group(what);
  app.add_option("--height", choices.height_mm,
                 "How far the specimen stands above the sheet, in mm; spots and bruises are else taken as "
                 "anywhere up to caps")
      ->type_name("MM")
      ->group(what);
  app.add_flag(
         "--masstone", choices.masstone,
         "Of deposits known to be thin: the colour of a thick layer, too, computed from their uneven "
         "thickness over one matt ground. On a sheet with a black and a white ground it is computed anyway")
      ->group(what);
  app.add_flag("--two-backings", choices.two_grounds,
               "The two photos show the same deposit over a black and over a white ground: compute the "
               "masstone from both")
      ->group(what);

  app.add_flag("--together", choices.together,
               "All photos show the same specimen beside the same sheet: one combined record, how well the "
               "photos agree, and "
               "which of them does not belong")
      ->group(what);

  const std::string said = "What you say about it (kept in the record, never made up)";
  app.add_option("--item", choices.subject.item, "The collection or item number")->group(said);
  app.add_option("--collector", choices.subject.collector, "Who collected it")->group(said);
  app.add_option("--tissue", choices.subject.tissue, "Which part: cap, stem, flesh, ...")->group(said);
  app.add_option("--state", choices.subject.state, "Fresh, air-dried, ...")->group(said);
  app.add_option("--surface", choices.subject.surface, "What it lies on: foil, card, glass, ...")
      ->group(said);
  app.add_option("--light", choices.subject.light,
                 "The light of the photo: daylight, lamp (bulb or LED), tube (fluorescent), mixed (daylight "
                 "and a lamp). The tolerance "
                 "then fits it; a photo alone does not tell every lamp from daylight")
      ->type_name("KIND")
      ->group(said);
  app.add_option("--fields", choices.fields_file,
                 "These fields from a file (JSON or CSV), for all photos or by a column 'photo'; options go "
                 "before it")
      ->type_name("FILE")
      ->group(said);

  const std::string output = "Output";
  declare_json(app, choices.json);
  app.get_option("--json")->group(output);
  app.add_flag("--save", choices.save, "Write PHOTO.reading.json beside each photo")->group(output);
  app.add_option("--overlay", choices.overlay,
                 "Draw what was found over the photo: sheet, patches used and dropped, regions")
      ->type_name("OUT.png")
      ->group(output);
  app.add_option("--overlays", choices.overlays, "Draw an overlay of each photo as FOLDER/PHOTO.overlay.png")
      ->type_name("FOLDER")
      ->group(output);
  app.add_option("--icc", choices.icc,
                 "Write the calibration as a colour profile for other programs; it holds for the light in "
                 "the middle of the "
                 "opening")
      ->type_name("OUT.icc")
      ->group(output);
  app.add_option("--jobs", choices.jobs, "So many photos at once; else one a core, at most 8")
      ->check(CLI::Range(1, 64))
      ->group(output);
  app.add_flag("--resume", choices.resume,
               "Pass over photos whose PHOTO.reading.json is of this very file, and save the others there")
      ->group(output);
  auto* quiet = app.add_flag("--quiet", choices.quiet, "No summary")->group(output);
  app.add_flag("--verbose", choices.verbose,
               "In the summary also dropped patches and the parts of each uncertainty")
      ->excludes(quiet)
      ->group(output);

  declare_naming(app, choices.naming);
  for (const char* option : {"--level", "--of", "--tolerance", "--scale", "--spelling", "--words"})
    app.get_option(option)->group("Words");
  app.get_option("--of")
      ->description(
          "Whose trade terms to use: deposit, bruise or reaction; without it those of the region's kind")
      ->default_str("");
}

bool terms_stated(const ReadChoices& choices) { return is_said(choices.naming, "--of"); }

}  // namespace tintfall
