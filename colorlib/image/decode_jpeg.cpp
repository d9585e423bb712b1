#include <csetjmp>
#include <cstddef>
#include <cstdio>  // jpeglib.h takes FILE and size_t for granted
#include <cstdlib>

// jerror.h needs jpeglib.h before it.
#include <jpeglib.h>

#include <jerror.h>

#include <algorithm>
#include <atomic>
#include <cmath>
#include <colorlib/base/worker_threads.hpp>
#include <colorlib/image/decode_internal.hpp>
#include <colorlib/image/exif_block_internal.hpp>
#include <colorlib/image/jpeg_samples_internal.hpp>
#include <colorlib/image/pixel_encoding_internal.hpp>
#include <colorlib/image/upright_rows_internal.hpp>
#include <mutex>
#include <thread>

#include <fmt/format.h>

namespace colorlib {
namespace {

/// libjpeg's decoder. It leaves through longjmp, so every call that may do so sits in a function whose frame
/// holds nothing but pointers and numbers.
class JpegReader {
 public:
  JpegReader() {
    decoder_.err = jpeg_std_error(&errors_.base);
    errors_.base.error_exit = [](j_common_ptr any) { leave(any); };
    errors_.base.emit_message = [](j_common_ptr any, int level) { hear(any, level); };
    progress_.progress_monitor = [](j_common_ptr any) { watch(any); };
  }
  JpegReader(const JpegReader&) = delete;
  JpegReader& operator=(const JpegReader&) = delete;
  ~JpegReader() { jpeg_destroy_decompress(&decoder_); }

  bool read_header(std::string_view bytes, std::size_t memory_bytes) {
    if (setjmp(errors_.jump) != 0) return false;
    jpeg_create_decompress(&decoder_);
    decoder_.mem->max_memory_to_use = static_cast<long>(memory_bytes);
    decoder_.progress = &progress_;
    jpeg_mem_src(&decoder_, reinterpret_cast<const unsigned char*>(bytes.data()), bytes.size());
    jpeg_save_markers(&decoder_, JPEG_APP0 + 1, 0xffff);
    jpeg_save_markers(&decoder_, JPEG_APP0 + 2, 0xffff);
    return jpeg_read_header(&decoder_, TRUE) == JPEG_HEADER_OK;
  }

  /// Every coefficient of the file; then `component` and `block_row` may be asked.
  bool read_coefficients() {
    if (setjmp(errors_.jump) != 0) return false;
    coefficients_ = jpeg_read_coefficients(&decoder_);
    return coefficients_ != nullptr;
  }
  /// One row of a component's blocks, copied, for libjpeg's own may move with the next row. False: not to be
  /// had. Any thread may ask.
  bool block_row(int component, int row, std::span<std::int16_t> out) {
    const std::scoped_lock one_at_a_time(asking_);
    const std::int16_t* from = own_block_row(component, row);
    if (from == nullptr) return false;
    std::copy_n(from, out.size(), out.begin());
    return true;
  }
  /// For a picture `reduced` times smaller. False when the file holds no quantisation table for it.
  bool component(int index, int reduced, JpegComponent& out) const {
    const jpeg_component_info& info = decoder_.comp_info[index];
    if (info.quant_table == nullptr) return false;
    const auto share = [](int own, int most) { return static_cast<double>(own) / most; };
    out.per_column = share(info.h_samp_factor, decoder_.max_h_samp_factor);
    out.per_row = share(info.v_samp_factor, decoder_.max_v_samp_factor);
    // [T81, A.1.1]
    out.width = static_cast<int>(std::ceil(decoder_.image_width * out.per_column));
    out.height = static_cast<int>(std::ceil(decoder_.image_height * out.per_row));
    out.blocks_across = static_cast<int>(info.width_in_blocks);
    for (std::size_t i = 0; i < out.quantum.size(); ++i) out.quantum[i] = info.quant_table->quantval[i];
    made_smaller(reduced, out.per_column, out.width, out.across);
    made_smaller(reduced, out.per_row, out.height, out.down);
    return true;
  }

  /// The embedded profile, or nothing.
  std::string icc_profile() {
    JOCTET* data = nullptr;
    unsigned int size = 0;
    if (!read_icc(&data, &size)) return {};
    std::string profile(reinterpret_cast<const char*>(data), size);
    std::free(data);
    return profile;
  }
  bool has_profile_marker() const { return marker(JPEG_APP0 + 2, {"ICC_PROFILE\0", 12}).data() != nullptr; }
  std::string_view exif() const {
    const auto block = marker(JPEG_APP0 + 1, {"Exif\0\0", 6});
    return block.data() ? block : std::string_view{};
  }

  const jpeg_decompress_struct& info() const { return decoder_; }
  /// Why it failed: libjpeg's sentence and its number.
  const std::string& reason() const { return errors_.reason; }
  int reason_code() const { return errors_.code; }
  /// Warnings that leave the pixels as they are.
  long harmless_warnings() const { return errors_.harmless; }
  bool ended_early() const { return errors_.ended_early; }
  void listen_to(const Progress* progress) { errors_.progress = progress; }

 private:
  struct Errors {
    jpeg_error_mgr base{};
    std::jmp_buf jump{};
    std::string reason;
    int code = 0;
    long harmless = 0;
    bool ended_early = false;
    const Progress* progress = nullptr;
  };

  static Errors& errors_of(j_common_ptr any) { return *reinterpret_cast<Errors*>(any->err); }

  [[noreturn]] static void leave(j_common_ptr any) {
    Errors& errors = errors_of(any);
    char text[JMSG_LENGTH_MAX] = {};
    errors.base.format_message(any, text);
    errors.reason = text;
    errors.code = errors.base.msg_code;
    std::longjmp(errors.jump, 1);
  }

  /// Warnings: those that mean wrong pixels end the decoding, for a calibrated colour must not come from
  /// them.
  static void hear(j_common_ptr any, int level) {
    if (level >= 0) return;
    Errors& errors = errors_of(any);
    auto* decoder = reinterpret_cast<j_decompress_ptr>(any);
    switch (errors.base.msg_code) {
      case JWRN_JPEG_EOF: {
        // In a plain picture of one scan and Huffman codes the missing end may be its end marker alone;
        // should pixels be missing too, JWRN_HIT_MARKER follows. Elsewhere whole scans may be missing
        // unnoticed.
        errors.ended_early = true;
        const bool told_later = decoder->global_state >= scanning && !decoder->progressive_mode &&
                                !decoder->arith_code && decoder->comps_in_scan == decoder->num_components &&
                                decoder->input_scan_number <= 1;
        if (told_later) return;
        break;
      }
      case JWRN_HIT_MARKER:
        errors.ended_early = true;
        break;
      case JWRN_HUFF_BAD_CODE:
      case JWRN_ARITH_BAD_CODE:
      case JWRN_MUST_RESYNC:
      case JWRN_BOGUS_PROGRESSION:
        break;
      default:
        ++errors.harmless;
        return;
    }
    leave(any);
  }

  /// Real progressive files have about ten scans; hundreds of empty ones over a huge size only burn time.
  static void watch(j_common_ptr any) {
    constexpr int most_scans = 100;
    auto* decoder = reinterpret_cast<j_decompress_ptr>(any);
    if (Errors& errors = errors_of(any); errors.progress != nullptr && errors.progress->cancelled())
      std::longjmp(errors.jump, 1);
    if (any->is_decompressor && decoder->input_scan_number > most_scans) {
      errors_of(any).reason = "it has more than 100 scans";
      errors_of(any).code = 0;
      std::longjmp(errors_of(any).jump, 1);
    }
  }

  const std::int16_t* own_block_row(int component, int row) {
    if (setjmp(errors_.jump) != 0) return nullptr;
    JBLOCKARRAY rows =
        decoder_.mem->access_virt_barray(reinterpret_cast<j_common_ptr>(&decoder_), coefficients_[component],
                                         static_cast<JDIMENSION>(row), 1, FALSE);
    static_assert(sizeof(JCOEF) == sizeof(std::int16_t));
    return &rows[0][0][0];
  }

  bool read_icc(JOCTET** data, unsigned int* size) {
    if (setjmp(errors_.jump) != 0) return false;
    return jpeg_read_icc_profile(&decoder_, data, size) != FALSE;
  }

  /// The content of the first marker that begins with `prefix`, the prefix included.
  std::string_view marker(int code, std::string_view prefix) const {
    for (auto* m = decoder_.marker_list; m != nullptr; m = m->next) {
      const std::string_view content(reinterpret_cast<const char*>(m->data), m->data_length);
      if (m->marker == code && content.starts_with(prefix)) return content;
    }
    return {};
  }

  /// One direction of a component: means of its samples as far as it has more of them than the smaller
  /// picture.
  static void made_smaller(int reduced, double& per_pixel, int& samples, int& of_block) {
    per_pixel *= reduced;
    for (; per_pixel > 1; per_pixel /= 2, of_block /= 2) samples = (samples + 1) / 2;
  }

  static constexpr int scanning = 205;  ///< libjpeg's DSTATE_SCANNING: start_decompress is done
  jpeg_decompress_struct decoder_{};
  jpeg_progress_mgr progress_{};
  jvirt_barray_ptr* coefficients_ = nullptr;
  std::mutex asking_;
  Errors errors_;
};

tl::unexpected<Error> failure(const PhotoSource& source, const JpegReader& reader) {
  if (reader.reason_code() == JERR_BAD_PRECISION || reader.reason_code() == JERR_SOF_UNSUPPORTED)
    return unsupported(source, fmt::format("it is a rare kind of JPEG ({})", reason_of(reader.reason())),
                       "Export the photo as an ordinary 8-bit JPEG or as TIFF.");
  if (reader.ended_early()) return unreadable(source, "the JPEG data end early, the whole picture is needed");
  return unreadable(source, fmt::format("the JPEG data are damaged ({})", reason_of(reader.reason())));
}

/// Rows `from` to `to` - 1 of the picture, made smaller if it is to be, from coefficients that were read.
/// False: they are not all there, or the user stopped.
bool read_stripe(const PhotoSource& source, JpegReader& reader, UprightRows<std::uint16_t> rows, int from,
                 int to) {
  const auto& info = reader.info();
  const JpegColor color = info.jpeg_color_space == JCS_GRAYSCALE ? JpegColor::grey
                          : info.jpeg_color_space == JCS_YCbCr   ? JpegColor::ycbcr
                                                                 : JpegColor::rgb;
  std::vector<JpegSamples> components;
  for (int c = 0; c < info.num_components; ++c) {
    JpegComponent component;
    if (!reader.component(c, source.reduced, component)) return false;
    component.block_row = [&reader, c](int row, std::span<std::int16_t> out) {
      return reader.block_row(c, row, out);
    };
    components.emplace_back(std::move(component));
  }
  std::vector<std::vector<float>> lines(components.size(),
                                        std::vector<float>(static_cast<std::size_t>(rows.width())));
  for (int y = from; y < to; ++y) {
    if (y % 64 == 0 && source.stopped()) return false;
    for (std::size_t c = 0; c < components.size(); ++c)
      if (!components[c].picture_row(y, lines[c])) return false;
    jpeg_rgb_row(color, lines, rows.row(y));
    rows.row_done(y);
  }
  return true;
}

/// The whole picture, a stripe a core: every pixel comes out the same however many there are.
bool read_fine(const PhotoSource& source, JpegReader& reader, UprightRows<std::uint16_t>& rows) {
  constexpr int band = UprightRows<std::uint16_t>::band_rows, most_cores = 8;
  const int height = rows.height();
  const int bands = (height + band - 1) / band;
  const int stripes =
      std::clamp(static_cast<int>(std::thread::hardware_concurrency()), 1, std::min(bands, most_cores));
  const auto begins = [&](int stripe) { return std::min(height, bands * stripe / stripes * band); };
  std::atomic<bool> whole = true;
  run_on_threads(static_cast<std::size_t>(stripes), [&](std::size_t share) {
    const int stripe = static_cast<int>(share);
    if (!read_stripe(source, reader, rows.beside(), begins(stripe), begins(stripe + 1))) whole = false;
  });
  return whole;
}

/// Bytes a pixel while the coefficients are held, 2 each.
double coefficient_bytes(const jpeg_decompress_struct& info) {
  double sum = 0;
  for (int c = 0; c < info.num_components; ++c)
    sum += 2.0 * info.comp_info[c].h_samp_factor * info.comp_info[c].v_samp_factor /
           (info.max_h_samp_factor * info.max_v_samp_factor);
  return sum;
}

Result<Photo::Store> read_store(const PhotoSource& source, JpegReader& reader, int orientation) {
  // Before memory is taken for the picture: a file that only claims to be large ends here.
  if (!reader.read_coefficients()) return failure(source, reader);
  const auto smaller = [&](JDIMENSION whole) {
    return (static_cast<int>(whole) + source.reduced - 1) / source.reduced;
  };
  UprightRows<std::uint16_t> rows(smaller(reader.info().image_width), smaller(reader.info().image_height),
                                  orientation);
  if (!read_fine(source, reader, rows)) return failure(source, reader);
  return rows.take();
}

}  // namespace

Result<Photo> decode_jpeg(const PhotoSource& source, PhotoReduction& reduction) {
  JpegReader reader;
  reader.listen_to(source.limits.progress);
  if (!reader.read_header(source.bytes, source.limits.memory_bytes)) return failure(source, reader);
  const auto& info = reader.info();
  const J_COLOR_SPACE space = info.jpeg_color_space;
  if (space == JCS_CMYK || space == JCS_YCCK)
    return unsupported(source, "its pixels are CMYK inks, RGB is needed",
                       "Export the photo as RGB, best as sRGB.");
  const bool grey = space == JCS_GRAYSCALE;
  if (!grey && space != JCS_YCbCr && space != JCS_RGB)
    return unsupported(
        source,
        fmt::format("its pixels have {} components of unknown meaning, RGB is needed", info.num_components),
        "Export the photo as RGB, best as sRGB.");
  const double result_bytes = 6.0 / (source.reduced * source.reduced);
  const auto fits =
      check_size(source, info.image_width, info.image_height, result_bytes + coefficient_bytes(info));
  if (!fits) return fail(fits.error());

  const CaptureMetadata capture = capture_from_exif(reader.exif());
  const std::string icc = reader.icc_profile();
  std::vector<std::string> remarks;

  auto read = read_store(source, reader, capture.orientation);
  if (!read) return fail(read.error());
  Photo::Store pixels = std::move(*read);
  if (reader.ended_early()) remarks.push_back("the file lacks its end marker, every pixel is there");
  if (reader.harmless_warnings() > 0)
    remarks.push_back(fmt::format("{} oddities in the file were passed over", reader.harmless_warnings()));
  if (grey) remarks.push_back("the photo is grey: all three channels are the same");

  PhotoEncoding encoding;
  if (icc.empty() && reader.has_profile_marker())
    remarks.push_back("the embedded colour profile is damaged, sRGB was assumed");
  const auto honoured =
      honour_icc(source, icc, grey ? IccChannels::grey : IccChannels::rgb, pixels, encoding, remarks);
  if (!honoured) return fail(honoured.error());
  Photo photo(std::move(pixels), std::move(encoding), capture, source.short_name());
  photo.remarks = std::move(remarks);
  const bool turned = capture.orientation > 4 && capture.orientation <= 8;
  const int width = static_cast<int>(info.image_width), height = static_cast<int>(info.image_height);
  reduction = {source.reduced, turned ? height : width, turned ? width : height};
  return photo;
}

}  // namespace colorlib
