#include "wingnose/words/text.hpp"

#include "wingnose/words/error.hpp"
#include "wingnose/words/names.hpp"

#include <algorithm>
#include <array>
#include <cctype>
#include <numeric>

namespace wingnose {

namespace {

char lower(char c) { return static_cast<char>(std::tolower(static_cast<unsigned char>(c))); }

// Length of the common beginning in whole words (separated by '_'), in characters.
std::size_t common_stem(std::string_view a, std::string_view b) {
  std::size_t stem = 0;
  for (std::size_t i = 0;; ++i) {
    const bool a_ends = i == a.size() || a[i] == '_';
    const bool b_ends = i == b.size() || b[i] == '_';
    if (a_ends && b_ends) {
      stem = i;
    }
    if (i == a.size() || i == b.size() || lower(a[i]) != lower(b[i])) {
      return stem;
    }
  }
}

} // namespace

std::string one_of(const std::vector<std::string>& words) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i) {
    text += (i == 0 ? "" : i + 1 == words.size() ? " or " : ", ") + ('"' + words[i] + '"');
  }
  return text;
}

std::string listed(const std::vector<std::string>& words) {
  std::string text;
  for (std::size_t i = 0; i < words.size(); ++i) {
    text += (i == 0 ? "" : i + 1 == words.size() ? " and " : ", ") + words[i];
  }
  return text;
}

std::vector<std::string> split(std::string_view text, char separator) {
  std::vector<std::string> parts;
  std::size_t from = 0;
  for (std::size_t at = text.find(separator); at != std::string_view::npos; at = text.find(separator, from)) {
    parts.emplace_back(text.substr(from, at - from));
    from = at + 1;
  }
  parts.emplace_back(text.substr(from));
  return parts;
}

std::string_view trim(std::string_view text) {
  const auto blank = [](char c) { return std::isspace(static_cast<unsigned char>(c)) != 0; };
  while (!text.empty() && blank(text.front())) {
    text.remove_prefix(1);
  }
  while (!text.empty() && blank(text.back())) {
    text.remove_suffix(1);
  }
  return text;
}

int edit_distance(std::string_view a, std::string_view b) {
  // Optimal string alignment distance (Damerau 1964, doi:10.1145/363958.363994; Wagner and Fischer 1974,
  // doi:10.1145/321796.321811), three rows.
  std::vector<int> before(b.size() + 1), last(b.size() + 1), row(b.size() + 1);
  std::iota(last.begin(), last.end(), 0);
  for (std::size_t i = 1; i <= a.size(); ++i) {
    row[0] = static_cast<int>(i);
    for (std::size_t j = 1; j <= b.size(); ++j) {
      const int replace = last[j - 1] + (lower(a[i - 1]) == lower(b[j - 1]) ? 0 : 1);
      row[j] = std::min({last[j] + 1, row[j - 1] + 1, replace});
      const bool swapped = i > 1 && j > 1 && lower(a[i - 1]) == lower(b[j - 2]) && lower(a[i - 2]) == lower(b[j - 1]);
      if (swapped) {
        row[j] = std::min(row[j], before[j - 2] + 1);
      }
    }
    std::swap(before, last);
    std::swap(last, row);
  }
  return last[b.size()];
}

std::string nearest(std::string_view word, const std::vector<std::string>& known) {
  std::string best;
  int best_distance = std::max(2, static_cast<int>(word.size()) / 3) + 1;
  for (const auto& candidate : known) {
    const int distance = edit_distance(word, candidate);
    if (distance < best_distance) {
      best = candidate;
      best_distance = distance;
    }
  }
  if (!best.empty()) {
    return best;
  }
  std::size_t longest = 3;
  for (const auto& candidate : known) {
    const std::size_t stem = common_stem(word, candidate);
    if (stem > longest) {
      best = candidate;
      longest = stem;
    }
  }
  return best;
}

std::string suggestion(std::string_view word, const std::vector<std::string>& known) {
  const std::string near = nearest(word, known);
  return near.empty() ? "Known here: " + one_of(known) + "." : "Did you mean \"" + near + "\"?";
}

void refuse_name(std::string_view what, std::string_view wanted, const std::vector<std::string>& known) {
  const std::string near = nearest(wanted, known);
  throw InputError(what, '"' + std::string(wanted) + '"', one_of(known),
                   near.empty() ? "Choose one of these." : "Did you mean \"" + near + "\"?");
}

} // namespace wingnose
