#include "schema.hpp"

#include "wingnose/words/text.hpp"

namespace wingnose::io {

namespace {

struct ToText {
  const Key& key;
  Draft& draft;
  std::string operator()(const Slot<double>& slot) const { return plain(slot(draft) / key.to_si); }
  std::string operator()(const Slot<std::optional<double>>& slot) const {
    const auto& value = slot(draft);
    return value ? plain(*value / key.to_si) : "";
  }
  std::string operator()(const Slot<int>& slot) const { return std::to_string(slot(draft)); }
  std::string operator()(const Slot<bool>& slot) const { return slot(draft) ? "true" : "false"; }
  std::string operator()(const Slot<std::string>& slot) const { return slot(draft); }
  std::string operator()(const Slot<std::vector<std::string>>& slot) const {
    std::string text;
    for (const auto& value : slot(draft)) {
      text += (text.empty() ? "" : ", ") + value;
    }
    return text;
  }
  std::string operator()(const Slot<FileRef>& slot) const { return slot(draft).path.generic_string(); }
};

} // namespace

std::string value_text(const Key& key, Draft& draft) { return std::visit(ToText{key, draft}, key.slot); }

std::string allowed_text(const Key& key) {
  if (!key.choices.empty()) {
    return one_of(key.choices);
  }
  if (std::holds_alternative<Slot<FileRef>>(key.slot)) {
    return "the name of a file in quotes";
  }
  if (std::holds_alternative<Slot<bool>>(key.slot)) {
    return "true or false";
  }
  if (std::holds_alternative<Slot<std::string>>(key.slot)) {
    return "any text in quotes";
  }
  return plain(key.least) + " to " + plain(key.most) + (key.unit == "-" ? "" : " " + key.unit);
}

} // namespace wingnose::io
