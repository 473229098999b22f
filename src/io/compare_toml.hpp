// Parts of reading a comparison file.
#pragma once

#include "document.hpp"

#include "wingnose/io/comparison_file.hpp"

#include <optional>
#include <string>
#include <vector>

namespace wingnose::io::compare {

// A table of the file with the words messages use for it: "[[wheel]]".
class Table {
public:
  Table(const Layer& layer, const toml::table& table, std::string home)
      : layer_(&layer), table_(&table), home_(std::move(home)) {}

  void refuse_others(const std::vector<std::string>& known) const;
  [[nodiscard]] bool has(const std::string& name) const { return table_->contains(name); }
  // Of the key, or of the table where it is missing: "compare.toml:12: [[wheel]]: weight".
  [[nodiscard]] std::string where(const std::string& name) const;
  [[nodiscard]] std::string text(const std::string& name, const std::string& meaning) const;
  [[nodiscard]] std::optional<double> number(const std::string& name, const std::string& meaning) const;
  [[nodiscard]] double needed_number(const std::string& name, const std::string& meaning) const;
  [[nodiscard]] std::optional<std::uint64_t> whole(const std::string& name, const std::string& meaning) const;
  [[nodiscard]] std::optional<bool> yes_or_no(const std::string& name, const std::string& meaning) const;
  [[nodiscard]] std::optional<Table> table(const std::string& name) const; // "[name]"
  [[nodiscard]] std::vector<Table> tables(const std::string& name) const;  // "[[name]]"
  [[nodiscard]] const toml::node* node(const std::string& name) const { return table_->get(name); }
  [[nodiscard]] const toml::table& toml() const { return *table_; }
  [[nodiscard]] const Layer& layer() const { return *layer_; }

private:
  const Layer* layer_;
  const toml::table* table_;
  std::string home_;
};

[[nodiscard]] KeyValue value_of(const Layer& layer, const toml::node& node, const std::string& where);
[[nodiscard]] study::Variation read_variation(const Table& table);
[[nodiscard]] std::vector<study::WheelClass> read_classes(const Table& top);
// Drawn: [population] with [[class]]; listed: [[wheel]] or [population] csv.
[[nodiscard]] std::variant<study::PopulationRecipe, study::Population> read_wheels(const Table& top);

} // namespace wingnose::io::compare
