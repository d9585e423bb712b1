#include <colorlib/base/strict_text.hpp>
#include <streambuf>
#include <string>
#include <viewer/command/plain_stream.hpp>

namespace tintfall {

/// Holds back only what may be the beginning of a character.
class PlainStream::Buffer : public std::streambuf {
 public:
  explicit Buffer(std::ostream& target) : target_(target) {}

  bool pass(std::string_view code) { return release(waiting_.size()) && send(code); }

 protected:
  std::streamsize xsputn(const char* text, std::streamsize size) override {
    waiting_.append(text, static_cast<std::size_t>(size));
    return release(colorlib::whole_characters(waiting_)) ? size : 0;
  }
  int_type overflow(int_type character) override {
    if (traits_type::eq_int_type(character, traits_type::eof())) return traits_type::not_eof(character);
    const char byte = traits_type::to_char_type(character);
    return xsputn(&byte, 1) == 1 ? character : traits_type::eof();
  }
  int sync() override {
    const bool sent = release(waiting_.size());
    target_.flush();
    return sent && target_ ? 0 : -1;
  }

 private:
  bool send(std::string_view text) {
    target_.write(text.data(), static_cast<std::streamsize>(text.size()));
    return static_cast<bool>(target_);
  }
  bool release(std::size_t bytes) {
    const std::string text = colorlib::without_controls(std::string_view(waiting_).substr(0, bytes));
    waiting_.erase(0, bytes);
    return send(text);
  }

  std::ostream& target_;
  std::string waiting_;
};

PlainStream::PlainStream(std::ostream& target)
    : std::ostream(nullptr), buffer_(std::make_unique<Buffer>(target)) {
  rdbuf(buffer_.get());
}

PlainStream::~PlainStream() { flush(); }

void write_control(std::ostream& out, std::string_view code) {
  auto* plain = dynamic_cast<PlainStream::Buffer*>(out.rdbuf());
  if (plain == nullptr)
    out << code;
  else if (!plain->pass(code))
    out.setstate(std::ios::badbit);
}

}  // namespace tintfall
