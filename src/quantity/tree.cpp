#include "wingnose/quantity/tree.hpp"

#include <algorithm>
#include <cmath>
#include <limits>

namespace wingnose::quantity {
namespace {

constexpr double none = std::numeric_limits<double>::quiet_NaN();

std::pair<std::string_view, std::string_view> parted(std::string_view path) {
  const auto cut = path.rfind('/');
  return cut == std::string_view::npos ? std::pair{std::string_view{}, path}
                                       : std::pair{path.substr(0, cut), path.substr(cut + 1)};
}

// No body, no height: -infinity inside, "not a number" where it is told.
std::vector<double> in_unit(std::vector<double> values, const Unit& unit) {
  for (double& value : values) {
    value = std::isfinite(value) ? value * unit.per_si : none;
  }
  return values;
}

Array called(const Named& n) {
  Array a;
  a.name = n.name;
  a.label = n.label;
  a.meaning = n.meaning;
  a.detail = n.detail;
  return a;
}

Array array_of(const Named& n, std::vector<std::string> texts) {
  Array a = called(n);
  a.is_text = true;
  a.texts = std::move(texts);
  return a;
}

Array over(const Filler::Dims& dims, Array a) {
  for (const auto& [dim, length] : dims) {
    a.dims.push_back(dim);
    a.shape.push_back(length);
  }
  return a;
}

} // namespace

Array array_of(const Named& n, std::vector<double> si) {
  Array a = called(n);
  a.unit = n.unit.name;
  a.decimals = n.decimals;
  a.numbers = in_unit(std::move(si), n.unit);
  return a;
}

std::string Tree::attribute(std::string_view name) const {
  const auto found = std::find_if(attributes.begin(), attributes.end(), [&](const auto& a) { return a.first == name; });
  return found == attributes.end() ? "" : found->second;
}

Group& Tree::group(std::string_view path) {
  const auto found = std::find_if(groups_.begin(), groups_.end(), [&](const Group& g) { return g.path == path; });
  if (found != groups_.end()) {
    return *found;
  }
  groups_.push_back({std::string(path), {}, Layout::hidden, {}});
  return groups_.back();
}

Array& Tree::add(std::string_view path, Array array) {
  auto& arrays = group(path).arrays;
  arrays.push_back(std::move(array));
  return arrays.back();
}

const Array* Tree::find(std::string_view path) const {
  const auto parts = parted(path);
  for (const Group& g : groups_) {
    if (g.path == parts.first) {
      const auto found =
          std::find_if(g.arrays.begin(), g.arrays.end(), [&](const Array& a) { return a.name == parts.second; });
      return found == g.arrays.end() ? nullptr : &*found;
    }
  }
  return nullptr;
}

double Tree::number(std::string_view path) const {
  const auto values = numbers(path);
  return values.empty() ? none : values.front();
}
std::string Tree::text(std::string_view path) const {
  const auto values = texts(path);
  return values.empty() ? "" : values.front();
}
std::span<const double> Tree::numbers(std::string_view path) const {
  const Array* found = find(path);
  return found == nullptr ? std::span<const double>{} : std::span(found->numbers);
}
std::span<const std::string> Tree::texts(std::string_view path) const {
  const Array* found = find(path);
  return found == nullptr ? std::span<const std::string>{} : std::span(found->texts);
}

// --- filling ---------------------------------------------------------------------------------------------------------

Filler::Filler(Tree& tree, std::string group, std::string title, Layout layout)
    : tree_(tree), group_(std::move(group)) {
  Group& g = tree_.group(group_);
  if (!title.empty()) {
    g.title = std::move(title);
    g.layout = layout;
  }
}

Array& Filler::number(const Named& named, std::optional<double> si) {
  return tree_.add(group_, array_of(named, std::vector{si.value_or(none)}));
}
Array& Filler::list(const Named& named, std::string dim, std::vector<double> si) {
  const Dims dims{{std::move(dim), si.size()}};
  return table(named, dims, std::move(si));
}
Array& Filler::table(const Named& named, const Dims& dims, std::vector<double> si) {
  return tree_.add(group_, over(dims, array_of(named, std::move(si))));
}
Array& Filler::text(const Named& named, std::string value) {
  return tree_.add(group_, array_of(named, std::vector{std::move(value)}));
}
Array& Filler::texts(const Named& named, std::string dim, std::vector<std::string> values) {
  const Dims dims{{std::move(dim), values.size()}};
  return text_table(named, dims, std::move(values));
}
Array& Filler::text_table(const Named& named, const Dims& dims, std::vector<std::string> values) {
  return tree_.add(group_, over(dims, array_of(named, std::move(values))));
}

// --- measures and findings -------------------------------------------------------------------------------------------

void add_measures(Tree& tree, const assess::Assessment& assessment, Section section, const std::string& title,
                  Detail detail) {
  Filler measures(tree, "measures");
  tree.group("measures").layout = Layout::rows;
  for (const Quantity& q : quantities()) {
    if (q.section == section) {
      Array& a = measures.number(Named(q, detail), q.of(assessment));
      a.told_if_none = q.uses.told_if_none;
      a.block = title;
    }
  }
}

void add_measures(Tree& tree, std::string group, const std::string& dim,
                  std::span<const assess::Assessment* const> passages, std::span<const Quantity* const> told,
                  std::span<const std::string_view> printed, Detail others) {
  Filler filler(tree, std::move(group));
  for (const Quantity* q : told) {
    std::vector<double> values;
    values.reserve(passages.size());
    for (const assess::Assessment* a : passages) {
      values.push_back(q->of(*a).value_or(none));
    }
    const bool prints = std::find(printed.begin(), printed.end(), q->key) != printed.end();
    filler.list(Named(*q, prints ? Detail::printed : others), dim, std::move(values));
  }
}

void add_findings(Tree& tree, std::span<const Finding> findings) {
  Columns(Filler(tree, "findings"), "finding", findings)
      .text({"gravity", "gravity", "note, warning or grave"}, [](const Finding& f) { return name(gravity_of(f)); })
      .text({"kind", "kind", "kind of finding, see the reference page"},
            [](const Finding& f) { return words_of(f.kind).key; })
      .text({"where", "where", "where it holds; empty: everywhere"}, [](const Finding& f) { return f.where; })
      .text({"what", "what", "what was found"}, [](const Finding& f) { return f.what; })
      .text({"advice", "advice", "what to do"}, [](const Finding& f) { return words_of(f.kind).advice; });
}

Findings findings_of(const Tree& tree) {
  Findings findings;
  const auto kinds = tree.texts("findings/kind"), what = tree.texts("findings/what"),
             where = tree.texts("findings/where");
  for (std::size_t i = 0; i < kinds.size() && i < what.size() && i < where.size(); ++i) {
    const auto all = finding_kinds();
    const auto kind = std::find_if(all.begin(), all.end(), [&](const FindingWords& w) { return w.key == kinds[i]; });
    findings.push_back({kind == all.end() ? FindingKind::reading : kind->kind, what[i], where[i]});
  }
  return findings;
}

} // namespace wingnose::quantity
