#include "commands.hpp"

#include "wingnose/io/reference.hpp"
#include "wingnose/study/compare.hpp"
#include "wingnose/study/examples.hpp"

#include <ostream>

namespace wingnose::cli {

void print_keys(bool json, std::ostream& out) {
  cases::Case c;
  cases::VehicleFile vehicle;
  study::CompareOptions compare;
  const std::vector<io::KeysOf> keys{{"case", &cases::case_schema(), &c},
                                     {"vehicle", &cases::vehicle_schema(), &vehicle},
                                     {"comparison", &study::compare_schema(), &compare}};
  const auto answers = study::empty_answers();
  out << (json ? io::reference_json(keys, answers) : io::reference(keys, answers)) << '\n';
}

} // namespace wingnose::cli
