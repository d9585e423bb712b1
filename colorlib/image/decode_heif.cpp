#include <fmt/format.h>
#include <libheif/heif.h>

#include <algorithm>
#include <colorlib/image/decode_internal.hpp>
#include <colorlib/image/exif_block_internal.hpp>
#include <colorlib/image/heif_structure_internal.hpp>
#include <colorlib/image/pixel_encoding_internal.hpp>
#include <cstring>
#include <memory>

namespace colorlib {
namespace {

struct Release {
  void operator()(heif_context* p) const { heif_context_free(p); }
  void operator()(const heif_image_handle* p) const { heif_image_handle_release(p); }
  void operator()(const heif_image* p) const { heif_image_release(p); }
  void operator()(heif_color_profile_nclx* p) const { heif_nclx_color_profile_free(p); }
};
template <class T>
using Owned = std::unique_ptr<T, Release>;

tl::unexpected<Error> failure(const PhotoSource& source, const heif_error& error) {
  const std::string reason = reason_of(error.message ? error.message : "");
  if (error.code == heif_error_Unsupported_feature || error.code == heif_error_Unsupported_filetype)
    return unsupported(source,
                       fmt::format("it is a kind of HEIF picture that cannot be decoded here ({})", reason),
                       "Export the photo as JPEG, or set the camera to its most compatible format.");
  return unreadable(source, fmt::format("the HEIF data are damaged or end early ({})", reason));
}

std::string exif_of(const heif_image_handle* handle) {
  heif_item_id id = 0;
  if (heif_image_handle_get_list_of_metadata_block_IDs(handle, "Exif", &id, 1) != 1) return {};
  const std::size_t size = heif_image_handle_get_metadata_size(handle, id);
  constexpr std::size_t most = 1u << 20, offset_bytes = 4;
  if (size <= offset_bytes || size > most) return {};
  std::string block(size, '\0');
  if (heif_image_handle_get_metadata(handle, id, block.data()).code != heif_error_Ok) return {};
  // The block begins with how far behind itself the TIFF header lies [ISO/IEC 23008-12, A.2.1].
  std::size_t skip = 0;
  for (std::size_t i = 0; i < offset_bytes; ++i) skip = (skip << 8) | static_cast<unsigned char>(block[i]);
  if (skip >= size - offset_bytes) return {};
  return block.substr(offset_bytes + skip);
}

std::string icc_of(const heif_image_handle* handle) {
  const auto type = heif_image_handle_get_color_profile_type(handle);
  if (type != heif_color_profile_type_rICC && type != heif_color_profile_type_prof) return {};
  std::string profile(std::min(heif_image_handle_get_raw_color_profile_size(handle), icc_limit_bytes + 1),
                      '\0');
  if (profile.size() > icc_limit_bytes) return "too large";  // too short to be one: counts as damaged
  if (heif_image_handle_get_raw_color_profile(handle, profile.data()).code != heif_error_Ok) return {};
  return profile;
}

/// HDR is told by the box beside the picture or, where there is none, by the decoded stream.
Result<std::monostate> honour_colour(const PhotoSource& source, const heif_image_handle* handle,
                                     const heif_image* image, Photo::Store& pixels, PhotoEncoding& encoding,
                                     std::vector<std::string>& remarks) {
  if (const std::string icc = icc_of(handle); !icc.empty())
    return honour_icc(source, icc, IccChannels::rgb, pixels, encoding, remarks);
  // libheif may hand over a profile together with an error.
  heif_color_profile_nclx *beside = nullptr, *inside = nullptr;
  const bool said_beside = heif_image_handle_get_nclx_color_profile(handle, &beside).code == heif_error_Ok;
  const bool said_inside = heif_image_get_nclx_color_profile(image, &inside).code == heif_error_Ok;
  const Owned<heif_color_profile_nclx> of_handle(beside), of_image(inside);
  const auto* nclx = said_beside && beside ? beside : said_inside ? inside : nullptr;
  if (!nclx) return std::monostate{};
  return honour_code_points(source, nclx->color_primaries, nclx->transfer_characteristics, encoding);
}

Image8 copied_8(const std::uint8_t* plane, int stride, int width, int height) {
  Image8 out(height, width, 3);
  for (int y = 0; y < height; ++y)
    std::copy_n(plane + static_cast<std::size_t>(y) * static_cast<std::size_t>(stride),
                static_cast<std::size_t>(width) * 3, out.at(y, 0));
  return out;
}

/// Little-endian values of `bits` bits, spread to all 16.
Image16 copied_16(const std::uint8_t* plane, int stride, int width, int height, int bits) {
  Image16 out(height, width, 3);
  const std::uint32_t top = (1u << bits) - 1;
  for (int y = 0; y < height; ++y) {
    const std::uint8_t* from = plane + static_cast<std::size_t>(y) * static_cast<std::size_t>(stride);
    std::uint16_t* to = out.at(y, 0);
    for (int i = 0; i < 3 * width; ++i, from += 2) {
      const std::uint32_t value = std::min<std::uint32_t>(from[0] | (from[1] << 8), top);
      to[i] = static_cast<std::uint16_t>((value * 65535u + top / 2) / top);
    }
  }
  return out;
}

}  // namespace

Result<Photo> decode_heif(const PhotoSource& source) {
  const HeifStructure structure = read_heif_structure(source.bytes);
  if (!structure.sound) return unreadable(source, "the HEIF boxes are damaged or end early");
  if (!structure.all_hevc)
    return unsupported(source, "it is a HEIF picture of another coding than HEVC (AVIF, an overlay, ...)",
                       "Export the photo as JPEG, or set the camera to its most compatible format.");
  const Owned<heif_context> context(heif_context_alloc());
  if (!context) return unreadable(source, "there is not enough memory to decode it");
  heif_context_set_maximum_image_size_limit(context.get(), 65535);
  heif_context_set_max_decoding_threads(context.get(), 0);
  heif_error error = heif_context_read_from_memory_without_copy(context.get(), source.bytes.data(),
                                                                source.bytes.size(), nullptr);
  if (error.code != heif_error_Ok) return failure(source, error);
  heif_image_handle* found = nullptr;
  error = heif_context_get_primary_image_handle(context.get(), &found);
  if (error.code != heif_error_Ok) return failure(source, error);
  const Owned<heif_image_handle> handle(found);

  const int bits = std::max(8, heif_image_handle_get_luma_bits_per_pixel(handle.get()));
  if (bits > 16)
    return unsupported(source, fmt::format("it has {} bits per channel", bits), "Export the photo as JPEG.");
  const bool deep = bits > 8;
  // Decoded planes, their RGB and the result. What counts is the largest size that the file names anywhere,
  // for the decoder allocates that; a grid may be as wide and high as the limit set for its library, so that
  // is set to the longer side.
  const double per_pixel = deep ? 18 : 9;
  const int longer = std::max(
      {heif_image_handle_get_width(handle.get()), heif_image_handle_get_height(handle.get()),
       heif_image_handle_get_ispe_width(handle.get()), heif_image_handle_get_ispe_height(handle.get())});
  auto fits = check_size(source, heif_image_handle_get_width(handle.get()),
                         heif_image_handle_get_height(handle.get()), per_pixel);
  if (fits) fits = check_size(source, structure.coded_width, structure.coded_height, per_pixel);
  if (fits) fits = check_size(source, longer, longer, per_pixel / 2);
  if (!fits) return fail(fits.error());
  heif_context_set_maximum_image_size_limit(context.get(), longer + 1);

  heif_image* decoded = nullptr;
  error = heif_decode_image(handle.get(), &decoded, heif_colorspace_RGB,
                            deep ? heif_chroma_interleaved_RRGGBB_LE : heif_chroma_interleaved_RGB, nullptr);
  if (error.code != heif_error_Ok) return failure(source, error);
  const Owned<heif_image> image(decoded);
  heif_error warning{};
  if (heif_image_get_decoding_warnings(decoded, 0, &warning, 1) > 0)
    return unreadable(source, fmt::format("the HEIF data are damaged ({})",
                                          reason_of(warning.message ? warning.message : "")));

  int stride = 0;
  const std::uint8_t* plane = heif_image_get_plane_readonly(decoded, heif_channel_interleaved, &stride);
  const int width = heif_image_get_width(decoded, heif_channel_interleaved);
  const int height = heif_image_get_height(decoded, heif_channel_interleaved);
  const int decoded_bits = heif_image_get_bits_per_pixel_range(decoded, heif_channel_interleaved);
  fits = check_size(source, width, height, per_pixel);
  if (!fits) return fail(fits.error());
  if (!plane || stride < width * (deep ? 6 : 3) || (deep && (decoded_bits < 8 || decoded_bits > 16)))
    return unreadable(source, "the HEIF decoder gave no usable picture");
  Photo::Store pixels = deep ? Photo::Store(copied_16(plane, stride, width, height, decoded_bits))
                             : Photo::Store(copied_8(plane, stride, width, height));

  std::vector<std::string> remarks;
  if (heif_image_handle_has_alpha_channel(handle.get())) remarks.push_back("transparency was ignored");
  PhotoEncoding encoding;
  encoding.bits_per_channel = bits;
  const auto honoured = honour_colour(source, handle.get(), decoded, pixels, encoding, remarks);
  if (!honoured) return fail(honoured.error());
  // libheif has turned the picture as the file's own boxes say; EXIF's word is kept for the record only.
  Photo photo(std::move(pixels), std::move(encoding), capture_from_exif(exif_of(handle.get())),
              source.short_name());
  photo.remarks = std::move(remarks);
  return photo;
}

}  // namespace colorlib
