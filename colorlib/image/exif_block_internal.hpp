#pragma once
/// The EXIF block of JPEG, PNG and HEIF files, read by libexif.

#include <colorlib/image/capture_metadata.hpp>
#include <string_view>

namespace colorlib {

/// What a block says: TIFF bytes ("II*\0..." or "MM\0*..."), with or without "Exif\0\0" in front. A block
/// that is damaged or says nothing gives an empty answer with orientation 1. Only the first 64 KiB are looked
/// at.
CaptureMetadata capture_from_exif(std::string_view block);

}  // namespace colorlib
