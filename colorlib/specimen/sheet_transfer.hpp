#pragma once
/// Reference values for a printed sheet from photographs that show it beside a sheet whose values are known.
/// Model and limits: docs/explanation/chart_transfer.md.

#include <colorlib/base/progress.hpp>
#include <colorlib/chart/reference_values.hpp>
#include <colorlib/chart/two_sheets.hpp>
#include <colorlib/specimen/together.hpp>
#include <span>
#include <string>
#include <vector>

namespace colorlib {

struct TransferSheets {
  ChartDefinition known;
  ReferenceValues known_values;  ///< not nominal
  ChartDefinition printed;
};

/// Constants of the transfer, chosen on simulated tuning scenes.
struct TransferOptions {
  /// Light between the sheets that neither their papers nor the field's model know of, relative, one standard
  /// deviation for each arrangement of the two sheets.
  double between_sheets = 0.006;
  int field_order = 3;        ///< of the lighting field over both sheets
  double widest_gap_mm = 60;  ///< between the sheets: the light is only known where there is paper
  std::size_t least_photos = 3;
  double most_guessed_share =
      0.3;  ///< of the patches: seen in fewer than two photos, yet a file is made. A photo needs the rest.
  /// Of the standard deviation of lack of fit that specimens have. Less would do for prints of like inks; ink
  /// jet against toner needs all of it.
  double print_lack_of_fit = 1.0;
};

/// The printed sheet's patches in one photo, through a calibration on the known sheet.
struct SheetBeside {
  std::string photo;                  ///< name
  std::vector<Reading> patches;       ///< in the printed chart's order; refused where a patch cannot be used
  double gap_mm = 0;                  ///< between the sheets
  SheetSide side = SheetSide::right;  ///< of the known sheet, as that lies, on which the printed one lies
  double check_de00_mean = 0;         ///< leave-one-out over the known sheet's patches
  std::vector<std::string> remarks;
};

/// Errors: bad_call (nominal values are no known ones; what locate_two_sheets says), chart_not_found,
/// untrustworthy (sheets too far apart, or what calibrate says), cancelled.
Result<SheetBeside> read_sheet_beside(const Photo& photo, const TransferSheets& sheets,
                                      const TwoSheetsHints& hints, const TransferOptions& options,
                                      Progress& progress);

struct SheetTransfer {
  ReferenceValues
      values;  ///< transferred; standard uncertainties are those of each patch's mean over the photos
  std::vector<PhotoAgreement> agreement;  ///< a patch each
  std::vector<std::size_t>
      guessed;    ///< patches that fewer than two photos show: nominal and the print's mean error
  int sides = 0;  ///< different sides of the known sheet that the printed one lay on
  double median_expanded_de00 = 0;       ///< of the patches' values, 95 %
  double median_repeatability_de00 = 0;  ///< of one photo
  std::vector<std::string> remarks;
};

/// The photos' patches combined: robust mean, the part that photos share, the part that they do not. Errors:
/// bad_call (too few photos), untrustworthy (too many patches stand in fewer than two of them).
Result<SheetTransfer> transferred_reference(std::span<const SheetBeside> photos, const TransferSheets& sheets,
                                            const TransferOptions& options);

}  // namespace colorlib
