// Sections as a survey gives them: any CSV must make wing and nose or be refused.
#include "rows_given.hpp"

#include "wingnose/layout/surface.hpp"

extern "C" int LLVMFuzzerTestOneInput(const std::uint8_t* data, std::size_t size) {
  fuzz::expect_answer([&] {
    const auto c = fuzz::case_with("base = \"demo.toml\"\n[crossing]\nkind = \"sections\"\nwing_csv = \"fuzz.csv\"\n"
                                   "nose_csv = \"fuzz.csv\"\nnoise_um = 2\n",
                                   data, size);
    const auto& shape = std::get<wingnose::layout::SectionedShape>(c.excitation);
    (void)wingnose::layout::from_sections(shape);
  });
  return 0;
}
