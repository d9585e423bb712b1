#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <cerrno>
#include <colorlib/base/file_access.hpp>
#include <cstring>
#include <fstream>

namespace colorlib {
namespace {

tl::unexpected<Error> write_failure(const std::filesystem::path& path, int error_number) {
  return fail(ErrorCode::cannot_write,
              fmt::format("Writing '{}' failed: {}.", path.string(), std::strerror(error_number)),
              "Check that the folder exists, may be written to and has room; what was there before is unchanged.");
}

}  // namespace

Result<std::string> read_file(const std::filesystem::path& path, std::string_view what, ErrorCode code,
                              std::size_t limit_bytes) {
  std::error_code problem;
  const auto status = std::filesystem::status(path, problem);
  if (!std::filesystem::exists(status))
    return fail(code, fmt::format("Reading {}: '{}' does not exist.", what, path.string()), "Check the name and folder.");
  if (std::filesystem::is_directory(status))
    return fail(code, fmt::format("Reading {}: '{}' is a folder, a file is needed.", what, path.string()),
                "Name a file in it.");
  std::ifstream stream(path, std::ios::binary);
  if (!stream)
    return fail(code, fmt::format("Reading {}: '{}' cannot be opened: {}.", what, path.string(), std::strerror(errno)),
                "Check that you may read it.");
  std::string bytes;
  char block[1 << 16];
  while (stream.read(block, sizeof block) || stream.gcount() > 0) {
    bytes.append(block, static_cast<std::size_t>(stream.gcount()));
    if (bytes.size() > limit_bytes)
      return fail(code,
                  fmt::format("Reading {}: '{}' is larger than {} bytes, the most that is taken.", what, path.string(),
                              limit_bytes),
                  "Make sure that it is the right file.");
  }
  if (bytes.empty())
    return fail(code, fmt::format("Reading {}: '{}' is empty.", what, path.string()), "Copy or export it again.");
  return bytes;
}

Result<std::monostate> write_file_atomically(const std::filesystem::path& path, std::string_view bytes) {
  struct stat existing {};
  if (::stat(path.c_str(), &existing) == 0 && !S_ISREG(existing.st_mode)) {
    // A device or pipe (/dev/stdout): nothing to keep, so write straight through.
    std::ofstream stream(path, std::ios::binary);
    stream.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    if (!stream.flush()) return write_failure(path, errno ? errno : EIO);
    return std::monostate{};
  }
  std::string temporary = path.string() + ".XXXXXX";
  const int descriptor = ::mkstemp(temporary.data());
  if (descriptor < 0) return write_failure(path, errno);
  const mode_t mask = ::umask(0);
  ::umask(mask);
  ::fchmod(descriptor, 0666 & ~mask);
  std::size_t written = 0;
  int error_number = 0;
  while (written < bytes.size() && error_number == 0) {
    const auto step = ::write(descriptor, bytes.data() + written, bytes.size() - written);
    if (step < 0 && errno != EINTR) error_number = errno;
    if (step > 0) written += static_cast<std::size_t>(step);
  }
  if (error_number == 0 && ::fsync(descriptor) != 0) error_number = errno;
  if (::close(descriptor) != 0 && error_number == 0) error_number = errno;
  if (error_number == 0 && ::rename(temporary.c_str(), path.c_str()) != 0) error_number = errno;
  if (error_number != 0) {
    ::unlink(temporary.c_str());
    return write_failure(path, error_number);
  }
  return std::monostate{};
}

}  // namespace colorlib
