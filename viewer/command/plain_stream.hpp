#pragma once
/// What the commands write on: text of strangers' files may not steer the terminal it is shown on.

#include <memory>
#include <ostream>
#include <string_view>

namespace tintfall {

/// Passes everything on to `target`, with control characters and turns of direction as "?"
/// (colorlib::without_controls). Only `write_control` gets a terminal's codes through.
class PlainStream : public std::ostream {
 public:
  explicit PlainStream(std::ostream& target);
  ~PlainStream() override;
  PlainStream(const PlainStream&) = delete;
  PlainStream& operator=(const PlainStream&) = delete;

 private:
  class Buffer;
  std::unique_ptr<Buffer> buffer_;
  friend void write_control(std::ostream&, std::string_view);
};

/// A code of our own for the terminal, as it is. Never with foreign text in it.
void write_control(std::ostream& out, std::string_view code);

}  // namespace tintfall
