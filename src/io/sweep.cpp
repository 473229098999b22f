// Which cases a sweep consists of.
#include "checksum.hpp"
#include "csv.hpp"
#include "wingnose/words/text.hpp"

#include "wingnose/io/case_file.hpp"
#include "wingnose/io/sweep_file.hpp"
#include "wingnose/version.hpp"
#include "wingnose/words/error.hpp"

#include <algorithm>
#include <array>
#include <cstdio>
#include <limits>

namespace wingnose::io {

namespace {

constexpr std::size_t most_cases = 100'000'000;

// All digits: two values that differ in the last bit are different sweeps.
struct Exact {
  std::string operator()(double value) const {
    std::array<char, 40> text{};
    std::snprintf(text.data(), text.size(), "%.17g", value);
    return text.data();
  }
  std::string operator()(const std::string& value) const { return '"' + value + '"'; }
};

std::string fingerprint(const Sweep& sweep) {
  std::string text = std::string("wingnose ") + version + ' ' + commit + (sweep.grid() ? " grid" : " points") +
                     (sweep.probes() ? " probes" : "") + " history " + std::to_string(sweep.history_every()) + '\n';
  const study::Case& base = sweep.document().base();
  text += base.source_text + '\n';
  for (const auto& input : base.inputs) {
    text += input.role + ' ' + input.sha256 + '\n';
  }
  for (const auto& column : sweep.columns()) {
    text += column.key;
    for (const auto& value : column.values) {
      text += ' ' + std::visit(Exact{}, value);
    }
    text += '\n';
  }
  return sha256(text);
}

void check(const CaseDocument& document, const std::vector<SweepColumn>& columns, bool grid) {
  if (columns.empty()) {
    throw InputError("a sweep needs at least one key that varies");
  }
  for (auto column = columns.begin(); column != columns.end(); ++column) {
    if (std::any_of(columns.begin(), column, [&](const SweepColumn& c) { return c.key == column->key; })) {
      throw InputError("\"" + column->key + "\" varies twice; name each key once");
    }
    if (column->values.empty()) {
      throw InputError("\"" + column->key + "\" has no values; give at least one");
    }
    if (!grid && column->values.size() != columns.front().values.size()) {
      throw InputError("\"" + column->key + "\" has " + std::to_string(column->values.size()) + " values and \"" +
                       columns.front().key + "\" " + std::to_string(columns.front().values.size()) +
                       "; points need one value of each key");
    }
    for (const auto& value : column->values) {
      check_value(document, {column->key, value});
    }
  }
}

} // namespace

Sweep::Sweep(CaseDocument document, std::vector<SweepColumn> columns, bool grid, bool probes, int history_every)
    : document_(std::move(document)), columns_(std::move(columns)), grid_(grid), probes_(probes),
      history_every_(history_every) {
  check(document_, columns_, grid_);
  if (history_every < 0 || history_every > most_history_every) {
    throw InputError("history_every", std::to_string(history_every), "0 (no histories) to 1000000",
                     "1 stores every sample, 10 every tenth.");
  }
  if (grid_) {
    std::stable_sort(columns_.begin(), columns_.end(), [this](const SweepColumn& a, const SweepColumn& b) {
      return key_info(document_, a.key).cost > key_info(document_, b.key).cost;
    });
    stride_.assign(columns_.size(), 1);
    count_ = 1;
    for (std::size_t c = columns_.size(); c-- > 0;) {
      stride_[c] = count_;
      if (columns_[c].values.size() > most_cases / count_) {
        throw InputError("number of cases", "more than 100 million", "1 to 100 million",
                         "Give fewer values to some keys.");
      }
      count_ *= columns_[c].values.size();
    }
  } else {
    count_ = columns_.front().values.size();
  }
  fingerprint_ = io::fingerprint(*this);
}

const KeyValue& Sweep::value(std::size_t i, std::size_t column) const {
  const auto& values = columns_[column].values;
  return values[grid_ ? i / stride_[column] % values.size() : i];
}

std::vector<Override> Sweep::overrides(std::size_t i) const {
  std::vector<Override> list;
  for (std::size_t c = 0; c < columns_.size(); ++c) {
    list.push_back({columns_[c].key, value(i, c)});
  }
  return list;
}

study::Case Sweep::make(std::size_t i) const { return vary(document_, overrides(i)); }

namespace {

SweepHistory history_of(const passage::History& h, int every) {
  SweepHistory kept;
  const auto picked = [every](const std::vector<double>& all) {
    std::vector<float> some;
    some.reserve(all.size() / static_cast<std::size_t>(every) + 1);
    for (std::size_t k = 0; k < all.size(); k += static_cast<std::size_t>(every)) {
      some.push_back(static_cast<float>(all[k]));
    }
    return some;
  };
  if (h.station.size() > 1) {
    kept.first_station = h.station.front();
    kept.spacing = (h.station[1] - h.station[0]) * every;
  }
  kept.force = picked(h.force);
  for (std::size_t b = 0; b < h.bodies.size(); ++b) {
    if (h.bodies[b] == "wing") {
      kept.wing = picked(h.body_force[b]);
    } else if (h.bodies[b] == "nose") {
      kept.nose = picked(h.body_force[b]);
    }
  }
  return kept;
}

} // namespace

SweepRows sweep_rows(const Sweep& sweep, std::size_t begin, std::span<const study::Case> cases,
                     std::span<const study::Outcome> outcomes) {
  const auto measures = sweep_measures();
  SweepRows rows;
  rows.begin = begin;
  rows.end = begin + cases.size();
  rows.values.reserve(cases.size() * measures.size());
  for (std::size_t i = 0; i < cases.size(); ++i) {
    const auto& outcome = outcomes[i];
    for (const auto& measure : measures) {
      const auto value = outcome.result ? measure.value(cases[i], *outcome.result) : std::nullopt;
      rows.values.push_back(value.value_or(std::numeric_limits<double>::quiet_NaN()));
    }
    rows.status.push_back(outcome.state);
    rows.failures.push_back(outcome.failure);
    if (sweep.history_every() > 0) {
      rows.histories.push_back(outcome.result ? history_of(outcome.result->history, sweep.history_every())
                                              : SweepHistory{});
    }
  }
  return rows;
}

std::vector<PassageMeasure> sweep_measures() {
  std::vector<PassageMeasure> list;
  for (const auto& measure : geometry_measures()) {
    list.push_back(
        {static_cast<const Measure&>(measure),
         [value = measure.value](const study::Case&, const study::Result& result) { return value(result.geometry); }});
  }
  const auto passage = passage_measures();
  list.insert(list.end(), passage.begin(), passage.end());
  const auto closed_form = [&list](std::string key, double closedform::JointForces::*member, std::string label,
                                   std::string description) {
    list.push_back({{std::move(key), "kN", std::move(label), std::move(description), 2},
                    [member](const study::Case&, const study::Result& result) {
                      return result.estimates.empty()
                                 ? std::nullopt
                                 : std::optional<double>(1e-3 * (result.estimates.front().forces.*member));
                    }});
  };
  closed_form("estimate_p1_kN", &closedform::JointForces::P1, "P1, closed form",
              "P1 by the closed form, lumped track derived from the track of the case");
  closed_form("estimate_p2_kN", &closedform::JointForces::P2, "P2, closed form",
              "P2 by the closed form, lumped track derived from the track of the case");
  return list;
}

} // namespace wingnose::io
