#include "wingnose/io/sensor_file.hpp"

#include "whole_file.hpp"

#include "wingnose/words/error.hpp"
#include "wingnose/words/number.hpp"

#include <unistd.h>

#include <fstream>
#include <vector>

namespace wingnose::io {
namespace {

namespace fs = std::filesystem;
using quantity::Array;
using quantity::Tree;

constexpr std::string_view record_mark = "# wingnose: record of sensor ";
constexpr int record_digits = 9;

const quantity::Group* group_of(const Tree& tree, const std::string& path) {
  for (const quantity::Group& group : tree.groups()) {
    if (group.path == path) {
      return &group;
    }
  }
  return nullptr;
}

std::string first_line(const fs::path& file) {
  std::ifstream in(file);
  std::string line;
  std::getline(in, line);
  return line;
}

void write_record(std::ostream& out, const Tree& tree, std::size_t i, const quantity::Group& record) {
  const auto of = [&](const char* what) { return std::string(tree.texts(std::string("sensors/") + what)[i]); };
  out << record_mark << '"' << of("name") << "\" on the " << of("on") << " at station "
      << number(tree.numbers("sensors/station_mm")[i]) << " mm, " << tree.attribute("name") << ", "
      << tree.text("about/move") << '\n'
      << "# chain: " << of("chain") << '\n'
      << "# downward positive, from the track under its own weight; \"sampled\" is before the band\n"
      << "# the model holds up to " << number(tree.numbers("sensors/trusted_to_hz")[i]) << " Hz there\n";
  const auto& columns = record.arrays;
  for (std::size_t c = 0; c < columns.size(); ++c) {
    out << (c > 0 ? "," : "") << columns[c].name;
  }
  out << '\n';
  for (std::size_t row = 0; row < columns.front().numbers.size(); ++row) {
    for (std::size_t c = 0; c < columns.size(); ++c) {
      out << (c > 0 ? "," : "") << number(columns[c].numbers[row], record_digits);
    }
    out << '\n';
  }
}

} // namespace

void check_sensor_folder(const fs::path& folder, std::span<const std::string> names) {
  std::error_code ignored;
  const std::string called = "folder of sensors \"" + folder.string() + "\"";
  if (folder.empty() || (fs::exists(folder, ignored) && !fs::is_directory(folder, ignored))) {
    throw InputError(called + " is no folder; name one, it is made where there is none");
  }
  const fs::path above = folder.parent_path().empty() ? fs::path(".") : folder.parent_path();
  const bool there = fs::is_directory(folder, ignored);
  if (!there && !fs::is_directory(above, ignored)) {
    throw InputError(called + " cannot be made: \"" + above.string() + "\" does not exist; make that first");
  }
  if (::access((there ? folder : above).c_str(), W_OK) != 0) {
    throw InputError(called + " cannot be written to; choose another");
  }
  for (const std::string& name : names) {
    const fs::path file = folder / (name + ".csv");
    if (fs::exists(file, ignored) &&
        (!fs::is_regular_file(file, ignored) || !first_line(file).starts_with(record_mark))) {
      throw InputError("\"" + file.string() +
                       "\" exists and is no record of a sensor; it is not replaced by one, choose another folder or "
                       "another name of the sensor");
    }
  }
}

void write_sensors(const fs::path& folder, const Tree& tree) {
  const auto all = tree.texts("sensors/name");
  const std::vector<std::string> names(all.begin(), all.end());
  check_sensor_folder(folder, names);
  std::error_code error;
  fs::create_directory(folder, error);
  if (error) {
    throw ComputeError("folder of sensors \"" + folder.string() + "\" could not be made: " + error.message());
  }
  for (std::size_t i = 0; i < names.size(); ++i) {
    const quantity::Group* record = group_of(tree, "sensors/" + names[i]);
    if (record == nullptr || record->arrays.empty()) {
      continue;
    }
    put_in_place(folder / (names[i] + ".csv"), "record", [&](const std::string& name) {
      std::ofstream out(name);
      write_record(out, tree, i, *record);
      out.close();
      if (!out) {
        throw ComputeError("the disk may be full");
      }
    });
  }
}

} // namespace wingnose::io
