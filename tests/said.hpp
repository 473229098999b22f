// What is said: by refusals, by findings, in texts.
#pragma once

#include "wingnose/words/finding.hpp"

#include <algorithm>
#include <span>
#include <stdexcept>
#include <string>

namespace said {

// What an error of that kind says; empty where there is none.
template <class Error = std::runtime_error, class Work> std::string refusal(const Work& work) {
  try {
    work();
  } catch (const Error& error) {
    return error.what();
  }
  return "";
}

inline bool has(const std::string& text, const std::string& piece) { return text.find(piece) != std::string::npos; }

inline bool says(std::span<const std::string> texts, const std::string& piece) {
  return std::any_of(texts.begin(), texts.end(), [&](const std::string& text) { return has(text, piece); });
}
inline bool says(std::span<const wingnose::Finding> findings, const std::string& piece) {
  return std::any_of(findings.begin(), findings.end(),
                     [&](const wingnose::Finding& f) { return has(wingnose::sentence(f), piece); });
}

inline wingnose::Findings of_kind(std::span<const wingnose::Finding> findings, wingnose::FindingKind kind) {
  wingnose::Findings some;
  std::copy_if(findings.begin(), findings.end(), std::back_inserter(some),
               [kind](const wingnose::Finding& f) { return f.kind == kind; });
  return some;
}

} // namespace said
