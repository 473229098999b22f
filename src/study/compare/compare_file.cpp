// Comparison files: what a user writes.
#include "compare_parts.hpp"

#include "wingnose/case/key.hpp"

#include <algorithm>

namespace wingnose::study {
namespace {

using cases::key;

CompareOptions& options(CompareOptions& o) { return o; }
assess::ForceGrid& force_grid(CompareOptions& o) { return o.grid; }

constexpr Range seed_allowed{0.0, 4294967295.0};

cases::Schema make_schema() {
  using O = CompareOptions;
  using G = assess::ForceGrid;
  cases::Schema s;
  add(s, "compare", "how crossings are compared",
      {key<options, &O::thin_nose>("thin_nose_mm",
                                   "a transfer where the nose is thinner is early, of a trailing wheel late"),
       key<options, &O::confidence>("confidence", "of the intervals"),
       key<options, &O::resamples, &resamples_allowed>("resamples", "resamples of the bootstrap"),
       key<options, &O::seed, &seed_allowed>("seed", "of the bootstrap"),
       key<force_grid, &G::envelope_step>("envelope_step_mm", "station step of the envelopes of the force"),
       key<force_grid, &G::envelope_from>("envelope_from_m", "first station of the envelopes"),
       key<force_grid, &G::envelope_to>("envelope_to_m", "last station of the envelopes"),
       key<force_grid, &G::thickness_step>("thickness_step_mm", "step of the nose thickness"),
       key<force_grid, &G::thickness_to>("thickness_to_mm", "greatest nose thickness"),
       key<options, &O::differs_on_purpose>("differs_on_purpose",
                                            "keys beside those of the crossing in which the cases are meant to differ, "
                                            "such as [\"passage.speed_km_h\"]"),
       key<options, &O::steel>("steel", "tell what the landings do to the steel, too"),
       key<options, &O::track>("track", "tell what bearers feel, too; slower")});
  return s;
}

std::vector<ComparedCrossing> read_crossings(const cases::Sheet& top, cases::Files& files) {
  std::vector<ComparedCrossing> crossings;
  for (const cases::Sheet& table : top.tables("crossing")) {
    table.refuse_others({"name", "case"});
    const std::string name = table.text("name", "a short name of the crossing in quotes");
    crossings.push_back({name, cases::named_case(table, top.folder(), files)});
    const auto same = [&](const ComparedCrossing& c) { return c.name == name; };
    if (std::any_of(crossings.begin(), crossings.end() - 1, same)) {
      throw InputError(table.where("name") + ": two crossings are called \"" + name + "\"; give each its own name");
    }
  }
  if (crossings.size() < 2) {
    throw InputError(top.file() +
                     ": a comparison needs at least two [[crossing]] tables, each with name and case; it has " +
                     std::to_string(crossings.size()));
  }
  return crossings;
}

} // namespace

const cases::Schema& compare_schema() {
  static const cases::Schema schema = make_schema();
  return schema;
}

ComparisonFile read_comparison(const cases::Sheet& top, cases::Files& files) {
  top.refuse_others({"crossing", "population", "class", "wheel", "compare"});
  ComparisonFile file{read_crossings(top, files), cases::read_wheels(top, files), {}};
  if (const cases::Written* written = top.find("compare")) {
    const cases::Sheet only(top.file(), written->where, {{"compare", *written}}, top.folder());
    cases::fill(compare_schema(), only, &file.options, files);
    try {
      check(file.options);
    } catch (const InputError& error) {
      cases::tell_by_keys(error, compare_schema(), &file.options, &only);
    }
  }
  return file;
}

} // namespace wingnose::study
