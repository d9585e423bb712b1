#include <fcntl.h>
#include <fmt/format.h>
#include <sys/file.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <colorlib/records/json_fields_internal.hpp>
#include <colorlib/records/record_json.hpp>
#include <colorlib/records/series_journal.hpp>
#include <cstring>
#include <fstream>
#include <utility>

namespace colorlib {
namespace {

using Json = nlohmann::json;

constexpr std::string_view format_name = "tintfall-series-journal";

tl::unexpected<Error> cannot(const std::filesystem::path& path, std::string_view doing) {
  return fail(ErrorCode::cannot_write,
              fmt::format("{} the journal '{}': {}.", doing, path.string(), std::strerror(errno)),
              "Check that the folder may be written to and has space.");
}

std::string text_of(const Json& json) { return json.dump(-1, ' ', false, Json::error_handler_t::replace); }

std::string head_of(std::string_view identity) {
  return text_of({{"format", format_name}, {"version", 1}, {"identity", identity}}) + "\n";
}

/// Of any identity; a file of another kind was named by a slip. Only a line without its end can have been
/// cut off by a crash before it told its kind: JSON laid out for people has a first line "{", too.
bool begins_like_a_journal(std::string_view line, bool has_end) {
  std::string begin = head_of("");
  begin.resize(begin.find(format_name) + format_name.size());
  return line.starts_with(begin) || (!has_end && !line.empty() && begin.starts_with(line));
}

bool write_all(int file, std::string_view bytes) {
  while (!bytes.empty()) {
    const ssize_t written = ::write(file, bytes.data(), bytes.size());
    if (written < 0 && errno == EINTR) continue;
    if (written <= 0) return false;
    bytes.remove_prefix(static_cast<std::size_t>(written));
  }
  return true;
}

}  // namespace

std::string photo_key(const std::filesystem::path& photo) {
  struct stat status {};
  if (::stat(photo.c_str(), &status) != 0) return {};
  return fmt::format("{} {} {}.{:09}", photo.filename().string(), status.st_size, status.st_mtim.tv_sec,
                     status.st_mtim.tv_nsec);
}

Result<SeriesJournal> SeriesJournal::open(const std::filesystem::path& path, std::string_view identity) {
  SeriesJournal journal;
  journal.path_ = path;
  journal.file_ = ::open(path.c_str(), O_RDWR | O_CREAT | O_CLOEXEC, 0644);
  if (journal.file_ < 0) return cannot(path, "Opening");
  if (::flock(journal.file_, LOCK_EX | LOCK_NB) != 0)
    return fail(ErrorCode::bad_call,
                fmt::format("The journal '{}' is in use: another program reads this series at the moment.",
                            path.string()),
                "Wait until it is done, or name another output.");
  if (const auto loaded = journal.load(identity); !loaded) return fail(loaded.error());
  return journal;
}

Result<std::monostate> SeriesJournal::load(std::string_view identity) {
  const std::string head = head_of(identity);
  const bool is_empty = ::lseek(file_, 0, SEEK_END) == 0;
  off_t sound = 0;  // bytes up to the last whole line that is understood
  std::ifstream stream(path_, std::ios::binary);
  std::string line;
  bool same = false, first = true;
  while (std::getline(stream, line) && !stream.eof()) {  // a line without its end was cut off
    if (first) {
      first = false;
      same = line + "\n" == head;
      if (!same) break;
      sound = static_cast<off_t>(line.size()) + 1;
      continue;
    }
    if (line.size() > RecordLimits::bytes) break;
    const auto json = Json::parse(line, nullptr, false);
    if (!json.is_object() || !json.contains("key") || !json["key"].is_string() || !json.contains("frame"))
      break;
    auto frame = parse_frame(text_of(json["frame"]));
    if (!frame) break;
    found_.insert_or_assign(json["key"].get<std::string>(), std::move(*frame));
    sound += static_cast<off_t>(line.size()) + 1;
  }
  begun_anew_ = !first && !same;
  if (sound == 0 && !is_empty && !begins_like_a_journal(line, !first))
    return fail(
        ErrorCode::bad_call,
        fmt::format("The journal '{}' is a file of another kind, which it would replace.", path_.string()),
        "Name a file that does not exist yet, or the journal of this series.");
  if (::ftruncate(file_, sound) != 0 || ::lseek(file_, 0, SEEK_END) < 0) return cannot(path_, "Tidying");
  if (sound == 0 && !write_all(file_, head)) return cannot(path_, "Beginning");
  return std::monostate{};
}

Result<std::monostate> SeriesJournal::add(const std::string& key, const FrameRecord& frame) {
  const std::string line =
      fmt::format("{{\"key\":{},\"frame\":{}}}\n", text_of(Json(key)), frame_json(frame));
  if (!write_all(file_, line) || ::fdatasync(file_) != 0) return cannot(path_, "Writing to");
  return std::monostate{};
}

void SeriesJournal::close() {
  if (file_ >= 0) ::close(file_);
  file_ = -1;
}

SeriesJournal::~SeriesJournal() { close(); }
SeriesJournal::SeriesJournal(SeriesJournal&& other) noexcept { *this = std::move(other); }
SeriesJournal& SeriesJournal::operator=(SeriesJournal&& other) noexcept {
  if (this == &other) return *this;
  close();
  path_ = std::move(other.path_);
  file_ = std::exchange(other.file_, -1);
  found_ = std::move(other.found_);
  begun_anew_ = other.begun_anew_;
  return *this;
}

}  // namespace colorlib
