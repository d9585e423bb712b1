#pragma once
/// What the user says about a photo and what it shows.

#include <array>
#include <colorlib/calibration/light_kind.hpp>
#include <string>

namespace colorlib {

/// Nothing is invented. Empty means not said.
struct Subject {
  std::string item, collector, tissue, state, surface;
  std::string light;  ///< a `light_kind_name`
};

struct SubjectField {
  const char* name;  ///< in files
  std::string Subject::*place;
};

inline constexpr std::array subject_fields{
    SubjectField{"item", &Subject::item},       SubjectField{"collector", &Subject::collector},
    SubjectField{"tissue", &Subject::tissue},   SubjectField{"state", &Subject::state},
    SubjectField{"surface", &Subject::surface}, SubjectField{"light", &Subject::light}};

/// Unstated for a word that is no kind of light.
inline LightKind light_of(const Subject& subject) {
  return light_kind_from(subject.light).value_or(LightKind::unstated);
}

}  // namespace colorlib
