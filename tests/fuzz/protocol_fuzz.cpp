/// libFuzzer: any bytes as a protocol of a spot test.

#include <cmath>
#include <colorlib/reaction/protocol.hpp>
#include <cstddef>
#include <cstdint>
#include <cstdlib>
#include <string_view>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  const auto protocol = colorlib::parse_protocol(text, "fuzz");
  if (!protocol) {
    if (protocol.error().message.empty() || protocol.error().advice.empty()) std::abort();
    return 0;
  }
  if (protocol->others.size() > colorlib::most_other_fields) std::abort();
  for (const auto& value : colorlib::said_in(*protocol))
    if (value.number && !std::isfinite(*value.number)) std::abort();
  (void)colorlib::missing_from(*protocol, true, false, false);
  return 0;
}
