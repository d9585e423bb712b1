#pragma once
/// The masstones of a photo's deposits: which films belong together, and what is said of each.

#include <colorlib/naming/namer.hpp>
#include <colorlib/specimen/film_sample.hpp>
#include <colorlib/specimen/masstone.hpp>
#include <colorlib/specimen/reading.hpp>
#include <string_view>
#include <vector>

namespace colorlib {

/// Films of the readings that are deposits and stand; others, and those without a usable ground, have none.
struct PhotoFilms {
  std::vector<std::optional<FilmSample>> films;  ///< one a reading
  std::vector<std::optional<Error>> missing;     ///< why a deposit has no film sample
};

/// `surface` is what the user said the deposit lies on: "foil" is no ground to compute with.
PhotoFilms sample_films(const Photo& photo, const ChartDefinition& chart, const Placement& placement,
                        const Calibration& calibration, const std::vector<Reading>& readings,
                        std::string_view surface);

/// Fills `layer` of the deposits: of pairs across the backings of the sheet, and, when `single_grounds`, of
/// the others from their uneven thickness. The latter takes all unevenness for thickness, so it must be asked
/// for.
void add_layers(const ChartDefinition& chart, const Placement& placement, const PhotoFilms& films,
                bool single_grounds, const Namer& namer, std::vector<Reading>& readings);

/// Gives a reading the flag "thin-deposit" when its layer is known not to hide its ground.
void flag_thin(Reading& reading);

struct PhotoReading;
/// The same deposits photographed over two grounds, each photo read with `keep_films`: deposits of one id
/// belong together, or the only deposit of each. Fills `layer` in both readings. Errors (untrustworthy): no
/// deposit stands in both.
Result<std::monostate> add_layers_of_two_photos(PhotoReading& first, std::string_view first_name,
                                                PhotoReading& second, std::string_view second_name,
                                                const Namer& namer);

/// One film over two grounds, in one photo or in two, as it stands in a record.
LayerReading layer_of_two(const FilmSample& first, const FilmSample& second, MasstoneMethod method,
                          const Namer& namer);

}  // namespace colorlib
