// Case files: any text must be a case or be refused.
#include "target.hpp"

#include "wingnose/io/case_file.hpp"

#include <string_view>

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  const std::string_view text(reinterpret_cast<const char*>(data), size);
  fuzz::expect_answer([&] { (void)wingnose::io::parse_case(text, "fuzz.toml", WINGNOSE_SOURCE_DIR "/profiles"); });
  return 0;
}
