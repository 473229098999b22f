// Measured wheels: any CSV must be fitted or be refused.
#include "rows_given.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  fuzz::expect_answer([&] {
    (void)fuzz::case_with("base = \"demo.toml\"\n[wheel]\nprofile = \"measured\"\ncsv = \"fuzz.csv\"\nnoise_um = 20\n",
                          data, size);
  });
  return 0;
}
