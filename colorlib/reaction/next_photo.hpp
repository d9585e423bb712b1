#pragma once
/// When the next photo of a running series says most.

#include <colorlib/reaction/kinetics.hpp>
#include <optional>
#include <string>

namespace colorlib {

struct NextPhoto {
  double seconds = 0;  ///< series time
  std::string why;     ///< "halfway of the change", "nothing yet: at growing steps", ...
};

/// The next useful moment after `now_s`: while nothing happens, at steps that grow with time (a little less
/// than half as long as the time passed, 2 s to 2 min); once it does, at a half, one, two and four half times
/// after the onset; then twice on the plateau, and once more at four times the time to 95 %, to see it fade.
/// Nothing when all that was seen. The project's own rule, after the common practice of reading at about
/// geometric times.
std::optional<NextPhoto> next_useful_photo(const Kinetics& kinetics, double now_s);

}  // namespace colorlib
