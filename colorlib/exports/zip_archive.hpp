#pragma once
/// Small ZIP archives: what a Darwin Core archive is packed in. The container only; zlib does the
/// compressing.

#include <colorlib/base/result.hpp>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace colorlib {

struct ZipMember {
  std::string name;  ///< plain ASCII without folders
  std::string bytes;
};

/// Deflated members in their order, dated 1980-01-01 so that equal members give equal archives. At most 65
/// 535 members and 4 GiB; larger: cannot_write. Source: APPNOTE.TXT 6.3.3, sections 4.3.7, 4.3.12 and 4.3.16
/// [APPNOTE].
Result<std::string> zip_archive(const std::vector<ZipMember>& members);

/// The member of this name, unpacked and compared with its CRC-32; at most `limit_bytes`. Stored and deflated
/// members only: no encryption, no ZIP64. Errors: unreadable_table, when it is missing, damaged, or larger.
Result<std::string> zip_member(std::string_view archive, std::string_view name, std::size_t limit_bytes);
/// The names of all members. Errors: unreadable_table.
Result<std::vector<std::string>> zip_names(std::string_view archive);

}  // namespace colorlib
