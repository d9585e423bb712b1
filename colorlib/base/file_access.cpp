#include <fcntl.h>
#include <fmt/format.h>
#include <sys/stat.h>
#include <unistd.h>

#include <atomic>
#include <cerrno>
#include <colorlib/base/file_access.hpp>
#include <cstring>
#include <fstream>

namespace colorlib {
namespace {

tl::unexpected<Error> write_failure(const std::filesystem::path& path, int error_number) {
  return fail(
      ErrorCode::cannot_write,
      fmt::format("Writing '{}' failed: {}.", path.string(), std::strerror(error_number)),
      "Check that the folder exists, may be written to and has room; what was there before is unchanged.");
}

/// A name of our own beside `target`, so short that a target with the longest name the disk takes can be
/// written as well.
std::filesystem::path name_beside(const std::filesystem::path& target) {
  static std::atomic<unsigned> count{0};
  return target.parent_path() / fmt::format(".tintfall-{}-{}.part", ::getpid(), count++);
}

/// A new file in the folder of `target`, without a name where the file system can do that: a process that is
/// killed then leaves no scrap.
struct NewFile {
  int descriptor = -1;  ///< -1 with errno set: none could be made
  std::filesystem::path name;
};

NewFile open_beside(const std::filesystem::path& target) {
  NewFile file;
#ifdef O_TMPFILE
  if (::access("/proc/self/fd", X_OK) == 0) {  // where it gets its name from
    const auto folder = target.has_parent_path() ? target.parent_path() : std::filesystem::path(".");
    file.descriptor = ::open(folder.c_str(), O_WRONLY | O_TMPFILE | O_CLOEXEC, 0666);
    if (file.descriptor >= 0) return file;
  }
#endif
  for (int attempt = 0; attempt < 100; ++attempt) {
    file.name = name_beside(target);
    file.descriptor = ::open(file.name.c_str(), O_WRONLY | O_CREAT | O_EXCL | O_CLOEXEC, 0666);
    if (file.descriptor >= 0 || errno != EEXIST) break;
  }
  return file;
}

/// Gives a file without a name one beside `target`, or the target's own where nothing stands there.
/// 0, or the error number.
int give_name(NewFile& file, const std::filesystem::path& target) {
  const std::string itself = fmt::format("/proc/self/fd/{}", file.descriptor);
  file.name = target;
  for (int attempt = 0; attempt < 100; ++attempt) {
    if (::linkat(AT_FDCWD, itself.c_str(), AT_FDCWD, file.name.c_str(), AT_SYMLINK_FOLLOW) == 0) return 0;
    if (errno != EEXIST) break;
    file.name = name_beside(target);
  }
  file.name.clear();
  return errno;
}

/// 0, or the error number of the write that failed.
int write_all(int descriptor, std::string_view bytes) {
  while (!bytes.empty()) {
    const auto step = ::write(descriptor, bytes.data(), bytes.size());
    if (step < 0 && errno != EINTR) return errno;
    if (step > 0) bytes.remove_prefix(static_cast<std::size_t>(step));
  }
  return 0;
}

}  // namespace

Result<std::string> read_file(const std::filesystem::path& path, std::string_view what, ErrorCode code,
                              std::size_t limit_bytes) {
  std::error_code problem;
  const auto status = std::filesystem::status(path, problem);
  if (!std::filesystem::exists(status))
    return fail(code, fmt::format("Reading {}: '{}' does not exist.", what, path.string()),
                "Check the name and folder.");
  if (std::filesystem::is_directory(status))
    return fail(code, fmt::format("Reading {}: '{}' is a folder, a file is needed.", what, path.string()),
                "Name a file in it.");
  const auto too_large = [&] {
    return fail(code,
                fmt::format("Reading {}: '{}' is larger than {} bytes, the most that is taken.", what,
                            path.string(), limit_bytes),
                "Make sure that it is the right file.");
  };
  // Known before a byte is read; pipes have no size and are counted below.
  if (std::filesystem::is_regular_file(status) && std::filesystem::file_size(path, problem) > limit_bytes &&
      !problem)
    return too_large();
  std::ifstream stream(path, std::ios::binary);
  if (!stream)
    return fail(
        code,
        fmt::format("Reading {}: '{}' cannot be opened: {}.", what, path.string(), std::strerror(errno)),
        "Check that you may read it.");
  std::string bytes;
  char block[1 << 16];
  errno = 0;
  while (stream.read(block, sizeof block) || stream.gcount() > 0) {
    bytes.append(block, static_cast<std::size_t>(stream.gcount()));
    if (bytes.size() > limit_bytes) return too_large();
  }
  if (stream.bad())  // what came before a read error is not the file
    return fail(code,
                fmt::format("Reading {}: '{}' cannot be read to its end: {}.", what, path.string(),
                            std::strerror(errno != 0 ? errno : EIO)),
                "Copy it again, or from another disk.");
  if (bytes.empty())
    return fail(code, fmt::format("Reading {}: '{}' is empty.", what, path.string()),
                "Copy or export it again.");
  return bytes;
}

Result<std::monostate> write_file_atomically(const std::filesystem::path& path, std::string_view bytes) {
  struct stat existing {};
  const bool exists = ::stat(path.c_str(), &existing) == 0;
  if (exists && !S_ISREG(existing.st_mode)) {
    // A device or pipe (/dev/stdout): nothing to keep, so write straight through.
    errno = 0;
    std::ofstream stream(path, std::ios::binary);
    stream.write(bytes.data(), static_cast<std::streamsize>(bytes.size()));
    if (!stream.flush()) return write_failure(path, errno ? errno : EIO);
    return std::monostate{};
  }
  std::error_code problem;
  const auto target = exists ? std::filesystem::canonical(path, problem) : path;
  if (problem) return write_failure(path, problem.value());
  NewFile file = open_beside(target);
  if (file.descriptor < 0) return write_failure(path, errno);
  int error_number = write_all(file.descriptor, bytes);
  if (error_number == 0 && exists && ::fchmod(file.descriptor, existing.st_mode & 07777) != 0)
    error_number = errno;
  if (error_number == 0 && ::fsync(file.descriptor) != 0) error_number = errno;
  if (error_number == 0 && file.name.empty()) error_number = give_name(file, target);
  if (::close(file.descriptor) != 0 && error_number == 0) error_number = errno;
  if (error_number == 0 && file.name != target && ::rename(file.name.c_str(), target.c_str()) != 0)
    error_number = errno;
  if (error_number != 0) {
    if (!file.name.empty()) ::unlink(file.name.c_str());
    return write_failure(path, error_number);
  }
  return std::monostate{};
}

}  // namespace colorlib
