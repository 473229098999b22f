// A comparison as a tree.
#include "compare_parts.hpp"
#include "tell.hpp"

#include "wingnose/study/steel.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <numeric>

namespace wingnose::study {
namespace {

using quantity::Columns;
using quantity::Detail;
using quantity::Filler;
using quantity::Layout;
using quantity::Named;
using quantity::Tree;
using Dims = Filler::Dims;

constexpr double none = std::numeric_limits<double>::quiet_NaN();

std::string capital(std::string text) {
  if (!text.empty()) {
    text[0] = static_cast<char>(std::toupper(static_cast<unsigned char>(text[0])));
  }
  return text;
}

class Telling {
public:
  Telling(std::span<const ComparedCrossing> crossings, const Comparison& comparison)
      : documents_(crossings), c_(comparison), list_(quantity::compared(comparison.options.steel)) {}

  Tree tell(std::string_view source_text) {
    add_head(source_text);
    add_wheels();
    add_statistics();
    add_crossings();
    add_courses();
    add_rankings();
    add_differences();
    add_groups();
    add_passages();
    Filler(tree_, "dependence", "What the ranking depends on", Layout::sentences)
        .texts({"sentence", "", "what the ranking depends on"}, "sentence", c_.dependence);
    if (c_.options.steel) {
      add_assumptions(tree_, "What the numbers of the steel rest on", "assumptions/steel",
                      assess::assumptions_of_steel());
    }
    quantity::add_findings(tree_, c_.findings);
    add_inputs(tree_, c_.inputs);
    return std::move(tree_);
  }

private:
  [[nodiscard]] std::size_t crossings() const { return c_.crossings.size(); }
  [[nodiscard]] std::size_t wheels() const { return c_.population.members.size(); }
  // value(crossing), one per crossing.
  template <class Of> [[nodiscard]] std::vector<double> per_crossing(Of of) const {
    std::vector<double> values;
    for (const CrossingAnswer& a : c_.crossings) {
      values.push_back(of(a));
    }
    return values;
  }

  void add_head(std::string_view source_text) {
    tree_.attributes.emplace_back("name", "comparison of " + std::to_string(crossings()) + " crossings");
    Filler top(tree_, "");
    std::vector<std::string> names, statistics{"mean", "standard_deviation", "least", "greatest"};
    for (const CrossingAnswer& a : c_.crossings) {
      names.push_back(a.name);
    }
    for (const double level : quantile_levels) {
      statistics.push_back(quantity::quantile_name(level));
    }
    top.texts({"crossing", "crossing", "crossings compared; the first is the reference", Detail::told}, "crossing",
              names);
    top.texts({"statistic", "", "statistics of a distribution", Detail::told}, "statistic", statistics);
    std::vector<std::string> keys;
    for (const auto* q : list_) {
      keys.emplace_back(q->key);
    }
    top.texts({"quantity", "", "quantities compared", Detail::told}, "quantity", keys);
    Filler about(tree_, "about", "Comparison of " + std::to_string(crossings()) + " crossings", Layout::rows);
    const auto count = [&](std::string name, std::string label, std::string meaning, std::size_t value) {
      about.number({std::move(name), "-", std::move(label), std::move(meaning), 0}, static_cast<double>(value));
    };
    about.text({"reference", "reference", "crossing the others are held against"}, names.empty() ? "" : names.front());
    count("wheels", "wheels", "wheels of the population", wheels());
    count("wheels_compared", "compared", "wheels computed on all crossings, and nowhere grave",
          static_cast<std::size_t>(std::count(c_.compared.begin(), c_.compared.end(), true)));
    count("passages", "passages", "passages asked for", wheels() * crossings());
    about.number({"thin_nose_mm", "mm", "thin nose below", "a transfer onto a thinner nose is early", 1},
                 c_.options.thin_nose);
    about.number({"dropped_share", "-", "", "share of the weight not compared", 3, Detail::told}, c_.dropped);
    about.number({"effective_count", "-", "", "equal wheels that would say as much (Kish 1965)", 1, Detail::told},
                 c_.effective_count);
    about.number({"confidence", "-", "", "of the intervals", 3, Detail::told}, c_.options.confidence);
    about.number({"resamples", "-", "", "of the bootstrap", 0, Detail::told},
                 static_cast<double>(c_.options.resamples));
    about.number({"seed", "-", "", "of the bootstrap", 0, Detail::told}, static_cast<double>(c_.options.seed));
    Filler(tree_, "case").text({"text", "", "the comparison file as read", Detail::stored}, std::string(source_text));
    Columns(Filler(tree_, "case/of_crossing"), "crossing", documents_)
        .text({"name", "", "name of each case", Detail::stored}, [](const auto& d) { return d.document.base().name; })
        .text({"text", "", "case file of each crossing as read", Detail::stored},
              [](const auto& d) { return d.document.base().source_text; });
  }

  void add_wheels() {
    const auto& members = c_.population.members;
    const auto& classes = c_.population.classes;
    double total = 0.0;
    std::vector<double> of_class(classes.size(), 0.0), in_class = of_class;
    for (const auto& member : members) {
      total += member.weight;
      of_class[member.wheel_class] += member.weight;
      in_class[member.wheel_class] += 1.0;
    }
    for (double& weight : of_class) {
      weight /= total;
    }
    Columns of_classes(Filler(tree_, "classes", "Wheels", Layout::columns), "class", classes);
    of_classes.text({"name", "class", "wheel classes"}, [](const auto& k) { return k.name; });
    Filler filler(tree_, "classes");
    filler.list({"wheels", "-", "wheels", "wheels of the class", 0}, "class", in_class);
    filler.list({"share_percent", "%", "share", "share of the weight of all wheels", 1}, "class", of_class);

    std::vector<double> compared(c_.compared.begin(), c_.compared.end());
    Columns(Filler(tree_, "wheels"), "wheel", members)
        .text({"name", "", "name of each wheel", Detail::stored}, [](const auto& m) { return m.name; })
        .text({"class", "", "class of each wheel", Detail::stored},
              [&](const auto& m) { return classes[m.wheel_class].name; })
        .number({"share", "-", "", "share of the weight", 4, Detail::stored},
                [total](const auto& m) { return m.weight / total; });
    Filler wheels(tree_, "wheels");
    wheels.list(
        {"compared", "-", "", "1: computed on all crossings and nowhere grave, and so compared", 0, Detail::stored},
        "wheel", compared);
    const std::vector<MemberAnswer> nobody;
    const auto& first = c_.crossings.empty() ? nobody : c_.crossings.front().members;
    Columns(wheels, "wheel", first)
        .number({"speed_km_h", "km/h", "", "speed, on the first crossing", 1, Detail::stored},
                [](const auto& m) { return m.speed; })
        .number({"static_load_kN", "kN", "", "static wheel load, on the first crossing", 1, Detail::stored},
                [](const auto& m) { return m.static_load; })
        .number({"lateral_offset_mm", "mm", "", "lateral offset, on the first crossing", 1, Detail::stored},
                [](const auto& m) { return m.lateral_offset; });
    add_varying_keys();
  }

  [[nodiscard]] cases::KeyInfo key_of(const std::string& key) const {
    std::vector<const cases::Document*> documents;
    for (const auto& d : documents_) {
      documents.push_back(&d.document);
    }
    for (const auto& k : c_.population.classes) {
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

  void add_varying_keys() {
    const auto& members = c_.population.members;
    std::map<std::string, std::vector<const cases::KeyValue*>> keys;
    for (std::size_t m = 0; m < members.size(); ++m) {
      for (const auto& value : members[m].values) {
        keys.try_emplace(value.key, members.size(), nullptr).first->second[m] = &value.value;
      }
    }
    for (const auto& [key, values] : keys) {
      const cases::KeyInfo info = key_of(key);
      const bool text = std::any_of(values.begin(), values.end(), [](const auto* v) {
        return v != nullptr && std::holds_alternative<std::string>(*v);
      });
      Filler input(tree_, "wheels/input");
      std::vector<std::string> texts;
      std::vector<double> numbers;
      for (const auto* v : values) {
        const auto* number_of = v == nullptr ? nullptr : std::get_if<double>(v);
        const auto* text_of = v == nullptr ? nullptr : std::get_if<std::string>(v);
        texts.push_back(text_of != nullptr ? *text_of : number_of != nullptr ? number(*number_of) : "");
        numbers.push_back(number_of != nullptr ? *number_of : none);
      }
      if (text) {
        input.texts({key, "", info.meaning, Detail::stored}, "wheel", texts);
      } else {
        quantity::Array& a = input.list({key, "-", "", info.meaning, 6, Detail::stored}, "wheel", numbers);
        a.unit = info.unit; // as the file has them
      }
    }
  }

  void add_statistics() {
    Filler filler(tree_, "statistics", "Distributions over the wheels", Layout::tables);
    for (std::size_t q = 0; q < list_.size(); ++q) {
      std::vector<double> values;
      for (const CrossingAnswer& a : c_.crossings) {
        const Distribution& d = a.distributions.at(q);
        values.insert(values.end(), {d.mean, d.deviation, d.least, d.greatest});
        values.insert(values.end(), d.quantiles.begin(), d.quantiles.end());
      }
      Named what(*list_[q]);
      what.label = capital(what.label);
      what.meaning += "; its distribution over the wheels compared";
      filler.table(what, {{"crossing", crossings()}, {"statistic", 4 + quantile_levels.size()}}, std::move(values));
    }
    std::vector<double> count, share;
    for (const CrossingAnswer& a : c_.crossings) {
      for (const Distribution& d : a.distributions) {
        count.push_back(static_cast<double>(d.count));
        share.push_back(d.share);
      }
    }
    Filler known(tree_, "known");
    const Dims dims{{"crossing", crossings()}, {"quantity", list_.size()}};
    known.table({"wheels", "-", "", "wheels compared that have the quantity", 0, Detail::told}, dims, std::move(count));
    known.table({"share", "-", "", "their share of the weight", 3, Detail::told}, dims, std::move(share));
  }

  void add_crossings() {
    Filler shares(tree_, "crossings", "Share of wheels that ...", Layout::columns);
    std::vector<std::string> names;
    for (const CrossingAnswer& a : c_.crossings) {
      names.push_back(a.name);
    }
    using A = CrossingAnswer;
    Columns(shares, "crossing", c_.crossings)
        .text({"name", "crossing", "name of the crossing"}, &A::name)
        .number({"lost_contact_percent", "%", "lose contact",
                 "share of the weight of the wheels compared that lose contact", 1},
                &A::loses_contact)
        .number({"early_percent", "%", "transfer early",
                 "share of the weight of the wheels compared that transfer onto a thin nose", 1},
                &A::early)
        .number({"no_transfer_percent", "%", "never transfer",
                 "share of the weight of all wheels that never change over between wing and nose", 1},
                &A::no_transfer)
        .number({"failed_percent", "%", "failed",
                 "share of the weight of all wheels that could not be computed, those without transfer left out", 1},
                &A::failed)
        .number({"grave_percent", "%", "grave", "share of the weight of all wheels with a grave finding", 1},
                &A::grave);
    if (c_.options.steel) {
      Columns(Filler(tree_, "steel", "Share of wheels that strain the steel ...", Layout::columns), "crossing",
              c_.crossings)
          .text({"crossing_name", "crossing", "name of the crossing"}, &A::name)
          .text({"name", "steel", "steel of wing and nose"}, &A::steel)
          .number({"friction", "-", "friction", "coefficient of friction", 2}, &A::friction)
          .number({"beyond_shakedown_percent", "%", "beyond shakedown",
                   "share of the weight of the wheels compared that lie beyond elastic shakedown", 1},
                  &A::beyond_shakedown)
          .number({"beyond_surface_flow_percent", "%", "at the surface",
                   "share of the weight of the wheels compared with a surface fatigue index above 0", 1},
                  &A::beyond_surface_flow);
    }
    std::vector<double> early;
    for (const CrossingAnswer& a : c_.crossings) {
      for (std::size_t m = 0; m < wheels(); ++m) {
        const auto found = std::find(a.early_members.begin(), a.early_members.end(), m);
        early.push_back(found == a.early_members.end() ? 0.0 : 1.0);
      }
    }
    Filler(tree_, "passages")
        .table({"early", "-", "", "1: transfers onto a thin nose", 0, Detail::stored},
               {{"crossing", crossings()}, {"wheel", wheels()}}, early);
  }

  // Bins or steps of all crossings on one axis; where one has none it holds none.
  template <class Get>
  void add_course(const Named& what, Filler filler, const std::string& dim, const std::vector<double>& axis,
                  Get columns) {
    std::vector<double> values;
    for (const CrossingAnswer& a : c_.crossings) {
      const auto& [place, column] = columns(a);
      for (const double at : axis) {
        const auto found = std::find(place.begin(), place.end(), at);
        values.push_back(found == place.end() ? none : column[static_cast<std::size_t>(found - place.begin())]);
      }
    }
    filler.table(what, {{"crossing", crossings()}, {dim, axis.size()}}, std::move(values));
  }
  template <class Get> [[nodiscard]] std::vector<double> axis_of(Get places) const {
    std::vector<double> axis;
    for (const CrossingAnswer& a : c_.crossings) {
      axis.insert(axis.end(), places(a).begin(), places(a).end());
    }
    std::sort(axis.begin(), axis.end());
    axis.erase(std::unique(axis.begin(), axis.end()), axis.end());
    return axis;
  }

  void add_courses() {
    using A = CrossingAnswer;
    using Column = std::pair<const std::vector<double>&, const std::vector<double>&>;
    const auto stations = axis_of([](const A& a) -> auto& { return a.envelope.station; });
    Filler envelope(tree_, "envelope");
    envelope.list({"station_mm", "mm", "station", "middle of each step, of the axle", 1, Detail::stored}, "station_mm",
                  stations);
    const std::string of = " of the wheels' largest total force within the step";
    for (const auto& [key, meaning, member] :
         {std::tuple{"q05_kN", "5 % quantile", &Envelope::low}, std::tuple{"q50_kN", "median", &Envelope::middle},
          std::tuple{"q95_kN", "95 % quantile", &Envelope::high},
          std::tuple{"most_kN", "largest over all wheels", &Envelope::most}}) {
      add_course({key, "kN", "", meaning + of, 1, Detail::stored}, envelope, "station_mm", stations,
                 [member = member](const A& a) {
                   return Column{a.envelope.station, a.envelope.*member};
                 });
    }
    const auto from = axis_of([](const A& a) -> auto& { return a.nose_load.from; });
    const auto to = axis_of([](const A& a) -> auto& { return a.nose_load.to; });
    Filler load(tree_, "nose_load");
    load.list({"thickness_from_mm", "mm", "", "nose thickness under the axle, from", 1, Detail::told}, "thickness",
              from);
    load.list({"thickness_to_mm", "mm", "", "nose thickness under the axle, to", 1, Detail::told}, "thickness", to);
    for (const auto& [key, in, meaning, member] :
         {std::tuple{"mean_kN", "kN", "weighted mean over wheels of the mean force on the nose there", &NoseLoad::mean},
          std::tuple{"q95_kN", "kN", "95 % quantile over wheels of the largest force on the nose there",
                     &NoseLoad::high},
          std::tuple{"bearing_share", "-", "share of wheels whose nose bears at all there", &NoseLoad::bearing}}) {
      add_course({key, in, "", meaning, 1, Detail::told}, load, "thickness", from, [member = member](const A& a) {
        return Column{a.nose_load.from, a.nose_load.*member};
      });
    }
    add_wide_bins();
    add_paths();
  }

  // In print, wider bins of nose thickness.
  void add_wide_bins() {
    constexpr double width = 0.010; // m
    std::vector<std::string> bins, cells;
    const double end = c_.crossings.empty() || c_.crossings.front().nose_load.to.empty()
                           ? 0.0
                           : c_.crossings.front().nose_load.to.back();
    for (double from = 0.0; from < end - 1e-9; from += width) {
      std::vector<std::string> line;
      bool loaded = false;
      for (const CrossingAnswer& a : c_.crossings) {
        double mean = 0.0, count = 0.0, high = 0.0;
        for (std::size_t i = 0; i < a.nose_load.from.size(); ++i) {
          const double middle = 0.5 * (a.nose_load.from[i] + a.nose_load.to[i]);
          if (middle > from && middle < from + width && !std::isnan(a.nose_load.mean[i])) {
            mean += a.nose_load.mean[i];
            count += 1.0;
            high = std::max(high, a.nose_load.high[i]);
          }
        }
        loaded = loaded || mean > 0.0;
        line.push_back(count > 0.0 ? fixed(1e-3 * mean / count, 1) + " / " + fixed(1e-3 * high, 1) : "none");
      }
      if (loaded) {
        bins.push_back(fixed(1e3 * from, 0) + " to " + fixed(1e3 * (from + width), 0));
        cells.insert(cells.end(), line.begin(), line.end());
      }
    }
    Filler print(tree_, "nose_load/print", "Load on the nose by its thickness, kN: mean / 95 % of the wheels' largest",
                 Layout::columns);
    print.texts({"thickness", "nose thickness mm", "wider bins, as printed"}, "bin", bins);
    print.text_table({"load", "", "mean and 95 % quantile, as printed"},
                     {{"bin", bins.size()}, {"crossing", crossings()}}, cells);
  }

  void add_paths() {
    const std::vector<TypicalPath> no_paths;
    const auto& first = c_.crossings.empty() ? no_paths : c_.crossings.front().paths;
    Columns(Filler(tree_, "paths"), "path", first)
        .number({"wheel", "-", "", "wheel, counted from 0, of each path stored", 0, Detail::stored},
                [](const auto& p) { return static_cast<double>(p.member); })
        .text({"reason", "", "why its path is stored", Detail::stored}, [](const auto& p) { return p.reason; });
    for (std::size_t c = 0; c < crossings(); ++c) {
      for (std::size_t k = 0; k < c_.crossings[c].paths.size(); ++k) {
        const contact::WheelPath& path = *c_.crossings[c].paths[k].path;
        const std::string group = "paths/crossing_" + std::to_string(c) + "/" + std::to_string(k);
        Filler one(tree_, group);
        const std::string dim = "station_" + std::to_string(c) + "_" + std::to_string(k);
        const auto list = [&](std::string name, std::string meaning, std::vector<double> values) {
          one.list({std::move(name), "mm", "", std::move(meaning), 3, Detail::stored}, dim, std::move(values));
        };
        list("station_mm", "station of the axle", path.station);
        list("height_mm", "height of the wheel, on the higher body", height_of(path, ""));
        list("height_wing_mm", "height of the wheel on the wing", height_of(path, "wing"));
        list("height_nose_mm", "height of the wheel on the nose", height_of(path, "nose"));
      }
    }
  }

  static std::vector<double> height_of(const contact::WheelPath& path, const std::string& body) {
    std::vector<double> height(path.station.size(), none);
    for (const auto& b : path.bodies) {
      if (!body.empty() && b.name != body) {
        continue;
      }
      for (std::size_t i = 0; i < height.size(); ++i) { // where a wheel cannot touch a body its height is -infinity
        if (std::isfinite(b.height[i])) {
          height[i] = std::isnan(height[i]) ? b.height[i] : std::max(height[i], b.height[i]);
        }
      }
    }
    return height;
  }

  static std::string in_print(const quantity::NamedStatistic& n, double si) {
    return fixed(si * n.unit.per_si, n.decimals);
  }

  void add_rankings() {
    Filler ranking(tree_, "ranking", "Ranking, best first (< apart from the next, ~ within the spread)",
                   Layout::columns);
    std::vector<std::string> labels, cells, keys, units, better;
    std::vector<double> value, place, apart, worst, worst_place;
    for (const Ranking& r : c_.rankings) {
      const auto n = quantity::named(r.criterion);
      keys.push_back(n.key);
      units.emplace_back(n.unit.name);
      better.emplace_back(r.criterion.higher_is_better ? "higher" : "lower");
      labels.push_back(n.label + " (" + std::string(n.unit.name) + ")");
      for (std::size_t i = 0; i < r.order.size(); ++i) {
        cells.push_back(c_.crossings[r.order[i]].name + " " + in_print(n, r.values[r.order[i]]) +
                        (i < r.apart.size() ? r.apart[i] ? " <" : " ~" : ""));
        value.push_back(r.values[i] * n.unit.per_si);
        place.push_back(static_cast<double>(r.places[i]));
        apart.push_back(i < r.apart.size() ? (r.apart[i] ? 1.0 : 0.0) : none);
        worst.push_back(r.worst_values[i] * n.unit.per_si);
        worst_place.push_back(static_cast<double>(r.worst_places[i]));
      }
    }
    const std::size_t count = c_.rankings.size();
    const Dims by_crossing{{"criterion", count}, {"crossing", crossings()}};
    ranking.texts({"criterion", "criterion", "what crossings are ranked by"}, "criterion", labels);
    ranking.text_table({"best_first", "", "crossings with their values, the best first"},
                       {{"criterion", count}, {"place", crossings()}}, cells);
    ranking.texts({"key", "", "key of the criterion", Detail::told}, "criterion", keys);
    ranking.texts({"value_unit", "", "unit of its values", Detail::told}, "criterion", units);
    ranking.texts({"better", "", "which values are better", Detail::told}, "criterion", better);
    ranking.table({"value", "-", "", "value by each criterion, see value_unit", 6, Detail::told}, by_crossing, value);
    ranking.table(
        {"place_of", "-", "", "place by each criterion, 1 is best; equal values share a place", 0, Detail::told},
        by_crossing, place);
    ranking.table({"apart_from_next", "-", "", "1: the interval of the difference to the next place is without 0", 0,
                   Detail::told},
                  {{"criterion", count}, {"place", crossings()}}, apart);
    ranking.table({"worst_value", "-", "",
                   "value over all wheels, those not compared counted as the worst; none where that leaves no "
                   "bound",
                   6, Detail::told},
                  by_crossing, worst);
    ranking.table({"worst_place_of", "-", "", "place by worst_value", 0, Detail::told}, by_crossing, worst_place);
  }

  void add_differences() {
    for (std::size_t i = 1; i < crossings(); ++i) {
      std::vector<Difference> some;
      for (const Difference& d : c_.differences) {
        if (d.crossing == i) {
          some.push_back(d);
        }
      }
      const auto signed_text = [](const quantity::NamedStatistic& n, double value) {
        return (value > 0.0 ? "+" : "") + in_print(n, value);
      };
      using D = Difference;
      const std::string title = "\"" + c_.crossings[i].name + "\" less \"" + c_.crossings.front().name +
                                "\", with the interval of " + fixed(100.0 * c_.options.confidence, 1) + " %";
      const auto in_unit = [](const D& d, double value) { return value * quantity::named(d.statistic).unit.per_si; };
      Columns(Filler(tree_, "differences/crossing_" + std::to_string(i), title, Layout::columns), "difference", some)
          .text({"label", "statistic", "statistic that differs"},
                [](const D& d) { return quantity::named(d.statistic).label; })
          .text({"difference_text", "difference", "crossing less reference, as printed"},
                [&](const D& d) { return signed_text(quantity::named(d.statistic), d.value); })
          .text({"low_text", "from", "begin of the interval, as printed"},
                [&](const D& d) { return signed_text(quantity::named(d.statistic), d.low); })
          .text({"high_text", "to", "end of the interval, as printed"},
                [&](const D& d) { return signed_text(quantity::named(d.statistic), d.high); })
          .text({"value_unit", "unit", "unit of the difference"},
                [](const D& d) { return quantity::named(d.statistic).unit.name; })
          .number({"higher_percent", "%", "wheels higher",
                   "share of wheels whose quantity is higher than on the reference", 1},
                  &D::higher)
          .text({"key", "", "key of the statistic", Detail::told},
                [](const D& d) { return quantity::named(d.statistic).key; })
          .number({"value", "-", "", "crossing less reference, see value_unit", 6, Detail::told},
                  [&](const D& d) { return in_unit(d, d.value); })
          .number({"low", "-", "", "begin of the interval", 6, Detail::told},
                  [&](const D& d) { return in_unit(d, d.low); })
          .number({"high", "-", "", "end of the interval", 6, Detail::told},
                  [&](const D& d) { return in_unit(d, d.high); });
    }
  }

  void add_groups() {
    std::vector<double> value, place, flips;
    for (const auto& group : c_.groups) {
      for (std::size_t k = 0; k < c_.rankings.size(); ++k) {
        const Ranking& r = group.rankings[k];
        flips.push_back(group.flips[k] ? 1.0 : 0.0);
        for (std::size_t c = 0; c < crossings(); ++c) {
          value.push_back(r.values[c] * quantity::named(r.criterion).unit.per_si);
          place.push_back(static_cast<double>(r.places[c]));
        }
      }
    }
    using G = study::Group;
    Filler groups(tree_, "groups");
    Columns(groups, "group", c_.groups)
        .text({"name", "", "some of the wheels: a class, or a half by speed or load", Detail::told}, &G::name)
        .text({"kind", "", "class, speed or load", Detail::told},
              [](const G& g) {
                return g.kind == study::Group::Kind::wheel_class ? "class"
                       : g.kind == study::Group::Kind::speed     ? "speed"
                                                                 : "load";
              })
        .number({"wheels", "-", "", "wheels of the group", 0, Detail::told},
                [](const G& g) { return static_cast<double>(g.members.size()); })
        .number({"share", "-", "", "share of the weight compared", 3, Detail::told}, &G::share);
    const std::size_t count = c_.groups.size(), criteria = c_.rankings.size();
    const Dims all{{"group", count}, {"criterion", criteria}, {"crossing", crossings()}};
    Filler ranking(tree_, "ranking/groups");
    ranking.table({"value", "-", "", "value by each criterion, see ranking/value_unit", 6, Detail::told}, all, value);
    ranking.table({"place_of", "-", "", "place by each criterion, 1 is best", 0, Detail::told}, all, place);
    ranking.table({"flips", "-", "", "1: another crossing is best here, and clearly", 0, Detail::told},
                  {{"group", count}, {"criterion", criteria}}, flips);
  }

  // Every wheel on every crossing.
  void add_passages() {
    const Dims all{{"crossing", crossings()}, {"wheel", wheels()}};
    Filler passages(tree_, "passages");
    for (std::size_t q = 0; q < list_.size(); ++q) {
      std::vector<double> values;
      for (const CrossingAnswer& a : c_.crossings) {
        for (const MemberAnswer& m : a.members) {
          values.push_back(m.observed[q]);
        }
      }
      passages.table(Named(*list_[q], Detail::stored), all, std::move(values));
    }
    std::vector<std::string> states, failures, kinds;
    for (const CrossingAnswer& a : c_.crossings) {
      for (const MemberAnswer& m : a.members) {
        states.emplace_back(name(m.state));
        failures.push_back(m.failure);
        std::string found;
        for (const Finding& f : m.findings) {
          found += (found.empty() ? "" : ", ") + std::string(words_of(f.kind).key);
        }
        kinds.push_back(found);
      }
    }
    passages.text_table({"state", "", "done, no_transfer, bad_input, could_not_compute or grave", Detail::stored}, all,
                        states);
    passages.text_table({"failure", "", "why a wheel does not count; empty where it does", Detail::stored}, all,
                        failures);
    passages.text_table({"findings", "", "kinds of what was found", Detail::stored}, all, kinds);
  }

  std::span<const ComparedCrossing> documents_;
  const Comparison& c_;
  std::vector<const quantity::Quantity*> list_;
  Tree tree_{"comparison"};
};

} // namespace

Tree tell(std::span<const ComparedCrossing> crossings, const Comparison& comparison, std::string_view source_text) {
  return Telling(crossings, comparison).tell(source_text);
}

} // namespace wingnose::study
