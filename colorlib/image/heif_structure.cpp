#include <algorithm>
#include <array>
#include <colorlib/image/heif_structure_internal.hpp>
#include <map>
#include <set>
#include <vector>

namespace colorlib {
namespace {

/// Big-endian numbers from the front of `bytes`; past the end it gives zeros and stays failed.
class Reader {
 public:
  explicit Reader(std::string_view bytes) : bytes_(bytes) {}
  std::uint64_t number(std::size_t size) {
    std::uint64_t value = 0;
    for (const char c : text(size)) value = (value << 8) | static_cast<unsigned char>(c);
    return value;
  }
  std::string_view text(std::size_t size) {
    if (size > bytes_.size()) {
      failed_ = true;
      bytes_ = {};
      return {};
    }
    const auto taken = bytes_.substr(0, size);
    bytes_.remove_prefix(size);
    return taken;
  }
  std::string_view rest() const { return bytes_; }
  bool failed() const { return failed_; }

 private:
  std::string_view bytes_;
  bool failed_ = false;
};

struct Box {
  std::string_view type, content;
};

/// The boxes that lie one after another in `bytes`; nothing when they do not fit.
std::optional<std::vector<Box>> boxes_in(std::string_view bytes) {
  constexpr std::size_t most_boxes = 100'000;
  std::vector<Box> boxes;
  Reader reader(bytes);
  while (!reader.rest().empty()) {
    std::uint64_t size = reader.number(4), head = 8;
    const auto type = reader.text(4);
    if (size == 1) size = reader.number(8), head = 16;
    if (size == 0) size = reader.rest().size() + head;
    if (reader.failed() || size < head || boxes.size() >= most_boxes) return {};
    boxes.push_back({type, reader.text(size - head)});
    if (reader.failed()) return {};
  }
  return boxes;
}

/// The one box of this type; an empty content when there is none, nothing when there are several.
std::optional<std::string_view> only(const std::vector<Box>& boxes, std::string_view type) {
  std::optional<std::string_view> found = std::string_view{};
  bool seen = false;
  for (const Box& box : boxes)
    if (box.type == type) {
      if (seen) return {};
      seen = true;
      found = box.content;
    }
  return found;
}

using Items = std::map<std::uint32_t, std::string_view>;  // id -> type

std::optional<Items> read_items(std::string_view iinf) {
  Items items;
  Reader reader(iinf);
  const auto version = reader.number(1);
  reader.text(3);
  const std::uint64_t count = reader.number(version == 0 ? 2 : 4);
  const auto entries = boxes_in(reader.rest());
  if (reader.failed() || !entries || entries->size() != count) return {};
  for (const Box& entry : *entries) {
    Reader item(entry.content);
    const auto entry_version = item.number(1);
    item.text(3);
    if (entry.type != "infe" || entry_version < 2) return {};
    const auto id = static_cast<std::uint32_t>(item.number(entry_version == 2 ? 2 : 4));
    item.text(2);
    const auto type = item.text(4);
    if (item.failed() || !items.emplace(id, type).second) return {};
  }
  return items;
}

struct Reference {
  std::string_view type;
  std::uint32_t from = 0;
  std::vector<std::uint32_t> to;
};

std::optional<std::vector<Reference>> read_references(std::string_view iref) {
  std::vector<Reference> references;
  if (iref.empty()) return references;
  Reader reader(iref);
  const std::size_t id_size = reader.number(1) == 0 ? 2 : 4;
  reader.text(3);
  const auto entries = boxes_in(reader.rest());
  if (reader.failed() || !entries) return {};
  for (const Box& entry : *entries) {
    Reader content(entry.content);
    Reference reference{entry.type, static_cast<std::uint32_t>(content.number(id_size)), {}};
    for (std::uint64_t count = content.number(2); count > 0 && !content.failed(); --count)
      reference.to.push_back(static_cast<std::uint32_t>(content.number(id_size)));
    if (content.failed()) return {};
    references.push_back(std::move(reference));
  }
  return references;
}

using Graph = std::map<std::uint32_t, std::vector<std::uint32_t>>;

/// Whom decoding an item leads to: the pictures it is made of, and those that accompany it.
Graph decoding_graph(const std::vector<Reference>& references) {
  Graph graph;
  for (const Reference& reference : references)
    for (const std::uint32_t to : reference.to) {
      if (reference.type == "dimg") graph[reference.from].push_back(to);
      if (reference.type == "auxl" || reference.type == "thmb") graph[to].push_back(reference.from);
    }
  return graph;
}

/// True when no path returns to where it came from and none is longer than files have reason to make it.
bool is_shallow(const Graph& graph) {
  constexpr int deepest = 6;
  std::set<std::uint32_t> reached;
  for (const auto& [from, to] : graph) reached.insert(from);
  // Items that lie on a path of n steps, for growing n: a circle never runs out.
  for (int steps = 0; steps <= deepest; ++steps) {
    std::set<std::uint32_t> further;
    for (const std::uint32_t item : reached)
      if (const auto found = graph.find(item); found != graph.end())
        further.insert(found->second.begin(), found->second.end());
    if (further.empty()) return true;
    reached = std::move(further);
  }
  return false;
}

/// Grids of HEVC pictures are all that phones write. Other derived pictures (overlays, grids of grids) can
/// multiply the work without bound, and the size in the headers of other codings is not known here.
bool only_hevc(const Items& items, const std::vector<Reference>& references) {
  constexpr std::array<std::string_view, 9> others = {"iden", "iovl", "av01", "avc1", "vvc1",
                                                      "evc1", "jpeg", "j2k1", "unci"};
  for (const auto& [id, type] : items)
    if (std::find(others.begin(), others.end(), type) != others.end()) return false;
  const auto type_of = [&](std::uint32_t id) {
    const auto found = items.find(id);
    return found == items.end() ? std::string_view{} : found->second;
  };
  for (const Reference& reference : references)
    if (reference.type == "dimg" && type_of(reference.from) == "grid")
      for (const std::uint32_t to : reference.to)
        if (type_of(to) != "hvc1") return false;
  return true;
}

/// Looks for sequence parameter sets where the decoder may meet them: anywhere in the boxes of `meta`, and in
/// the pixel data behind a length of less than 16 MB. By chance alone, the compressed data of one file in
/// about a million name a size there that is beyond the limits.
void find_coded_size(std::string_view bytes, bool behind_length, HeifStructure& found) {
  for (std::size_t at = behind_length ? 4 : 0; at + 2 < bytes.size(); ++at) {
    const auto first = static_cast<unsigned char>(bytes[at]),
               second = static_cast<unsigned char>(bytes[at + 1]);
    const bool parameter_set = (first & 0x7e) == 33 << 1 && (second & 0x07) != 0;  // any layer
    if (!parameter_set || (behind_length && bytes[at - 4] != 0)) continue;
    constexpr std::int64_t longest_side = 1 << 17;  // far beyond what the decoder takes itself
    const auto size = hevc_size(bytes.substr(at + 2, 4096));
    if (!size || (behind_length && std::max(size->width, size->height) > longest_side)) continue;
    // Made-up sizes may be too large for whole numbers.
    const auto area = [](std::int64_t width, std::int64_t height) {
      return static_cast<double>(width) * static_cast<double>(height);
    };
    if (area(size->width, size->height) <= area(found.coded_width, found.coded_height)) continue;
    found.coded_width = size->width;
    found.coded_height = size->height;
  }
}

}  // namespace

HeifStructure read_heif_structure(std::string_view bytes) {
  HeifStructure found;
  const auto top = boxes_in(bytes);
  const auto meta = top ? only(*top, "meta") : std::nullopt;
  if (!meta || meta->size() < 4) return found;
  const auto inside = boxes_in(meta->substr(4));
  if (!inside) return found;
  const auto iinf = only(*inside, "iinf"), iref = only(*inside, "iref");
  if (!iinf || !iref) return found;
  const auto items = read_items(*iinf);
  const auto references = read_references(*iref);
  if (!items || !references || !is_shallow(decoding_graph(*references))) return found;
  found.sound = true;
  found.all_hevc = only_hevc(*items, *references);
  for (const Box& box : *top) find_coded_size(box.content, box.type != "meta", found);
  return found;
}

}  // namespace colorlib
