#pragma once
/// What a reading depends on besides its photo, so that a reading that was kept is used again only where it
/// would come out the same.

#include <string>
#include <viewer/command/read_options.hpp>

namespace tintfall {

/// Version, charts, reference, regions and the other options, as one text: equal when the readings of one
/// photo are, given equal subjects. Files count by what stands in them, not by their names.
std::string reading_identity(const ReadChoices& choices, const ReadJob& job);

/// What is said about a photo, as one text.
std::string subject_identity(const colorlib::Subject& subject);

/// A file's content in short; empty for an empty name, and the name of what is no file (a pipe).
std::string content_identity(const std::string& file);

}  // namespace tintfall
