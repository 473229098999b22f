// Values as somebody wrote them, before anyone asks what they mean: tables in tables, each value with the place it was
// written at. Files are read into this by the room io; values given by a program have no file.
#pragma once

#include "wingnose/case/case.hpp"

#include <cstdint>
#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

namespace wingnose::cases {

class Sheet;

struct Written {
  enum class Kind { number, flag, text, list, table, other };
  Kind kind = Kind::other;
  double number = 0.0;
  bool flag = false;
  std::optional<std::int64_t> whole; // a number written without a point
  std::string text;
  std::vector<Written> list;
  std::shared_ptr<const Sheet> table;
  std::string shown;            // for messages, as it was written
  std::string where;            // "case.toml:12"
  std::filesystem::path folder; // relative names of files start here
  int layer = 0;                // of files built on each other; higher ones were written later

  [[nodiscard]] bool is_tables() const; // a list of them, one at least
  // Of values a program gives.
  [[nodiscard]] static Written of(double value);
  [[nodiscard]] static Written of(const std::string& value); // "true" and "false" are flags
};

// Throws InputError: where, what was written there, what is expected and what to do.
[[noreturn]] void refuse(const std::string& where, const Written& value, const std::string& expected,
                         const std::string& advice);

// A table with the words messages use for it: home is "[[wheel]]", or empty at the top of a file.
class Sheet {
public:
  using Entry = std::pair<std::string, Written>;
  Sheet(std::string file, std::string where, std::vector<Entry> entries, std::filesystem::path folder)
      : file_(std::move(file)), where_(std::move(where)), entries_(std::move(entries)), folder_(std::move(folder)) {}
  [[nodiscard]] Sheet called(std::string home) const;

  [[nodiscard]] const std::vector<Entry>& entries() const { return entries_; }
  [[nodiscard]] const std::string& file() const { return file_; }   // name of the file, for messages
  [[nodiscard]] const std::string& place() const { return where_; } // "case.toml:12", where the table begins
  [[nodiscard]] const std::filesystem::path& folder() const { return folder_; }

  [[nodiscard]] const Written* find(std::string_view name) const; // nullptr where it is not written
  [[nodiscard]] bool has(std::string_view name) const { return find(name) != nullptr; }
  // Of the key, or of the table where it is missing: "compare.toml:12: [[wheel]]: weight".
  [[nodiscard]] std::string where(const std::string& name) const;

  // Throw InputError: a key other than these, one that is missing, a value of another kind. meaning: what to give.
  void refuse_others(const std::vector<std::string>& known) const;
  [[nodiscard]] std::string text(const std::string& name, const std::string& meaning) const;
  [[nodiscard]] std::optional<double> number(const std::string& name, const std::string& meaning) const;
  [[nodiscard]] double needed_number(const std::string& name, const std::string& meaning) const;
  [[nodiscard]] std::optional<std::uint64_t> whole(const std::string& name, const std::string& meaning) const;
  [[nodiscard]] std::optional<bool> yes_or_no(const std::string& name, const std::string& meaning) const;
  [[nodiscard]] std::vector<Written> list(const std::string& name, const std::string& meaning) const; // not empty
  [[nodiscard]] std::optional<Sheet> table(const std::string& name) const;                            // "[name]"
  [[nodiscard]] std::vector<Sheet> tables(const std::string& name) const; // "[[name]]", empty where there is none

private:
  std::string file_, where_, home_;
  std::vector<Entry> entries_;
  std::filesystem::path folder_;
};

// Rows of cells below a header line; numbers where a column is asked for as such.
struct Rows {
  std::string name; // for messages
  std::vector<std::string> header;
  std::vector<std::vector<std::string>> cells; // [row][column]
  std::vector<int> line;                       // line number of each row
  int header_line = 1;
  [[nodiscard]] std::string where(std::size_t row) const { return name + ":" + std::to_string(line[row]); }
  // Throws InputError: a column that is missing, a cell that is no finite number, no row.
  [[nodiscard]] std::vector<std::vector<double>> numbers(const std::vector<std::string>& columns) const;
};

// Files that values name. What is read is noted as an input, with its checksum. Implemented by the room io.
class Files {
public:
  virtual ~Files() = default;
  // where: of the key that names the file, for messages. Throw InputError.
  [[nodiscard]] virtual Rows rows(const std::filesystem::path& file, const std::string& where,
                                  const std::string& role) = 0;
  [[nodiscard]] virtual Sheet sheet(const std::filesystem::path& file, const std::string& where,
                                    const std::string& role) = 0;
  [[nodiscard]] virtual Case read_case(const std::filesystem::path& file) = 0;
  std::vector<InputFile> inputs;
};
// Of the files that `case` and `csv` of a table name, from a folder. Throw InputError.
[[nodiscard]] Case named_case(const Sheet& table, const std::filesystem::path& folder, Files& files);
[[nodiscard]] Rows named_rows(const Sheet& table, const std::filesystem::path& folder, const std::string& role,
                              Files& files);

} // namespace wingnose::cases
