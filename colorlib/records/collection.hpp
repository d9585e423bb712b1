#pragma once
/// A collection: what was found, by whom, when, where, and how its deposit was made. Readings belong to it.

#include <colorlib/base/result.hpp>
#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace colorlib {

/// What the user said; nothing is invented. Empty, or without value, means not said.
struct Collection {
  std::string uid;     ///< "urn:uuid:...", given once, the same wherever the collection travels
  std::string number;  ///< the collection number on slip, print and photographs
  std::string collector, recorder;
  std::string collected;                              ///< ISO 8601 date, or date and time with zone
  std::string place, area;                            ///< the site; the larger area that may always be told
  std::optional<double> latitude_deg, longitude_deg;  ///< WGS 84
  std::optional<double> coordinate_uncertainty_m;     ///< radius about the coordinates that holds the site
  std::optional<double> place_coarseness_deg;  ///< grid that the coordinates were rounded to; none: exact
  std::string hide_place;                      ///< "yes": the site is never exported
  std::string working_name, named_by;
  std::string substrate, habitat, tissue, state;
  std::optional<double> since_picking_h;
  std::string surface;                          ///< that received the deposit: foil, card, glass, ...
  std::string deposit_began, deposit_ended;     ///< ISO 8601
  std::string deposit_covered, deposit_wetted;  ///< "yes" or "no": under a cover; a drop of water on the cap
  std::string deposit_state;                    ///< when read: fresh, air-dried, ...
  std::optional<double> deposit_age_h;          ///< from lifting the cap to the photograph
  std::string deposit_form;                     ///< scraped heap, as fallen, ...
  std::string thickness, backings;
  std::optional<double> contrast_ratio_percent;  ///< Y over black by Y over white, ISO 6504-3
  std::string contamination;                     ///< soil, algae, a second species, ...
  std::string permit, licence, remarks;

  bool operator==(const Collection&) const = default;
};

enum class FieldKind { text, time, yes_no, number };

/// One field by its name in files, options and databases.
struct CollectionField {
  std::string_view name;
  FieldKind kind;
  std::variant<std::string Collection::*, std::optional<double> Collection::*> place;
  double least = 0, most = 0;    ///< of a number
  std::string_view explanation;  ///< one short line for help and reports
};

/// Every field but `uid`, in the order of files and reports.
const std::vector<CollectionField>& collection_fields();
const CollectionField* find_collection_field(std::string_view name);

/// The field as text; numbers in the shortest form that reads back the same; empty when not said.
std::string field_text(const Collection& collection, const CollectionField& field);
/// Checks and sets a field; line breaks and tabs become spaces, spaces at the ends go. Empty text unsets it.
/// The error's message is only what is wrong with the value ("'x' is no number"): the caller says where.
Result<std::monostate> set_field(Collection& collection, const CollectionField& field, std::string_view text);

/// A number is there, the uid (if any) is one, and every value is one that `set_field` takes; latitude and
/// longitude stand together. Errors: bad_call, naming field and value.
Result<std::monostate> check_collection(const Collection& collection);

/// YYYY, YYYY-MM, YYYY-MM-DD, or YYYY-MM-DDThh:mm, with seconds, fractions and zone (Z or +hh:mm) or without;
/// days and times that exist. Source: ISO 8601.
bool is_iso8601(std::string_view text);

/// "urn:uuid:" and a UUID in its usual form of 36 characters.
bool is_uid(std::string_view text);

/// "urn:uuid:" and a random UUID (version 4, RFC 4122), drawn from the system's randomness: unique across
/// processes, forked ones too.
std::string new_uid();

/// Fills what `collection` does not say from `from`. Both kept apart where they differ.
void fill_blanks(Collection& collection, const Collection& from);

/// Rounds the coordinates to a grid in (0, 10] degrees and widens their uncertainty by half the grid's
/// diagonal; says so in `place_coarseness_deg`. Without coordinates, or when they are as coarse already,
/// nothing changes.
void coarsen_place(Collection& collection, double grid_deg);

/// Takes out the coordinates and what is said about them.
void forget_coordinates(Collection& collection);

/// Whether the coordinates of `coarse` say the same as those of `exact`, on the wider grid that `coarse`
/// states: half a cell apart at most in both directions. False where either has no coordinates.
bool is_same_place_coarser(const Collection& coarse, const Collection& exact);

/// How much of a place may be told.
enum class PlaceDetail {
  none,    ///< neither place nor coordinates
  coarse,  ///< no site; coordinates rounded to `coarse_grid_deg`; places marked to be hidden lose both
  exact,   ///< as kept
};
inline constexpr double coarse_grid_deg = 0.1;  ///< about 11 km north-south: a hill, not a tree

/// The collection as it may be shown. Rounding widens the stated uncertainty by half the grid's diagonal; a
/// place already as coarse stays as it is.
Collection with_place(const Collection& collection, PlaceDetail detail);

}  // namespace colorlib
