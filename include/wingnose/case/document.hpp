// A case read once, from which many cases derive by giving other values to some of its keys.
//
// Values are in the unit of the key, as in a case file, and face the same checks. Any key with a number, a choice or
// true/false can vary; names of files and elements of lists ([[...]]) cannot. Files are not read again.
#pragma once

#include "wingnose/case/key.hpp"
#include "wingnose/case/sheet.hpp"

#include <filesystem>
#include <memory>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

namespace wingnose::cases {

using KeyValue = std::variant<double, std::string>;
struct Override {
  std::string key; // "passage.speed_km_h"
  KeyValue value;  // text for choices, and "true" or "false"
  [[nodiscard]] friend bool operator==(const Override&, const Override&) = default;
};

struct KeyInfo {
  std::string key, unit, meaning;
  enum class Kind { number, whole_number, choice, flag } kind = Kind::number;
  std::vector<std::string> choices; // of a choice
  double least = 0.0, most = 0.0;   // of a number, in `unit`
  // How much of the work of a case depends on it: 0 the reading of the history, 1 the passage, 2 the wheel path, 3 the
  // track. Studies that let the dearer keys vary slowest share the most.
  int cost = 0;
};

class Document {
public:
  Document(Case base = {}) : base_(std::make_shared<const Case>(std::move(base))) {}
  [[nodiscard]] const Case& base() const { return *base_; }
  [[nodiscard]] const Case* operator->() const { return base_.get(); }

private:
  std::shared_ptr<const Case> base_; // immutable: a document may be used by many threads
};

// The case a sheet describes. name: of a case that gives itself none. Throws InputError.
[[nodiscard]] Case case_of(const Sheet& sheet, std::string name, Files& files);

// The case with other values. Its `source_text` stays empty: the document's base holds it. Throws InputError: unknown
// key (with a suggestion), a key that does not apply to this case, a value out of range, a key given twice, values that
// contradict each other.
[[nodiscard]] Case vary(const Document& document, std::span<const Override> overrides);
// The checks of one value alone; throws InputError as vary does.
void check_value(const Document& document, const Override& value);
// Value of a key ("passage.speed_km_h") as a case file would say it; throws InputError as vary does.
[[nodiscard]] KeyValue value_of(const Case& c, std::string_view key);

// Whether a key ("wheel.hollow_depth_mm") gives the wheel its shape, not its radius or how it is held on the track.
[[nodiscard]] bool shapes_wheel(std::string_view key);

// Every key that can vary in this case; one of them (throws InputError as vary does).
[[nodiscard]] std::vector<KeyInfo> varying_keys(const Document& document);
[[nodiscard]] KeyInfo key_info(const Document& document, std::string_view key);

// Every key value a case rests on, given or default. Points that live in files (profiles, sections) are named by the
// case's `inputs`.
struct KeyText {
  std::string key, value, unit; // "passage.speed_km_h", "108", "km/h"; "track.seat[1].station_m"
};
[[nodiscard]] std::vector<KeyText> all_keys(const Case& c);
// Keys in which two cases differ, of those both have: "passage.speed_km_h".
[[nodiscard]] std::vector<std::string> differing_keys(const Case& a, const Case& b);

} // namespace wingnose::cases
