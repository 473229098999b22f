// A comparison as a tree.
#include "compare_parts.hpp"
#include "compare_tell_parts.hpp"

#include "wingnose/numeric/axis.hpp"
#include "wingnose/study/steel.hpp"

#include <algorithm>
#include <cmath>
#include <limits>
#include <map>

namespace wingnose::study {
namespace {

using A = assess::ComparedOnCrossing;

std::string capital(std::string text) {
  if (!text.empty()) {
    text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
  }
  return text;
}

// Height of the wheel on one body, or on the higher one; -infinity where it cannot touch a body.
std::vector<double> height_of(const contact::WheelPath& path, const std::string& body) {
  std::vector<double> height(path.station.size(), -std::numeric_limits<double>::infinity());
  for (const auto& b : path.bodies) {
    for (std::size_t i = 0; i < height.size() && (body.empty() || b.name == body); ++i) {
      height[i] = std::max(height[i], b.height[i]);
    }
  }
  return height;
}

Dims per_wheel(const Comparison& c) {
  return {{"crossing", c.crossings.size()}, {"wheel", c.population.members.size()}};
}
// of(wheel) of every wheel on every crossing.
template <class Of> auto every_passage(const Comparison& c, Of of) {
  return grid(per_wheel(c), [&](std::size_t i, std::size_t m) { return std::invoke(of, c.crossings[i].members[m]); });
}

void add_head(Tree& tree, const Comparison& c, std::span<const ComparedCrossing> documents,
              std::string_view source_text) {
  tree.attributes.emplace_back("name", "comparison of " + std::to_string(c.crossings.size()) + " crossings");
  const std::vector<std::string> names = each(c.crossings, &A::name);
  std::vector<std::string> statistics{"mean", "standard_deviation", "least", "greatest"};
  append(statistics, each(quantile_levels, quantity::quantile_name));
  std::vector<std::string> labels{"mean", "deviation", "least", "greatest"};
  append(labels, each(quantile_levels, quantity::quantile_label));
  Filler top(tree, "");
  top.texts({"crossing", "crossing", "crossings compared; the first is the reference", told}, "crossing", names);
  top.texts({"statistic", "", "statistics of a distribution", told}, "statistic", statistics);
  top.texts({"statistic_label", "", "the same in print", told}, "statistic", labels);
  top.texts(
      {"quantity", "", "quantities compared", told}, "quantity",
      each(quantity::compared(c.options.steel, c.options.track), [](const auto* q) { return std::string(q->key); }));
  Filler about(tree, "about", "Comparison of " + std::to_string(c.crossings.size()) + " crossings", Layout::rows);
  about.text({"reference", "reference", "crossing the others are held against"}, names.empty() ? "" : names.front());
  about.number({"wheels", "wheels", "wheels of the population", 0}, static_cast<double>(c.population.members.size()));
  about.number({"wheels_compared", "compared", "wheels computed on all crossings, and nowhere grave", 0},
               static_cast<double>(std::count(c.compared.begin(), c.compared.end(), true)));
  about.number({"passages", "passages", "passages asked for", 0},
               static_cast<double>(c.population.members.size() * c.crossings.size()));
  about.number(
      {"thin_nose_mm", "thin nose below", "a transfer where the nose is thinner is early, of a trailing wheel late", 1},
      c.options.thin_nose);
  about.number({"dropped_share", "", "share of the weight not compared", 3, told}, c.dropped);
  about.number({"effective_count", "", "equal wheels that would say as much (Kish 1965)", 1, told}, c.effective_count);
  about.number({"confidence", "", "of the intervals", 3, told}, c.options.confidence);
  about.number({"resamples", "", "of the bootstrap", 0, told}, static_cast<double>(c.options.resamples));
  about.number({"seed", "", "of the bootstrap", 0, told}, static_cast<double>(c.options.seed));
  Filler(tree, "case").text({"text", "", "the comparison file as read", stored}, std::string(source_text));
  Columns(Filler(tree, "case/of_crossing"), "crossing", documents)
      .text({"name", "", "name of each case", stored}, [](const auto& d) { return d.document->name; })
      .text({"text", "", "case file of each crossing as read", stored},
            [](const auto& d) { return d.document->source_text; });
}

void add_wheels(Tree& tree, const Comparison& c) {
  const auto& members = c.population.members;
  const auto& classes = c.population.classes;
  double total = 0.0;
  std::vector<double> of_class(classes.size(), 0.0), in_class = of_class;
  for (const auto& member : members) {
    total += member.weight;
    of_class[member.wheel_class] += member.weight;
    in_class[member.wheel_class] += 1.0;
  }
  Columns(Filler(tree, "classes", "Wheels", Layout::columns), "class", classes)
      .text({"name", "class", "wheel classes"}, &cases::WheelClass::name);
  Filler filler(tree, "classes");
  filler.list({"wheels", "wheels", "wheels of the class", 0}, "class", in_class);
  filler.list({"share_percent", "share", "share of the weight of all wheels", 1}, "class",
              each(of_class, [total](double weight) { return weight / total; }));

  using M = assess::ComparedPassage;
  Filler wheels(tree, "wheels");
  Columns(wheels, "wheel", members)
      .text({"name", "", "name of each wheel", stored}, &cases::Member::name)
      .text({"class", "", "class of each wheel", stored}, [&](const auto& m) { return classes[m.wheel_class].name; })
      .number({"share", "", "share of the weight", 4, stored}, [total](const auto& m) { return m.weight / total; });
  wheels.list({"compared", "", "1: computed on all crossings and nowhere grave, and so compared", 0, stored}, "wheel",
              each(c.compared, one_if));
  const std::vector<M> nobody;
  Columns(wheels, "wheel", c.crossings.empty() ? nobody : c.crossings.front().members)
      .number({"speed_km_h", "", "speed, on the first crossing", 1, stored}, &M::speed)
      .number({"static_load_kN", "", "static wheel load, on the first crossing", 1, stored}, &M::static_load)
      .number({"lateral_offset_mm", "", "lateral offset, on the first crossing", 1, stored}, &M::lateral_offset);
}

cases::KeyInfo key_of(const std::string& key, const Comparison& c, std::span<const ComparedCrossing> crossings) {
  auto documents = each(crossings, [](const ComparedCrossing& crossing) { return &crossing.document; });
  for (const auto& k : c.population.classes) {
    if (k.wheel) {
      documents.push_back(&*k.wheel);
    }
  }
  for (const auto* document : documents) {
    try {
      return cases::key_info(*document, key);
    } catch (const InputError&) { // not a key of this case
      continue;
    }
  }
  return {key, "-", "value of a case key", {}, {}, 0.0, 0.0, 0};
}

void add_varying_keys(Tree& tree, const Comparison& c, std::span<const ComparedCrossing> crossings) {
  std::map<std::string, std::vector<const cases::KeyValue*>> keys; // values of every wheel, nullptr: none
  for (std::size_t m = 0; m < c.population.members.size(); ++m) {
    for (const auto& value : c.population.members[m].values) {
      keys.try_emplace(value.key, c.population.members.size(), nullptr).first->second[m] = &value.value;
    }
  }
  Filler input(tree, "wheels/input");
  for (const auto& [key, values] : keys) {
    const auto number_of = [](const auto* v) { return v != nullptr ? std::get_if<double>(v) : nullptr; };
    const auto text_of = [](const auto* v) { return v != nullptr ? std::get_if<std::string>(v) : nullptr; };
    const cases::KeyInfo info = key_of(key, c, crossings);
    if (std::any_of(values.begin(), values.end(), text_of)) {
      input.texts({key, "", info.meaning, stored}, "wheel", each(values, [&](const auto* v) {
                    return text_of(v) ? *text_of(v) : number_of(v) ? number(*number_of(v)) : std::string();
                  }));
    } else {
      input
          .list(Named(key, "", info.meaning, 6, stored).without_unit(), "wheel",
                each(values, [&](const auto* v) { return number_of(v) ? *number_of(v) : none; }))
          .unit = info.unit; // as the file has them
    }
  }
}

void add_statistics(Tree& tree, const Comparison& c) {
  const auto list = quantity::compared(c.options.steel, c.options.track);
  Filler filler(tree, "statistics", "Distributions over the wheels", Layout::tables);
  for (std::size_t q = 0; q < list.size(); ++q) {
    std::vector<double> values;
    for (const A& a : c.crossings) {
      const Distribution& d = a.distributions.at(q);
      values.insert(values.end(), {d.mean, d.deviation, d.least, d.greatest});
      values.insert(values.end(), d.quantiles.begin(), d.quantiles.end());
    }
    Named what(*list[q]);
    what.label = capital(what.label);
    what.meaning += "; its distribution over the wheels compared";
    filler.table(what, {{"crossing", c.crossings.size()}, {"statistic", 4 + quantile_levels.size()}},
                 std::move(values));
  }
  Filler known(tree, "known");
  const Dims dims{{"crossing", c.crossings.size()}, {"quantity", list.size()}};
  const auto all = [&](auto of) {
    return grid(dims, [&](std::size_t i, std::size_t q) {
      return static_cast<double>(std::invoke(of, c.crossings[i].distributions[q]));
    });
  };
  known.table({"wheels", "", "wheels compared that have the quantity", 0, told}, dims, all(&Distribution::count));
  known.table({"share", "", "their share of the weight", 3, told}, dims, all(&Distribution::share));
}

void add_crossings(Tree& tree, const Comparison& c) {
  const std::string compared = "share of the weight of the wheels compared that ", all = "share of the weight of all ";
  Columns(Filler(tree, "crossings", "Share of wheels that ...", Layout::columns), "crossing", c.crossings)
      .text({"name", "crossing", "name of the crossing"}, &A::name)
      .number({"lost_contact_percent", "lose contact", compared + "lose contact", 1}, &A::loses_contact)
      .number({"early_percent", "transfer on thin nose", compared + "transfer where the nose is thin", 1}, &A::early)
      .number({"no_transfer_percent", "never transfer", all + "wheels that never change over between wing and nose", 1},
              &A::no_transfer)
      .number(
          {"failed_percent", "failed", all + "wheels that could not be computed, those without transfer left out", 1},
          &A::failed)
      .number({"grave_percent", "grave", all + "wheels with a grave finding", 1}, &A::grave);
  if (c.options.steel) {
    Columns(Filler(tree, "steel", "Share of wheels that strain the steel ...", Layout::columns), "crossing",
            c.crossings)
        .text({"crossing_name", "crossing", "name of the crossing"}, &A::name)
        .text({"name", "steel", "steel of wing and nose"}, &A::steel)
        .number({"friction", "friction", "coefficient of friction", 2}, &A::friction)
        .number({"beyond_shakedown_percent", "beyond shakedown", compared + "lie beyond elastic shakedown", 1},
                &A::beyond_shakedown)
        .number({"beyond_surface_flow_percent", "at the surface",
                 "share of the weight of the wheels compared with a surface fatigue index above 0", 1},
                &A::beyond_surface_flow);
  }
  std::vector<double> early;
  for (const A& a : c.crossings) {
    std::vector<double> of_crossing(c.population.members.size(), 0.0);
    for (const std::size_t m : a.early_members) {
      of_crossing[m] = 1.0;
    }
    append(early, of_crossing);
  }
  Filler(tree, "passages").table({"early", "", "1: transfers where the nose is thin", 0, stored}, per_wheel(c), early);
}

template <class Course>
std::vector<double> axis_of(const Comparison& c, Course A::*course, std::vector<double> Course::*along) {
  return common_axis(each(c.crossings, [=](const A& a) { return a.*course.*along; }));
}
// Bins or steps of all crossings on one axis; where one has none it holds none.
template <class Course>
void add_course(const Comparison& c, const Named& what, Filler filler, const std::string& dim, Course A::*course,
                std::vector<double> Course::*along, std::vector<double> Course::*column) {
  const auto axis = axis_of(c, course, along);
  std::vector<double> values;
  for (const A& a : c.crossings) {
    append(values, on_axis(axis, a.*course.*along, a.*course.*column));
  }
  filler.table(what, {{"crossing", c.crossings.size()}, {dim, axis.size()}}, std::move(values));
}

void add_courses(Tree& tree, const Comparison& c) {
  using E = assess::Envelope;
  using L = assess::NoseLoad;
  Filler envelope(tree, "envelope");
  envelope.list({"station_mm", "station", "middle of each step, of the axle", 1, stored}, "station_mm",
                axis_of(c, &A::envelope, &E::station));
  const auto force = [&](const char* key, const std::string& meaning, std::vector<double> E::*column) {
    add_course(c, {key, "", meaning + " of the wheels' largest total force within the step", 1, stored}, envelope,
               "station_mm", &A::envelope, &E::station, column);
  };
  force("q05_kN", "5 % quantile", &E::low);
  force("q50_kN", "median", &E::middle);
  force("q95_kN", "95 % quantile", &E::high);
  force("most_kN", "largest over all wheels", &E::most);
  Filler load(tree, "nose_load");
  load.list({"thickness_from_mm", "", "nose thickness under the axle, from", 1, told}, "thickness",
            axis_of(c, &A::nose_load, &L::from));
  load.list({"thickness_to_mm", "", "nose thickness under the axle, to", 1, told}, "thickness",
            axis_of(c, &A::nose_load, &L::to));
  const auto on_nose = [&](const Named& what, std::vector<double> L::*column) {
    add_course(c, what, load, "thickness", &A::nose_load, &L::from, column);
  };
  on_nose({"mean_kN", "", "weighted mean over wheels of the mean force on the nose there", 1, told}, &L::mean);
  on_nose({"q95_kN", "", "95 % quantile over wheels of the largest force on the nose there", 1, told}, &L::high);
  on_nose({"bearing_share", "", "share of wheels whose nose bears at all there", 1, told}, &L::bearing);
}

// In print, wider bins of nose thickness.
void add_wide_bins(Tree& tree, const Comparison& c) {
  constexpr double width = 0.010; // m
  std::vector<std::string> bins, cells;
  const std::vector<double> ends = c.crossings.empty() ? std::vector<double>{} : c.crossings.front().nose_load.to;
  for (double from = 0.0; !ends.empty() && from < ends.back() - 1e-9; from += width) {
    std::vector<std::string> line;
    bool loaded = false;
    for (const A& a : c.crossings) {
      const auto [mean, high] = mean_and_high(a.nose_load, from, from + width);
      loaded = loaded || mean > 0.0;
      line.push_back(std::isnan(mean) ? "none" : fixed(1e-3 * mean, 1) + " / " + fixed(1e-3 * high, 1));
    }
    if (loaded) {
      bins.push_back(fixed(1e3 * from, 0) + " to " + fixed(1e3 * (from + width), 0));
      append(cells, line);
    }
  }
  Filler print(tree, "nose_load/print", "Load on the nose by its thickness, kN: mean / 95 % of the wheels' largest",
               Layout::columns);
  print.texts({"thickness", "nose thickness mm", "wider bins, as printed"}, "bin", bins);
  print.text_table({"load", "", "mean and 95 % quantile, as printed"},
                   {{"bin", bins.size()}, {"crossing", c.crossings.size()}}, cells);
}

void add_paths(Tree& tree, const Comparison& c) {
  const std::vector<assess::TypicalPath> no_paths;
  Columns(Filler(tree, "paths"), "path", c.crossings.empty() ? no_paths : c.crossings.front().paths)
      .number({"wheel", "", "wheel, counted from 0, of each path stored", 0, stored},
              [](const auto& p) { return static_cast<double>(p.member); })
      .text({"reason", "", "why its path is stored", stored}, &assess::TypicalPath::reason);
  for (std::size_t i = 0; i < c.crossings.size(); ++i) {
    for (std::size_t k = 0; k < c.crossings[i].paths.size(); ++k) {
      const contact::WheelPath& path = *c.crossings[i].paths[k].path;
      const std::string at = std::to_string(i) + "/" + std::to_string(k),
                        dim = "station_" + std::to_string(i) + "_" + std::to_string(k);
      Filler one(tree, "paths/crossing_" + at);
      one.list({"station_mm", "", "station of the axle", 3, stored}, dim, path.station);
      one.list({"height_mm", "", "height of the wheel, on the higher body", 3, stored}, dim, height_of(path, ""));
      for (const std::string body : {"wing", "nose"}) {
        one.list({"height_" + body + "_mm", "", "height of the wheel on the " + body, 3, stored}, dim,
                 height_of(path, body));
      }
    }
  }
}

// Every wheel on every crossing.
void add_passages(Tree& tree, const Comparison& c) {
  using M = assess::ComparedPassage;
  const auto list = quantity::compared(c.options.steel, c.options.track);
  Filler passages(tree, "passages");
  for (std::size_t q = 0; q < list.size(); ++q) {
    passages.table(Named(*list[q], stored), per_wheel(c), every_passage(c, [q](const M& m) { return m.observed[q]; }));
  }
  passages.text_table({"state", "", "done, no_transfer, bad_input, could_not_compute or grave", stored}, per_wheel(c),
                      every_passage(c, [](const M& m) { return std::string(name(m.state)); }));
  passages.text_table({"failure", "", "why a wheel does not count; empty where it does", stored}, per_wheel(c),
                      every_passage(c, &M::failure));
  passages.text_table({"findings", "", "kinds of what was found", stored}, per_wheel(c),
                      every_passage(c, [](const M& m) { return kinds_of(m.findings); }));
}

} // namespace

Tree tell(std::span<const ComparedCrossing> crossings, const Comparison& comparison, std::string_view source_text) {
  Tree tree("comparison");
  add_head(tree, comparison, crossings, source_text);
  add_wheels(tree, comparison);
  add_varying_keys(tree, comparison, crossings);
  add_statistics(tree, comparison);
  add_crossings(tree, comparison);
  add_courses(tree, comparison);
  add_wide_bins(tree, comparison);
  add_paths(tree, comparison);
  add_rankings(tree, comparison);
  add_differences(tree, comparison);
  add_groups(tree, comparison);
  add_passages(tree, comparison);
  Filler(tree, "dependence", "What the ranking depends on", Layout::sentences)
      .texts({"sentence", "", "what the ranking depends on"}, "sentence", comparison.dependence);
  if (comparison.options.steel) {
    add_assumptions(tree, "What the numbers of the steel rest on", "assumptions/steel", assess::assumptions_of_steel());
  }
  quantity::add_findings(tree, comparison.findings);
  add_inputs(tree, comparison.inputs);
  return tree;
}

} // namespace wingnose::study
