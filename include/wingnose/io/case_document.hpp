// A case file read once, from which many cases derive by giving other values to some of its keys.
//
// Values are in the unit of the key, as in a case file, and face the same checks. Any key with a number, a choice or
// true/false can vary; names of files and elements of lists ([[...]]) cannot. Files are not read again.
#pragma once

#include "wingnose/study/case.hpp"

#include <filesystem>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace wingnose::io {

using KeyValue = std::variant<double, std::string>;
struct Override {
  std::string key; // "passage.speed_km_h"
  KeyValue value;  // text for choices, and "true" or "false"
};

struct KeyInfo {
  std::string key, unit, description;
  enum class Kind { number, whole_number, choice, flag } kind = Kind::number;
  std::vector<std::string> choices; // of a choice
  double least = 0.0, most = 0.0;   // of a number, in `unit`
  // How much of the work of a case depends on it: 0 the reading of the history, 1 the passage, 2 the wheel path, 3 the
  // track. Studies that let the dearer keys vary slowest share the most.
  int cost = 0;
};

class CaseDocument {
public:
  struct Parts;
  explicit CaseDocument(std::shared_ptr<const Parts> parts) : parts_(std::move(parts)) {}
  [[nodiscard]] const study::Case& base() const;             // the case as the file says it
  [[nodiscard]] const std::filesystem::path& folder() const; // relative names of files start here
  [[nodiscard]] const Parts& parts() const { return *parts_; }

private:
  std::shared_ptr<const Parts> parts_; // immutable: a document may be used by many threads
};

// Throw InputError as read_case and parse_case do.
[[nodiscard]] CaseDocument read_case_document(const std::filesystem::path& file);
[[nodiscard]] CaseDocument parse_case_document(std::string_view toml_text, std::string name,
                                               const std::filesystem::path& folder);

// The case with other values. Its `source_text` stays empty: the document's base holds it. Throws InputError: unknown
// key (with a suggestion), a key that does not apply to this case, a value out of range, a key given twice.
[[nodiscard]] study::Case vary(const CaseDocument& document, std::span<const Override> overrides);

// The checks of one value alone; throws InputError as vary does.
void check_value(const CaseDocument& document, const Override& value);

// Whether a key ("wheel.hollow_depth_mm") gives the wheel its shape, not its radius or how it is held on the track.
[[nodiscard]] bool shapes_wheel(std::string_view key);

// Every key that can vary in this case; one of them (throws InputError as vary does).
[[nodiscard]] std::vector<KeyInfo> varying_keys(const CaseDocument& document);
[[nodiscard]] KeyInfo key_info(const CaseDocument& document, std::string_view key);

} // namespace wingnose::io
