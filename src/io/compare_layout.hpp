// How a comparison is laid out in its file; wingnose/io/compare_output.hpp lists the names.
#pragma once

#include "hdf5_handle.hpp"

#include "wingnose/io/compare_output.hpp"

#include <string>
#include <utility>
#include <vector>

namespace wingnose::io {

namespace compare {

// Writes lists below one group.
class Group {
public:
  Group(hid_t file, std::string path) : file_(file), path_(std::move(path)) {}
  void numbers(const std::string& name, const std::vector<double>& values, const std::string& unit,
               const std::string& description, double per_si = 1.0) const {
    std::vector<double> scaled = values;
    for (double& value : scaled) {
      value *= per_si;
    }
    h5::write_numbers(file_, path_ + name, scaled, false, unit, description);
  }
  void texts(const std::string& name, const std::vector<std::string>& texts, const std::string& description) const {
    h5::write_texts(file_, path_ + name, texts, description);
  }
  void scalar(const std::string& name, double value, const std::string& unit, const std::string& description) const {
    h5::write_numbers(file_, path_ + name, {value}, true, unit, description);
  }

private:
  hid_t file_;
  std::string path_;
};

template <class List, class Get> auto collect(const List& list, Get get) {
  std::vector<decltype(get(*list.begin()))> values;
  values.reserve(list.size());
  for (const auto& one : list) {
    values.push_back(get(one));
  }
  return values;
}

} // namespace compare

// Unit and meaning of a key that varies over the wheels.
[[nodiscard]] std::pair<std::string, std::string> compared_key(std::span<const study::ComparedCrossing> crossings,
                                                               const study::Population& population,
                                                               const std::string& key);
// All of one crossing.
void write_crossing(hid_t file, const study::Comparison& comparison, std::size_t crossing);

} // namespace wingnose::io
