#include <fmt/format.h>
#include <glib.h>

#include <cerrno>
#include <colorlib/records/content_hash.hpp>
#include <cstring>
#include <fstream>
#include <memory>
#include <vector>

namespace colorlib {
namespace {

using Checksum = std::unique_ptr<GChecksum, decltype(&g_checksum_free)>;

Checksum new_checksum() { return {g_checksum_new(G_CHECKSUM_SHA256), &g_checksum_free}; }

void update(const Checksum& sum, const char* bytes, std::size_t count) {
  g_checksum_update(sum.get(), reinterpret_cast<const guchar*>(bytes), static_cast<gssize>(count));
}

}  // namespace

std::string sha256_of(std::string_view bytes) {
  const Checksum sum = new_checksum();
  if (!bytes.empty()) update(sum, bytes.data(), bytes.size());
  return g_checksum_get_string(sum.get());
}

bool is_sha256(std::string_view text) {
  return text.size() == 64 && text.find_first_not_of("0123456789abcdef") == std::string_view::npos;
}

Result<std::string> sha256_of_file(const std::filesystem::path& path) {
  std::error_code ignored;
  std::ifstream stream(path, std::ios::binary);
  if (!stream || std::filesystem::is_directory(path, ignored))
    return fail(ErrorCode::unreadable_photo,
                fmt::format("Reading '{}' for its content hash: {}.", path.string(),
                            stream ? "it is a folder" : std::strerror(errno)),
                "Check the name, and that you may read it.");
  const Checksum sum = new_checksum();
  std::vector<char> block(1 << 20);
  while (stream.read(block.data(), static_cast<std::streamsize>(block.size())) || stream.gcount() > 0)
    update(sum, block.data(), static_cast<std::size_t>(stream.gcount()));
  if (stream.bad())
    return fail(ErrorCode::unreadable_photo,
                fmt::format("Reading '{}' for its content hash failed on the way.", path.string()),
                "Copy the file again.");
  return std::string(g_checksum_get_string(sum.get()));
}

}  // namespace colorlib
