extern "C" {
#include <libavcodec/avcodec.h>
#include <libavformat/avformat.h>
#include <libavutil/display.h>
#include <libavutil/opt.h>
#include <libavutil/pixdesc.h>
#include <libswscale/swscale.h>
}

#include <stdexcept>
#include <tests/colorlib/video/video_files.hpp>

namespace colorlib {
namespace {

void check(int code, const char* what) {
  if (code >= 0) return;
  char text[AV_ERROR_MAX_STRING_SIZE] = {};
  av_strerror(code, text, sizeof text);
  throw std::runtime_error(std::string(what) + ": " + text);
}

}  // namespace

struct VideoWriter::State {
  AVFormatContext* format = nullptr;
  AVCodecContext* encoder = nullptr;
  AVFrame* frame = nullptr;
  AVPacket* packet = nullptr;
  SwsContext* scaler = nullptr;
  AVStream* stream = nullptr;
  bool open = false;

  ~State() {
    sws_freeContext(scaler);
    av_frame_free(&frame);
    av_packet_free(&packet);
    avcodec_free_context(&encoder);
    if (format != nullptr) {
      if (format->pb != nullptr) avio_closep(&format->pb);
      avformat_free_context(format);
    }
  }
  void begin_encoding(const VideoFileSettings& settings) {
    const AVCodec* codec = avcodec_find_encoder_by_name(settings.codec.c_str());
    if (codec == nullptr) throw std::runtime_error("no encoder " + settings.codec);
    const AVPixelFormat pixels = av_get_pix_fmt(settings.pixel_format.c_str());
    const bool full = settings.pixel_format.starts_with("yuvj");
    encoder = avcodec_alloc_context3(codec);
    encoder->width = settings.width_px;
    encoder->height = settings.height_px;
    encoder->pix_fmt = pixels;
    encoder->time_base = {1, 1000};
    encoder->framerate = {30, 1};
    encoder->gop_size = 60;
    encoder->bit_rate = settings.codec == "libx264" ? 0 : 8'000'000;
    encoder->colorspace = full ? AVCOL_SPC_BT470BG : AVCOL_SPC_BT709;
    encoder->color_range = full ? AVCOL_RANGE_JPEG : AVCOL_RANGE_MPEG;
    encoder->color_primaries = settings.high_dynamic_range ? AVCOL_PRI_BT2020 : AVCOL_PRI_BT709;
    encoder->color_trc = settings.high_dynamic_range ? AVCOL_TRC_SMPTE2084 : AVCOL_TRC_BT709;
    if (format->oformat->flags & AVFMT_GLOBALHEADER) encoder->flags |= AV_CODEC_FLAG_GLOBAL_HEADER;
    if (settings.codec == "libx264") {
      av_opt_set(encoder->priv_data, "preset", "veryfast", 0);
      av_opt_set_int(encoder->priv_data, "crf", settings.quality, 0);
    }
    if (settings.codec == "mjpeg") {
      encoder->flags |= AV_CODEC_FLAG_QSCALE;
      encoder->global_quality = 2 * FF_QP2LAMBDA;
    }
    check(avcodec_open2(encoder, codec, nullptr), "encoder");
    frame = av_frame_alloc();
    frame->format = pixels;
    frame->width = settings.width_px, frame->height = settings.height_px;
    frame->quality = encoder->global_quality;
    check(av_frame_get_buffer(frame, 0), "frame");
    scaler = sws_getContext(settings.width_px, settings.height_px, AV_PIX_FMT_RGB24, settings.width_px,
                            settings.height_px, pixels, SWS_BILINEAR | SWS_ACCURATE_RND, nullptr, nullptr,
                            nullptr);
    const int* table = sws_getCoefficients(full ? SWS_CS_ITU601 : SWS_CS_ITU709);
    sws_setColorspaceDetails(scaler, table, 1, table, full ? 1 : 0, 0, 1 << 16, 1 << 16);
  }
  void end_encoding() {
    check(avcodec_send_frame(encoder, nullptr), "ending");
    write_ready();
  }
  void write_ready() {
    for (;;) {
      const int got = avcodec_receive_packet(encoder, packet);
      if (got == AVERROR(EAGAIN) || got == AVERROR_EOF) return;
      check(got, "encoding");
      packet->duration = 33;
      av_packet_rescale_ts(packet, encoder->time_base, stream->time_base);
      packet->stream_index = 0;
      check(av_interleaved_write_frame(format, packet), "writing");
    }
  }
};

VideoWriter::VideoWriter(const std::filesystem::path& path, const VideoFileSettings& settings)
    : state_(std::make_unique<State>()) {
  State& s = *state_;
  av_log_set_level(AV_LOG_QUIET);
  check(avformat_alloc_output_context2(&s.format, nullptr, nullptr, path.c_str()), "container");
  s.packet = av_packet_alloc();
  s.begin_encoding(settings);
  s.stream = avformat_new_stream(s.format, nullptr);
  check(avcodec_parameters_from_context(s.stream->codecpar, s.encoder), "parameters");
  s.stream->time_base = s.encoder->time_base;
  if (settings.rotation_deg != 0) {
    auto* matrix = reinterpret_cast<std::int32_t*>(
        av_stream_new_side_data(s.stream, AV_PKT_DATA_DISPLAYMATRIX, 9 * sizeof(std::int32_t)));
    av_display_rotation_set(matrix, settings.rotation_deg);
  }
  if (!settings.creation_time.empty())
    av_dict_set(&s.format->metadata, "creation_time", settings.creation_time.c_str(), 0);
  check(avio_open(&s.format->pb, path.c_str(), AVIO_FLAG_WRITE), "file");
  check(avformat_write_header(s.format, nullptr), "header");
  s.open = true;
}

VideoWriter::~VideoWriter() = default;

void VideoWriter::add(const Image8& rgb, long milliseconds) {
  State& s = *state_;
  check(av_frame_make_writable(s.frame), "frame");
  const std::uint8_t* rows[1] = {rgb.data.data()};
  const int strides[1] = {3 * rgb.columns};
  sws_scale(s.scaler, rows, strides, 0, rgb.rows, s.frame->data, s.frame->linesize);
  s.frame->pts = milliseconds;
  check(avcodec_send_frame(s.encoder, s.frame), "encoding");
  s.write_ready();
}

void VideoWriter::change(const VideoFileSettings& settings) {
  State& s = *state_;
  s.end_encoding();
  sws_freeContext(s.scaler);
  s.scaler = nullptr;
  av_frame_free(&s.frame);
  avcodec_free_context(&s.encoder);
  s.begin_encoding(settings);
}

void VideoWriter::finish() {
  State& s = *state_;
  s.end_encoding();
  check(av_write_trailer(s.format), "ending");
}

}  // namespace colorlib
