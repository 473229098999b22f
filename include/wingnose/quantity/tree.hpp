// An answer as named arrays with unit and meaning, in groups. HDF5 files, JSON, printed tables, the reference page and
// Python's xarray.DataTree are made from it and from nothing else; a file read back is the same tree again.
//
// Values are in the unit the array names; what does not exist is NaN. Dimensions are named: arrays that share one lie
// side by side, and a group-less array named like a dimension holds its labels. An answer made of empty values has
// all its arrays, with no rows: that is what the reference page lists.
#pragma once

#include "wingnose/quantity/quantity.hpp"
#include "wingnose/words/finding.hpp"
#include "wingnose/words/unit.hpp"

#include <cstddef>
#include <functional>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <utility>
#include <vector>

namespace wingnose::quantity {

// Where an array goes: into print, JSON and file; into JSON and file; into the file only.
enum class Detail { printed, told, stored };
// How the printed arrays of a group are laid out: scalars as rows; lists over one dimension side by side; every list
// over two dimensions as a table of its own; texts as a list of sentences.
enum class Layout { hidden, rows, columns, tables, sentences };

struct Array {
  std::string name;               // in its group; its unit is the last part
  std::vector<std::string> dims;  // outermost first; none: a single value
  std::vector<std::size_t> shape; // of each dimension
  std::vector<double> numbers;    // either these ...
  std::vector<std::string> texts; // ... or these
  bool is_text = false;
  std::string unit = "-", label, meaning;
  int decimals = 6; // in print
  Detail detail = Detail::printed;
  bool told_if_none = false; // printed as "none" where there is no value
  std::string block;         // title of the printed rows it stands among, where not the group's own
  [[nodiscard]] std::size_t size() const { return is_text ? texts.size() : numbers.size(); }
};

struct Group {
  std::string path, title; // "closed_form"; "" for the top
  Layout layout = Layout::hidden;
  std::vector<Array> arrays;
};

class Tree {
public:
  // kind: "run", "speeds", ...
  explicit Tree(std::string kind = {}) : kind_(std::move(kind)) {}

  [[nodiscard]] const std::string& kind() const { return kind_; }
  std::vector<std::pair<std::string, std::string>> attributes;      // name of the case, version, ...
  [[nodiscard]] std::string attribute(std::string_view name) const; // "" where there is none

  [[nodiscard]] const std::vector<Group>& groups() const { return groups_; }
  [[nodiscard]] std::vector<Group>& groups() { return groups_; }
  // The group of that path, made at the end where there is none yet.
  Group& group(std::string_view path);
  Array& add(std::string_view group, Array array);

  // By path, "measures/p2_kN"; nullptr where there is none.
  [[nodiscard]] const Array* find(std::string_view path) const;
  [[nodiscard]] double number(std::string_view path) const;                      // NaN where there is none
  [[nodiscard]] std::string text(std::string_view path) const;                   // "" where there is none
  [[nodiscard]] std::span<const double> numbers(std::string_view path) const;    // empty where there are none
  [[nodiscard]] std::span<const std::string> texts(std::string_view path) const; // likewise

private:
  std::string kind_;
  std::vector<Group> groups_;
};

// What numbers and texts are called and how they are shown. The unit of numbers is the one their name ends in.
struct Named {
  Named(std::string its_name, std::string its_label, std::string its_meaning, int its_decimals = 1,
        Detail its_detail = Detail::printed)
      : name(std::move(its_name)), unit(unit_of(name)), label(std::move(its_label)), meaning(std::move(its_meaning)),
        decimals(its_decimals), detail(its_detail) {}
  Named(std::string its_name, std::string its_label, std::string its_meaning, Detail its_detail)
      : Named(std::move(its_name), std::move(its_label), std::move(its_meaning), 1, its_detail) {}
  explicit Named(const Quantity& q, Detail its_detail = Detail::printed)
      : Named(std::string(q.key), std::string(q.label), std::string(q.meaning), q.decimals, its_detail) {}
  std::string name;
  Unit unit;
  std::string label, meaning;
  int decimals; // of numbers
  Detail detail;
  // Numbers that are told as they are, whatever their name ends in.
  [[nodiscard]] Named without_unit() const {
    Named bare = *this;
    bare.unit = wingnose::unit("-");
    return bare;
  }
};
// Of no dimension yet.
[[nodiscard]] Array array_of(const Named& named, std::vector<double> si = {});

// Fills one group: single values, then columns over the items of a dimension. Numbers are given in SI.
class Filler {
public:
  Filler(Tree& tree, std::string group, std::string title = {}, Layout layout = Layout::hidden);

  // Over several dimensions, the last one running fastest.
  using Dims = std::vector<std::pair<std::string, std::size_t>>;
  Array& number(const Named& named, std::optional<double> si);
  Array& list(const Named& named, std::string dim, std::vector<double> si);
  Array& table(const Named& named, const Dims& dims, std::vector<double> si);
  Array& text(const Named& named, std::string value);
  Array& texts(const Named& named, std::string dim, std::vector<std::string> values);
  Array& text_table(const Named& named, const Dims& dims, std::vector<std::string> values);

private:
  Tree& tree_;
  std::string group_;
};

// Columns of one group over the items of one dimension: of(item) in SI, or a text.
template <class Items> class Columns {
public:
  Columns(Filler filler, std::string dim, const Items& items)
      : filler_(std::move(filler)), dim_(std::move(dim)), items_(items) {}
  template <class Of> Columns& number(const Named& named, Of of) {
    filler_.list(named, dim_, all<double>(of));
    return *this;
  }
  template <class Of> Columns& text(const Named& named, Of of) {
    filler_.texts(named, dim_, all<std::string>(of));
    return *this;
  }

private:
  template <class Value, class Of> [[nodiscard]] std::vector<Value> all(Of of) const {
    std::vector<Value> values;
    values.reserve(items_.size());
    for (const auto& item : items_) {
      values.emplace_back(std::invoke(of, item));
    }
    return values;
  }

  Filler filler_;
  std::string dim_;
  const Items& items_;
};

// The numbers of one section of the table as single values in the group "measures", printed as rows under `title`.
void add_measures(Tree& tree, const assess::Assessment& assessment, Section section, const std::string& title,
                  Detail detail = Detail::printed);
// The same of many passages as columns of a group over `dim`. printed: keys of those in print.
void add_measures(Tree& tree, std::string group, const std::string& dim,
                  std::span<const assess::Assessment* const> passages, std::span<const Quantity* const> told,
                  std::span<const std::string_view> printed, Detail others = Detail::told);
// Findings as a list: gravity, kind, where, what, advice.
void add_findings(Tree& tree, std::span<const Finding> findings);
[[nodiscard]] Findings findings_of(const Tree& tree);

} // namespace wingnose::quantity
