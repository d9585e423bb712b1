#include <fmt/format.h>

#include <algorithm>
#include <colorlib/base/file_access.hpp>
#include <colorlib/image/decode.hpp>
#include <colorlib/image/decode_internal.hpp>
#include <colorlib/image/file_kind_internal.hpp>
#include <new>

namespace colorlib {
namespace {

/// File and decoded photo together stay below this, whatever the limits say apart.
constexpr std::size_t whole_memory_bytes = 1'900u << 20;

std::string formats_in_words() {
  const auto names = readable_formats();
  std::string text;
  for (std::size_t i = 0; i < names.size(); ++i) {
    if (i > 0) text += i + 1 == names.size() ? " or " : ", ";
    text += names[i];
  }
  return text;
}

Result<Photo> decode_by_kind(const PhotoSource& source, PhotoReduction& reduction) {
  const auto found = find_file_kind(source.bytes);
  switch (found.kind) {
    case FileKind::jpeg:
      return decode_jpeg(source, reduction);
    case FileKind::png:
      return decode_png(source);
    case FileKind::tiff:
      return tiff_holds_raw(source) ? decode_raw(source) : decode_tiff(source);
    case FileKind::raw:
      return decode_raw(source);
    case FileKind::heif:
#ifdef TINTFALL_HEIF
      return decode_heif(source);
#else
      return unsupported(source, "it is a HEIF picture, which this build was made without",
                         fmt::format("Export it as {}.", formats_in_words()));
#endif
    case FileKind::known_other:
      return unsupported(source, fmt::format("it is {}, a photo is needed", found.what),
                         fmt::format("Give a photo saved as {}.", formats_in_words()));
    case FileKind::unknown:
      break;
  }
  return unreadable(
      source,
      fmt::format("it does not begin like any photo format that is read here ({})", formats_in_words()),
      "Copy it again from the camera or phone; if it opens elsewhere, export it as JPEG or TIFF.");
}

}  // namespace

std::string PhotoSource::short_name() const { return std::filesystem::path(name).filename().string(); }

tl::unexpected<Error> unreadable(const PhotoSource& source, std::string_view found, std::string_view advice) {
  return fail(ErrorCode::unreadable_photo, fmt::format("Reading '{}': {}.", source.name, found),
              advice.empty() ? "Copy the photo again from the camera or phone, whole and unchanged."
                             : std::string(advice));
}

tl::unexpected<Error> unsupported(const PhotoSource& source, std::string_view found,
                                  std::string_view advice) {
  return fail(ErrorCode::unsupported_photo, fmt::format("Reading '{}': {}.", source.name, found),
              std::string(advice));
}

Result<std::monostate> check_size(const PhotoSource& source, std::int64_t width, std::int64_t height,
                                  double bytes_per_pixel) {
  if (width <= 0 || height <= 0)
    return unreadable(
        source, fmt::format("it says that it is {} x {} pixels, and a picture has some", width, height));
  constexpr std::int64_t longest_side = 1'000'000;
  if (width > longest_side || height > longest_side || width * height > source.limits.pixels)
    return unreadable(source,
                      fmt::format("it says that it is {} x {} pixels, at most {} million are taken", width,
                                  height, source.limits.pixels / 1'000'000),
                      "Check that it is the right file; export a huge photo at a smaller size.");
  const double needed = static_cast<double>(width) * static_cast<double>(height) * bytes_per_pixel;
  if (needed > static_cast<double>(source.limits.memory_bytes))
    return unreadable(source,
                      fmt::format("decoding its {} x {} pixels needs {:.0f} MB, at most {} MB are used",
                                  width, height, needed / (1 << 20), source.limits.memory_bytes >> 20),
                      "Export the photo at a smaller size or with 8 bits per channel.");
  return std::monostate{};
}

std::string reason_of(std::string_view library_message) {
  std::string text;
  for (const char c : library_message.substr(0, 120)) text += c >= 0x20 && c < 0x7f ? c : ' ';
  while (!text.empty() && (text.back() == '.' || text.back() == ' ')) text.pop_back();
  return text;
}

namespace {

/// Decodes, and makes errors of what the libraries throw.
Result<Photo> decoded(const PhotoSource& source, PhotoReduction& reduction) {
  const std::string_view bytes = source.bytes;
  if (bytes.empty()) return unreadable(source, "it is empty");
  if (bytes.size() > source.limits.file_bytes)
    return unreadable(
        source, fmt::format("it has {} bytes, at most {} are taken", bytes.size(), source.limits.file_bytes),
        "Make sure that it is the right file.");
  try {
    auto photo = decode_by_kind(source, reduction);
    if (!photo && source.stopped())
      return fail(ErrorCode::cancelled,
                  fmt::format("Reading '{}' was stopped before it was decoded.", source.name),
                  "Start it again when you like.");
    return photo;
  } catch (const std::bad_alloc&) {
    return unreadable(source, "there is not enough memory to decode it",
                      "Close other programs or export it at a smaller size.");
  } catch (const std::exception& problem) {  // from a library's inside
    return unreadable(source, fmt::format("it cannot be decoded ({})", reason_of(problem.what())));
  }
}

}  // namespace

Result<Photo> decode_photo(const std::filesystem::path& path, const DecodeLimits& limits) {
  auto whole = decode_photo_reduced(path, 1, limits);
  if (!whole) return fail(whole.error());
  return std::move(whole->photo);
}

Result<Photo> decode_photo(std::string_view bytes, std::string name, const DecodeLimits& limits) {
  PhotoReduction whole;
  return decoded({bytes, std::move(name), limits}, whole);
}

Result<ReducedPhoto> decode_photo_reduced(const std::filesystem::path& path, int factor,
                                          const DecodeLimits& limits) {
  auto bytes = read_file(path, "the photo", ErrorCode::unreadable_photo, limits.file_bytes);
  if (!bytes) return fail(bytes.error());
  DecodeLimits rest = limits;
  rest.memory_bytes =
      std::min(limits.memory_bytes, whole_memory_bytes - std::min(bytes->size(), whole_memory_bytes));
  return decode_photo_reduced(*bytes, path.string(), factor, rest);
}

Result<ReducedPhoto> decode_photo_reduced(std::string_view bytes, std::string name, int factor,
                                          const DecodeLimits& limits) {
  PhotoReduction reduction;
  auto photo = decoded({bytes, std::move(name), limits, factor}, reduction);
  if (!photo) return fail(photo.error());
  if (reduction.factor == 1) reduction = {1, photo->width_px(), photo->height_px()};
  return ReducedPhoto{std::move(*photo), reduction};
}

std::vector<std::string> readable_formats() {
  return {"JPEG", "PNG", "TIFF", "camera raw"
#ifdef TINTFALL_HEIF
          ,
          "HEIF"
#endif
  };
}

}  // namespace colorlib
