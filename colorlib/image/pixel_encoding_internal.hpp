#pragma once
/// From what a file says of its colours (ICC profile, code points, gamma and chromaticities) to a
/// PhotoEncoding.

#include <colorlib/colorimetry/icc.hpp>
#include <colorlib/image/decode_internal.hpp>
#include <optional>
#include <string>
#include <vector>

namespace colorlib {

/// Honours an embedded ICC profile; an empty one is no profile: sRGB is assumed. A damaged one counts as
/// absent, with a remark; one of another colour space fails as unsupported_photo. A lookup-table profile
/// converts `pixels` to 16-bit (floats stay floats) wide RGB at once.
Result<std::monostate> honour_icc(const PhotoSource& source, std::string_view icc, IccChannels channels,
                                  Photo::Store& pixels, PhotoEncoding& encoding,
                                  std::vector<std::string>& remarks);

/// Chromaticities (x, y) of three primaries and white.
struct Primaries {
  std::array<double, 2> red, green, blue, white;
};

/// Code points of ITU-T H.273 as PNG's cICP and HEIF's nclx carry them. Fails as unsupported_photo for HDR
/// transfer functions (PQ, HLG) and code points that are reserved or belong to film; "unspecified" counts as
/// sRGB.
Result<std::monostate> honour_code_points(const PhotoSource& source, int primaries, int transfer,
                                          PhotoEncoding& encoding);

/// A pure power: linear = value^exponent, of given primaries (none: sRGB's). False when either is impossible;
/// then nothing is changed.
bool honour_power(double exponent, const std::optional<Primaries>& primaries, PhotoEncoding& encoding);

}  // namespace colorlib
