#include "wingnose/words/visible.hpp"

namespace wingnose {
namespace {

std::string escaped(unsigned char c) {
  constexpr std::string_view digits = "0123456789abcdef";
  return c == '\n' ? "\\n" : c == '\t' ? "\\t" : std::string("\\x") + digits[c >> 4U] + digits[c & 15U];
}

} // namespace

std::string visible(std::string_view text) {
  std::string out;
  out.reserve(text.size());
  for (std::size_t i = 0; i < text.size(); ++i) {
    const auto c = static_cast<unsigned char>(text[i]);
    const auto next = static_cast<unsigned char>(i + 1 < text.size() ? text[i + 1] : '\0');
    if (c < 0x20 || c == 0x7F) {
      out += escaped(c);
    } else if (c == 0xC2 && next >= 0x80 && next < 0xA0) {
      out += escaped(next);
      ++i;
    } else {
      out += text[i];
    }
  }
  return out;
}

} // namespace wingnose
