// Every choice of the library goes by names from one table beside it, whole and without doubles.
#include "catch.hpp"
#include "folder.hpp"

#include "wingnose/assess/ride_accelerations.hpp"
#include "wingnose/case/population.hpp"
#include "wingnose/contact/tangential/saturation.hpp"
#include "wingnose/layout/turnout/standard.hpp"
#include "wingnose/study/compare.hpp"
#include "wingnose/study/instants.hpp"
#include "wingnose/study/many.hpp"
#include "wingnose/study/speeds.hpp"
#include "wingnose/vehicle/space/vehicle.hpp"
#include "wingnose/words/names.hpp"
#include "wingnose/words/range.hpp"

#include <algorithm>
#include <regex>
#include <set>
#include <string>
#include <tuple>
#include <vector>

using namespace wingnose;

namespace {

using Enums = std::tuple<Bound, Direction, layout::DippedJoint::Shape, layout::Role, layout::Side, cases::TrackMethod,
                         contact::SearchAt, assess::CreepTheory, assess::ContactShape, passage::Event::Kind,
                         passage::Method, cases::Sampling, study::LimitOutcome, assess::ComparedPassage::State,
                         assess::WheelGroup::Kind, study::Outcome::State, study::Moment, quantity::Section,
                         cases::Rails, cases::BearerKind, assess::Sensor::On, assess::Sensor::Reads,
                         vehicle::space::Motion, layout::turnout::Worth, layout::turnout::Demand, layout::turnout::Hand,
                         layout::turnout::Way, cases::TurnoutFrom, cases::Rung, cases::RailsBelow, assess::VehiclePart>;
using Variants = std::tuple<layout::Excitation, contact::NormalLaw, contact::CreepLaw, cases::WheelShape>;

template <class Choice> std::size_t check_names() {
  std::set<std::string> seen;
  for (const auto& each : names(Choice{})) {
    const std::string called(each.name);
    CAPTURE(called);
    CHECK_FALSE(called.empty());
    CHECK(seen.insert(called).second); // no two are alike
    const auto found = named<Choice>(called, "choice");
    CHECK(name(found) == called);
    CHECK((wingnose::detail::key_of(found) == each.value));
  }
  CHECK(names_of<Choice>().size() == seen.size());
  return seen.size();
}
template <class... Choices> std::vector<std::size_t> check_all(const std::tuple<Choices...>*) {
  return {check_names<Choices>()...};
}
template <class... Choices> std::vector<std::size_t> alternatives(const std::tuple<Choices...>*) {
  return {std::variant_size_v<Choices>...};
}

// A header without its comments.
std::string code_of(const fs::path& header) {
  std::ifstream file(header);
  std::string text;
  for (std::string line; std::getline(file, line);) {
    text += line.substr(0, line.find("//")) + '\n';
  }
  return text;
}

// Of every enum with a table of names beside it how many values it has, and how many variants have one.
struct Tables {
  std::vector<std::size_t> values;
  std::size_t variants = 0;
};
Tables tables_in_headers() {
  const std::regex table(R"(auto names\((const )?([\w:]+)&?\))"), an_enum(R"(enum class (\w+)[^{;]*\{([^}]*)\})");
  Tables tables;
  for (const auto& entry : fs::recursive_directory_iterator(source_folder / "include")) {
    if (entry.path().extension() != ".hpp") {
      continue;
    }
    const std::string code = code_of(entry.path());
    for (std::sregex_iterator found(code.begin(), code.end(), table), end; found != end; ++found) {
      const std::string type = (*found)[2].str(), last = type.substr(type.rfind(':') + 1);
      std::size_t values = 0;
      for (std::sregex_iterator e(code.begin(), code.end(), an_enum); e != end; ++e) {
        if ((*e)[1] == last) {
          const std::string body = (*e)[2];
          const std::regex word(R"(\w+)");
          values = static_cast<std::size_t>(std::distance(std::sregex_iterator(body.begin(), body.end(), word), end));
        }
      }
      CAPTURE(entry.path().string(), type);
      if (values > 0) {
        tables.values.push_back(values);
      } else {
        CHECK((*found)[1].matched); // a variant
        ++tables.variants;
      }
    }
  }
  std::sort(tables.values.begin(), tables.values.end());
  return tables;
}

} // namespace

TEST_CASE("Every value of every enum and every alternative of every variant has a name that leads back to it") {
  std::vector<std::size_t> named_values = check_all(static_cast<const Enums*>(nullptr));
  CHECK(check_all(static_cast<const Variants*>(nullptr)) == alternatives(static_cast<const Variants*>(nullptr)));
  std::sort(named_values.begin(), named_values.end());
  // Against the headers: no table is forgotten here, and no value in a table.
  const Tables tables = tables_in_headers();
  CHECK(named_values == tables.values);
  CHECK(tables.variants == std::tuple_size_v<Variants>);
}
