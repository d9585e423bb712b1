extern "C" {
#include <libavcodec/avcodec.h>
#include <libavformat/avformat.h>
#include <libavutil/display.h>
#include <libavutil/imgutils.h>
#include <libavutil/pixdesc.h>
#include <libswscale/swscale.h>
}

#include <fmt/format.h>

#include <cmath>
#include <colorlib/reaction/series_times.hpp>
#include <colorlib/video/video_frames.hpp>
#include <fstream>
#include <numeric>

namespace colorlib {
namespace {

constexpr int most_px = 8192;

struct FreeFrame {
  void operator()(AVFrame* frame) const { av_frame_free(&frame); }
};
struct FreePacket {
  void operator()(AVPacket* packet) const { av_packet_free(&packet); }
};
struct FreeFormat {
  void operator()(AVFormatContext* format) const { avformat_close_input(&format); }
};
struct FreeDecoder {
  void operator()(AVCodecContext* decoder) const { avcodec_free_context(&decoder); }
};
struct FreeScaler {
  void operator()(SwsContext* scaler) const { sws_freeContext(scaler); }
};
using Frame = std::unique_ptr<AVFrame, FreeFrame>;
using Scaler = std::unique_ptr<SwsContext, FreeScaler>;

std::string reason(int code) {
  char text[AV_ERROR_MAX_STRING_SIZE] = {};
  av_strerror(code, text, sizeof text);
  return text;
}

tl::unexpected<Error> unreadable(const std::string& name, std::string what) {
  return fail(ErrorCode::unreadable_photo, fmt::format("Reading the video '{}': {}.", name, what),
              "Play it to see whether it is whole; copy it from the phone again if not.");
}

tl::unexpected<Error> too_large(const std::string& name, int width, int height) {
  return fail(ErrorCode::unsupported_photo,
              fmt::format("Reading the video '{}': its frames are {} x {} px, at most {} x {} are taken.",
                          name, width, height, most_px, most_px),
              "Film at a lower resolution.");
}

bool sound_size(int width, int height) {
  return width > 0 && height > 0 && width <= most_px && height <= most_px;
}

/// 0, 90, 180, 270: by how much the stored frame has to be turned clockwise to stand upright.
int rotation_of(const AVStream* stream) {
  std::size_t size = 0;
  const auto* matrix = reinterpret_cast<const std::int32_t*>(
      av_stream_get_side_data(stream, AV_PKT_DATA_DISPLAYMATRIX, reinterpret_cast<size_t*>(&size)));
  if (matrix == nullptr || size < 9 * sizeof(std::int32_t)) return 0;
  const double turn = -av_display_rotation_get(matrix);
  if (!std::isfinite(turn)) return 0;
  return ((static_cast<int>(std::lround(turn / 90)) % 4 + 4) % 4) * 90;
}

bool has_planes(int format) {
  return format == AV_PIX_FMT_YUV420P || format == AV_PIX_FMT_YUVJ420P || format == AV_PIX_FMT_NV12;
}

bool full_range(const AVFrame& frame) {
  return frame.color_range == AVCOL_RANGE_JPEG || frame.format == AV_PIX_FMT_YUVJ420P;
}

int matrix_of(const AVFrame& frame) {
  switch (frame.colorspace) {
    case AVCOL_SPC_BT709:
      return SWS_CS_ITU709;
    case AVCOL_SPC_BT470BG:
    case AVCOL_SPC_SMPTE170M:
      return SWS_CS_ITU601;
    case AVCOL_SPC_BT2020_NCL:
      return SWS_CS_BT2020;
    default:
      return frame.height >= 720 ? SWS_CS_ITU709 : SWS_CS_ITU601;  // what players do when nothing is said
  }
}

/// A scaler for one conversion at the same size, told of matrix and range; it assumes others by itself.
Scaler scaler_for(const AVFrame& frame, AVPixelFormat target) {
  const auto source =
      static_cast<AVPixelFormat>(frame.format == AV_PIX_FMT_YUVJ420P ? AV_PIX_FMT_YUV420P : frame.format);
  Scaler scaler(sws_getContext(frame.width, frame.height, source, frame.width, frame.height, target,
                               SWS_BILINEAR | SWS_ACCURATE_RND | SWS_FULL_CHR_H_INT, nullptr, nullptr,
                               nullptr));
  if (scaler) {
    const int* table = sws_getCoefficients(matrix_of(frame));
    sws_setColorspaceDetails(scaler.get(), table, full_range(frame), table, 1, 0, 1 << 16, 1 << 16);
  }
  return scaler;
}

/// Brings frames of other kinds to 4:2:0 with 8 bits of full range. A stream may change its kind, matrix and
/// range at any frame; the scaler is then made anew.
class ToPlanes {
 public:
  /// Null: cannot be converted, or no memory.
  Frame operator()(const AVFrame& frame) {
    const Kind kind{frame.width, frame.height, frame.format, matrix_of(frame), full_range(frame)};
    if (!scaler_ || kind != kind_) {
      scaler_ = scaler_for(frame, AV_PIX_FMT_YUV420P);
      kind_ = kind;
    }
    Frame planes(av_frame_alloc());
    if (!scaler_ || !planes) return {};
    planes->format = AV_PIX_FMT_YUV420P;
    planes->width = frame.width, planes->height = frame.height;
    if (av_frame_get_buffer(planes.get(), 0) < 0) return {};
    sws_scale(scaler_.get(), frame.data, frame.linesize, 0, frame.height, planes->data, planes->linesize);
    planes->colorspace = frame.colorspace;
    planes->color_range = AVCOL_RANGE_JPEG;  // as asked of the scaler
    return planes;
  }

 private:
  struct Kind {
    int width = 0, height = 0, format = 0, matrix = 0;
    bool full = false;
    bool operator==(const Kind&) const = default;
  };
  Scaler scaler_;
  Kind kind_;  ///< that `scaler_` is made for
};

}  // namespace

struct VideoFrame::State {
  Frame frame;
  std::int64_t number = 0;
  double seconds = 0;
  int rotation = 0;
  std::string name;
  std::optional<CaptureTime> recorded;
};

std::int64_t VideoFrame::number() const { return state_->number; }
double VideoFrame::seconds() const { return state_->seconds; }

FramePlane VideoFrame::luma() const {
  const AVFrame& f = *state_->frame;
  return {f.data[0], f.width, f.height, f.linesize[0], 1};
}

FramePlane VideoFrame::blue_difference() const {
  const AVFrame& f = *state_->frame;
  const bool woven = f.format == AV_PIX_FMT_NV12;
  return {f.data[1], (f.width + 1) / 2, (f.height + 1) / 2, f.linesize[1], woven ? 2 : 1};
}

FramePlane VideoFrame::red_difference() const {
  const AVFrame& f = *state_->frame;
  if (f.format == AV_PIX_FMT_NV12)
    return {f.data[1] + 1, (f.width + 1) / 2, (f.height + 1) / 2, f.linesize[1], 2};
  return {f.data[2], (f.width + 1) / 2, (f.height + 1) / 2, f.linesize[2], 1};
}

std::array<double, 2> VideoFrame::stored(double x, double y) const {
  const AVFrame& f = *state_->frame;
  switch (state_->rotation) {
    case 90:
      return {y, f.height - 1 - x};
    case 180:
      return {f.width - 1 - x, f.height - 1 - y};
    case 270:
      return {f.width - 1 - y, x};
    default:
      return {x, y};
  }
}

Result<Photo> VideoFrame::photo() const {
  const AVFrame& f = *state_->frame;
  const Scaler scaler = scaler_for(f, AV_PIX_FMT_RGB24);
  if (!scaler) return unreadable(state_->name, "its pixels are of a kind that cannot be converted to RGB");
  Image8 stored(f.height, f.width, 3);
  std::uint8_t* rows[4] = {stored.data.data(), nullptr, nullptr, nullptr};
  const int strides[4] = {3 * f.width, 0, 0, 0};
  sws_scale(scaler.get(), f.data, f.linesize, 0, f.height, rows, strides);
  if (state_->rotation != 0) {
    const bool across = state_->rotation != 180;
    Image8 upright(across ? f.width : f.height, across ? f.height : f.width, 3);
    for (int r = 0; r < upright.rows; ++r)
      for (int c = 0; c < upright.columns; ++c) {
        const auto [x, y] = this->stored(c, r);
        std::copy_n(stored.at(static_cast<int>(y), static_cast<int>(x)), 3, upright.at(r, c));
      }
    stored = std::move(upright);
  }
  PhotoEncoding encoding;
  encoding.profile = "video, taken as sRGB";
  CaptureMetadata capture;
  return Photo(std::move(stored), encoding, capture,
               fmt::format("{} frame {}", state_->name, state_->number));
}

struct VideoFrames::State {
  VideoDescription description;
  std::unique_ptr<AVFormatContext, FreeFormat> format;
  std::unique_ptr<AVCodecContext, FreeDecoder> decoder;
  std::unique_ptr<AVPacket, FreePacket> packet{av_packet_alloc()};
  ToPlanes to_planes;
  int stream = -1, rotation = 0;
  int width = 0, height = 0;  ///< of the first frame, as stored; 0 before it
  double unit_s = 0;
  std::optional<double> first_s;
  double last_s = -1, usual_step_s = 1.0 / 30;
  std::int64_t number = 0, out_of_order = 0, of_other_size = 0, damaged = 0;
  bool drained = false;
};

VideoFrames::VideoFrames() = default;
VideoFrames::~VideoFrames() = default;
VideoFrames::VideoFrames(VideoFrames&&) noexcept = default;
VideoFrames& VideoFrames::operator=(VideoFrames&&) noexcept = default;

const VideoDescription& VideoFrames::description() const { return state_->description; }
std::int64_t VideoFrames::out_of_order() const { return state_->out_of_order; }
std::int64_t VideoFrames::of_other_size() const { return state_->of_other_size; }
std::int64_t VideoFrames::damaged() const { return state_->damaged; }

Result<VideoFrames> VideoFrames::open(const std::filesystem::path& path, int threads) {
  av_log_set_level(AV_LOG_QUIET);  // what matters comes back as an error
  VideoFrames video;
  video.state_ = std::make_unique<State>();
  State& s = *video.state_;
  const std::string name = path.filename().string();
  s.description.name = name;
  std::error_code problem;
  if (!std::filesystem::is_regular_file(path, problem))
    return fail(ErrorCode::unreadable_photo,
                fmt::format("Reading the video: '{}' is no file.", path.string()),
                "Check its name and folder.");
  AVFormatContext* format = nullptr;
  // "file:" keeps a name with a colon from being taken for an address on a network.
  if (const int code = avformat_open_input(&format, ("file:" + path.string()).c_str(), nullptr, nullptr);
      code < 0)
    return unreadable(name, reason(code));
  s.format.reset(format);
  if (const int code = avformat_find_stream_info(format, nullptr); code < 0)
    return unreadable(name, reason(code));
  const AVCodec* codec = nullptr;
  s.stream = av_find_best_stream(format, AVMEDIA_TYPE_VIDEO, -1, -1, &codec, 0);
  if (s.stream == AVERROR_DECODER_NOT_FOUND)
    return fail(ErrorCode::unsupported_photo,
                fmt::format("Reading the video '{}': this build has no decoder for it.", name),
                "Convert it to H.264.");
  if (s.stream < 0) return unreadable(name, "there is no video in it");
  for (unsigned i = 0; i < format->nb_streams; ++i)
    if (static_cast<int>(i) != s.stream)
      format->streams[i]->discard = AVDISCARD_ALL;  // sound is not even parsed
  const AVStream* stream = format->streams[s.stream];
  const AVCodecParameters& known = *stream->codecpar;
  if (!sound_size(known.width, known.height)) return too_large(name, known.width, known.height);
  if (known.color_trc == AVCOL_TRC_SMPTE2084 || known.color_trc == AVCOL_TRC_ARIB_STD_B67)
    return fail(ErrorCode::unsupported_photo,
                fmt::format("Reading the video '{}': it is high dynamic range.", name),
                "Film with HDR switched off, or convert the video to standard range.");
  s.decoder.reset(avcodec_alloc_context3(codec));
  avcodec_parameters_to_context(s.decoder.get(), &known);
  s.decoder->thread_count = threads;
  s.decoder->max_pixels =
      std::int64_t{most_px} * most_px;  // what later frames say of themselves is foreign, too
  s.decoder->pkt_timebase = stream->time_base;
  if (const int code = avcodec_open2(s.decoder.get(), codec, nullptr); code < 0)
    return unreadable(name, reason(code));
  s.rotation = rotation_of(stream);
  s.unit_s = av_q2d(stream->time_base);
  const bool across = s.rotation % 180 != 0;
  s.description.width_px = across ? known.height : known.width;
  s.description.height_px = across ? known.width : known.height;
  s.description.codec = codec->name;
  if (format->duration > 0) s.description.duration_s = static_cast<double>(format->duration) / AV_TIME_BASE;
  const AVRational rate = stream->avg_frame_rate;
  if (rate.num > 0 && rate.den > 0) s.usual_step_s = av_q2d(av_inv_q(rate));
  s.description.frames = stream->nb_frames > 0
                             ? stream->nb_frames
                             : static_cast<std::int64_t>(s.description.duration_s / s.usual_step_s);
  if (const auto* made = av_dict_get(format->metadata, "creation_time", nullptr, 0))
    s.description.recorded = capture_time_from_iso8601(made->value);
  return video;
}

Result<std::optional<VideoFrame>> VideoFrames::next() {
  State& s = *state_;
  for (;;) {
    Frame frame(av_frame_alloc());
    const int got = avcodec_receive_frame(s.decoder.get(), frame.get());
    if (got == AVERROR_EOF) {
      if (s.number == 0) return unreadable(s.description.name, "no frame of it could be decoded");
      return std::optional<VideoFrame>();
    }
    if (got == AVERROR(EAGAIN)) {
      if (s.drained) return std::optional<VideoFrame>();
      const int read = av_read_frame(s.format.get(), s.packet.get());
      if (read < 0) {  // the end, or what is left is cut off: what came so far counts
        s.drained = true;
        avcodec_send_packet(s.decoder.get(), nullptr);
        continue;
      }
      if (s.packet->stream_index == s.stream && avcodec_send_packet(s.decoder.get(), s.packet.get()) < 0)
        ++s.damaged;
      av_packet_unref(s.packet.get());
      continue;
    }
    if (got < 0) {
      ++s.damaged;
      if (s.drained) return std::optional<VideoFrame>();
      continue;
    }
    if (s.width == 0) {
      if (!sound_size(frame->width, frame->height))
        return too_large(s.description.name, frame->width, frame->height);
      s.width = frame->width, s.height = frame->height;
    }
    // Places on the sheet are followed from frame to frame: in a picture of another size they lie elsewhere.
    if (frame->width != s.width || frame->height != s.height) {
      ++s.of_other_size;
      continue;
    }
    const auto stamp = frame->best_effort_timestamp;
    const double at = stamp != AV_NOPTS_VALUE ? static_cast<double>(stamp) * s.unit_s
                                              : s.first_s.value_or(0) + s.last_s + s.usual_step_s;
    if (!s.first_s) s.first_s = at;
    const double seconds = at - *s.first_s;
    if (!(seconds > s.last_s)) {
      ++s.out_of_order;
      continue;
    }
    s.last_s = seconds;
    if (!has_planes(frame->format)) {
      frame = s.to_planes(*frame);
      if (!frame) return unreadable(s.description.name, "its pixels are of a kind that cannot be converted");
    }
    auto state = std::make_shared<VideoFrame::State>();
    state->frame = std::move(frame);
    state->number = s.number++;
    state->seconds = seconds;
    state->rotation = s.rotation;
    state->name = s.description.name;
    return std::optional(VideoFrame(std::move(state)));
  }
}

bool looks_like_video(const std::filesystem::path& path) {
  std::ifstream stream(path, std::ios::binary);
  char head[16] = {};
  stream.read(head, sizeof head);
  const std::string_view bytes(head, static_cast<std::size_t>(stream.gcount()));
  if (bytes.size() < 12) return false;
  if (bytes.substr(4, 4) == "ftyp") {
    // HEIF pictures share this container.
    const auto brand = bytes.substr(8, 4);
    for (const std::string_view picture :
         {"heic", "heix", "heim", "heis", "hevc", "mif1", "msf1", "avif", "avis"})
      if (brand == picture) return false;
    return true;
  }
  if (bytes.substr(4, 4) == "moov" || bytes.substr(4, 4) == "mdat" || bytes.substr(4, 4) == "wide")
    return true;
  if (bytes.starts_with("\x1A\x45\xDF\xA3")) return true;  // Matroska, WebM
  if (bytes.starts_with("RIFF") && bytes.substr(8, 4) == "AVI ") return true;
  return false;
}

}  // namespace colorlib
