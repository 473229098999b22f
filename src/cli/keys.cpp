#include "commands.hpp"

#include "wingnose/io/reference.hpp"
#include "wingnose/study/examples.hpp"

#include <ostream>

namespace wingnose::cli {

void print_keys(bool json, std::ostream& out) {
  const auto keys = study::files_read();
  const auto answers = study::empty_answers();
  out << (json ? io::reference_json(keys, answers) : io::reference(keys, answers)) << '\n';
}

} // namespace wingnose::cli
