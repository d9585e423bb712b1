/// libFuzzer: any bytes as a round file. What is read must come back as written, and keep the reader's
/// promises.

#include <cmath>
#include <colorlib/records/round_file.hpp>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const auto round = colorlib::parse_round({reinterpret_cast<const char*>(data), size}, "fuzz");
  if (!round) {
    if (round.error().message.empty() || round.error().advice.empty()) std::abort();
    return 0;
  }
  for (const auto& item : round->items) {
    if (item.id.empty()) std::abort();
    if (!item.reference || !item.reference->record.empty()) continue;
    for (const int i : {0, 1, 2})
      if (!(item.reference->covariance(i, i) > 0)) std::abort();
  }
  for (const auto& entry : round->entries)
    if (entry.record.empty() || entry.record.front() == '/' || entry.record == ".." ||
        entry.record.starts_with("../"))
      std::abort();
  const std::string text = colorlib::round_json(*round);
  const auto again = colorlib::parse_round(text, "again");
  if (!again || colorlib::round_json(*again) != text) std::abort();
  return 0;
}
