#include <fmt/format.h>
#include <zlib.h>

#include <algorithm>
#include <colorlib/base/strict_text.hpp>
#include <colorlib/exports/zip_archive.hpp>
#include <cstdint>
#include <limits>
#include <optional>

namespace colorlib {
namespace {

constexpr std::uint32_t local_mark = 0x04034b50, central_mark = 0x02014b50, end_mark = 0x06054b50;
constexpr std::uint16_t version = 20, deflated = 8, stored = 0;
constexpr std::uint16_t first_day = 0x21;  // 1980-01-01
constexpr std::uint16_t encrypted_bit = 1;
constexpr std::size_t end_size = 22, central_size = 46, local_size = 30;

void put16(std::string& bytes, std::uint16_t value) {
  bytes += static_cast<char>(value & 0xFF);
  bytes += static_cast<char>(value >> 8);
}

void put32(std::string& bytes, std::uint32_t value) {
  put16(bytes, static_cast<std::uint16_t>(value & 0xFFFF));
  put16(bytes, static_cast<std::uint16_t>(value >> 16));
}

std::uint16_t get16(std::string_view bytes, std::size_t at) {
  return static_cast<std::uint16_t>(static_cast<unsigned char>(bytes[at]) |
                                    static_cast<unsigned char>(bytes[at + 1]) << 8);
}

std::uint32_t get32(std::string_view bytes, std::size_t at) {
  return get16(bytes, at) | static_cast<std::uint32_t>(get16(bytes, at + 2)) << 16;
}

std::uint32_t crc_of(std::string_view bytes) {
  return static_cast<std::uint32_t>(
      crc32_z(0, reinterpret_cast<const Bytef*>(bytes.data()), static_cast<z_size_t>(bytes.size())));
}

/// Raw deflate (no header of zlib's own); empty when zlib has no memory.
std::optional<std::string> deflate_raw(std::string_view bytes) {
  z_stream stream{};
  if (deflateInit2(&stream, Z_BEST_COMPRESSION, Z_DEFLATED, -MAX_WBITS, 8, Z_DEFAULT_STRATEGY) != Z_OK)
    return std::nullopt;
  std::string out(deflateBound(&stream, static_cast<uLong>(bytes.size())), '\0');
  stream.next_in = reinterpret_cast<Bytef*>(const_cast<char*>(bytes.data()));
  stream.avail_in = static_cast<uInt>(bytes.size());
  stream.next_out = reinterpret_cast<Bytef*>(out.data());
  stream.avail_out = static_cast<uInt>(out.size());
  const bool done = deflate(&stream, Z_FINISH) == Z_STREAM_END;
  out.resize(stream.total_out);
  deflateEnd(&stream);
  if (!done) return std::nullopt;
  return out;
}

/// `size` bytes, or nothing when the data say otherwise.
std::optional<std::string> inflate_raw(std::string_view packed, std::size_t size) {
  z_stream stream{};
  if (inflateInit2(&stream, -MAX_WBITS) != Z_OK) return std::nullopt;
  std::string out;
  stream.next_in = reinterpret_cast<Bytef*>(const_cast<char*>(packed.data()));
  stream.avail_in = static_cast<uInt>(packed.size());
  int state = Z_OK;
  // In steps: a header's lie about the size costs no memory.
  while (state == Z_OK && out.size() < size) {
    const std::size_t before = out.size(), step = std::min<std::size_t>(size - before, 1 << 20);
    out.resize(before + step);
    stream.next_out = reinterpret_cast<Bytef*>(out.data() + before);
    stream.avail_out = static_cast<uInt>(step);
    state = inflate(&stream, Z_NO_FLUSH);
    out.resize(before + step - stream.avail_out);
    if (stream.avail_out == step && state == Z_OK) break;  // no progress: cut short
  }
  inflateEnd(&stream);
  if ((state != Z_STREAM_END && state != Z_OK) || out.size() != size) return std::nullopt;
  return out;
}

tl::unexpected<Error> wrong(std::string_view what) {
  return fail(ErrorCode::unreadable_table, fmt::format("Reading a ZIP archive: {}.", what),
              "Copy or export the archive again.");
}

/// What the central directory says of one member.
struct Entry {
  std::string name;
  std::uint16_t flags = 0, method = 0;
  std::uint32_t crc = 0, packed = 0, size = 0, offset = 0;
};

Result<std::vector<Entry>> entries_of(std::string_view archive) {
  // The end of the directory is in the last 64 KiB: behind it only a comment may follow.
  if (archive.size() < end_size) return wrong("it is cut short");
  std::size_t end = archive.size() - end_size;
  const std::size_t earliest = end > 65'535 ? end - 65'535 : 0;
  while (get32(archive, end) != end_mark) {
    if (end == earliest) return wrong("it has no directory");
    --end;
  }
  const std::size_t count = get16(archive, end + 10);
  std::size_t at = get32(archive, end + 16);
  std::vector<Entry> entries;
  for (std::size_t i = 0; i < count; ++i) {
    if (at + central_size > archive.size() || get32(archive, at) != central_mark)
      return wrong("its directory is damaged");
    Entry entry;
    entry.flags = get16(archive, at + 8);
    entry.method = get16(archive, at + 10);
    entry.crc = get32(archive, at + 16);
    entry.packed = get32(archive, at + 20);
    entry.size = get32(archive, at + 24);
    entry.offset = get32(archive, at + 42);
    const std::size_t name = get16(archive, at + 28), extra = get16(archive, at + 30),
                      comment = get16(archive, at + 32);
    if (at + central_size + name > archive.size()) return wrong("its directory is damaged");
    entry.name = archive.substr(at + central_size, name);
    at += central_size + name + extra + comment;
    entries.push_back(std::move(entry));
  }
  return entries;
}

}  // namespace

Result<std::string> zip_archive(const std::vector<ZipMember>& members) {
  const auto refuse = [](std::string_view what) {
    return fail(ErrorCode::cannot_write, fmt::format("Packing a ZIP archive: {}.", what),
                "Export fewer collections at once.");
  };
  constexpr std::size_t most = std::numeric_limits<std::uint32_t>::max();
  if (members.size() > 65'535) return refuse("it would have more than 65535 members");
  std::string archive, directory;
  for (const ZipMember& member : members) {
    if (member.bytes.size() > most) return refuse("a member is larger than 4 GiB");
    const auto packed = deflate_raw(member.bytes);
    if (!packed) return refuse("there is not enough memory");
    std::string head;  // from the version on the same in both places
    put16(head, version);
    put16(head, 0);
    put16(head, deflated);
    put16(head, 0);
    put16(head, first_day);
    put32(head, crc_of(member.bytes));
    put32(head, static_cast<std::uint32_t>(packed->size()));
    put32(head, static_cast<std::uint32_t>(member.bytes.size()));
    put16(head, static_cast<std::uint16_t>(member.name.size()));
    put16(head, 0);
    put32(directory, central_mark);
    put16(directory, version);
    directory += head;
    put16(directory, 0);
    put16(directory, 0);
    put16(directory, 0);
    put32(directory, 0);
    put32(directory, static_cast<std::uint32_t>(archive.size()));
    directory += member.name;
    put32(archive, local_mark);
    archive += head + member.name + *packed;
    if (archive.size() > most) return refuse("it would be larger than 4 GiB");
  }
  const auto start = static_cast<std::uint32_t>(archive.size());
  archive += directory;
  put32(archive, end_mark);
  put16(archive, 0);
  put16(archive, 0);
  put16(archive, static_cast<std::uint16_t>(members.size()));
  put16(archive, static_cast<std::uint16_t>(members.size()));
  put32(archive, static_cast<std::uint32_t>(directory.size()));
  put32(archive, start);
  put16(archive, 0);
  return archive;
}

Result<std::vector<std::string>> zip_names(std::string_view archive) {
  const auto entries = entries_of(archive);
  if (!entries) return fail(entries.error());
  std::vector<std::string> names;
  for (const Entry& entry : *entries) names.push_back(entry.name);
  return names;
}

Result<std::string> zip_member(std::string_view archive, std::string_view name, std::size_t limit_bytes) {
  const auto entries = entries_of(archive);
  if (!entries) return fail(entries.error());
  const auto found =
      std::find_if(entries->begin(), entries->end(), [&](const Entry& e) { return e.name == name; });
  if (found == entries->end()) return wrong(fmt::format("it has no member '{}'", name));
  const Entry& entry = *found;
  if (entry.size > limit_bytes) return wrong(fmt::format("'{}' is larger than {} bytes", name, limit_bytes));
  if ((entry.flags & encrypted_bit) != 0 || (entry.method != stored && entry.method != deflated))
    return wrong(fmt::format("'{}' is packed in a way that is not read", name));
  const std::size_t offset = entry.offset;
  if (offset + local_size > archive.size() || get32(archive, offset) != local_mark)
    return wrong("it is damaged");
  const std::size_t begin = offset + local_size + get16(archive, offset + 26) + get16(archive, offset + 28);
  if (begin > archive.size() || entry.packed > archive.size() - begin) return wrong("it is cut short");
  const std::string_view packed = archive.substr(begin, entry.packed);
  auto bytes = entry.method == stored ? std::optional<std::string>(packed) : inflate_raw(packed, entry.size);
  if (!bytes || bytes->size() != entry.size || crc_of(*bytes) != entry.crc)
    return wrong(fmt::format("'{}' is damaged", name));
  return *bytes;
}

}  // namespace colorlib
