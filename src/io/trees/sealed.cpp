#include "sealed.hpp"

#include "checksum.hpp"
#include "disk.hpp"

#include "wingnose/words/error.hpp"

#include <algorithm>
#include <charconv>
#include <optional>
#include <string_view>

namespace wingnose::io {
namespace {

constexpr std::string_view mark = "wingnose-sha256:";
constexpr std::size_t digits = 64;
constexpr std::size_t room_of_one = 32;              // a stretch in print
constexpr std::size_t longest_list = 60'000;         // of stretches; attributes are shorter
constexpr std::size_t block = std::size_t{1} << 20U; // bytes looked through at once

// Place of the mark at or behind a place.
std::optional<std::size_t> find_mark(const Descriptor& file, std::size_t from) {
  for (std::size_t at = from;; at += block) {
    const std::string bytes = file.read(at, block + mark.size() - 1);
    if (const std::size_t found = bytes.find(mark); found != std::string::npos) {
      return at + found;
    }
    if (bytes.size() < block) {
      return std::nullopt;
    }
  }
}

// All bytes but those apart, with the digits at a place as zeros.
std::string guarded(const Descriptor& file, const std::vector<Stretch>& apart, std::size_t digits_at) {
  std::string bytes;
  std::size_t at = 0;
  const auto add = [&](std::size_t end) {
    const std::size_t begin = bytes.size();
    bytes += file.read(at, end - at);
    if (at <= digits_at && digits_at + digits <= end) {
      bytes.replace(begin + digits_at - at, digits, digits, '0');
    }
  };
  for (const Stretch& s : apart) {
    add(s.begin);
    at = s.end;
  }
  add(std::max(at, file.size()));
  return bytes;
}

std::string listed(const std::vector<Stretch>& apart) {
  std::string list;
  for (const Stretch& s : apart) {
    list += ' ' + std::to_string(s.begin) + '+' + std::to_string(s.end - s.begin);
  }
  return list;
}

// None where it is no list, or one of places that are not in the file.
std::optional<std::vector<Stretch>> stretches_of(std::string_view list, std::size_t size) {
  std::vector<Stretch> apart;
  std::size_t behind = 0;
  list = list.substr(0, list.find(';'));
  while (!list.empty()) {
    if (list.front() == ' ') {
      list.remove_prefix(1);
      continue;
    }
    std::size_t begin = 0, length = 0;
    const char* const end = list.data() + list.size();
    const auto first = std::from_chars(list.data(), end, begin);
    if (first.ec != std::errc{} || first.ptr == end || *first.ptr != '+') {
      return std::nullopt;
    }
    const auto second = std::from_chars(first.ptr + 1, end, length);
    if (second.ec != std::errc{} || begin < behind || begin > size || length > size - begin) {
      return std::nullopt;
    }
    apart.push_back({begin, behind = begin + length});
    list.remove_prefix(static_cast<std::size_t>(second.ptr - list.data()));
  }
  return apart;
}

bool is_digit(char c) { return (c >= '0' && c <= '9') || (c >= 'a' && c <= 'f'); }

} // namespace

std::string unsealed(std::size_t stretches) {
  return std::string(mark) + std::string(digits, '0') + std::string(stretches * room_of_one, ' ') + ';';
}

void seal(const std::filesystem::path& name, const std::vector<Stretch>& apart) {
  const Descriptor file(name, Descriptor::For::writing);
  const std::string blank = unsealed(apart.size()), list = listed(apart);
  auto at = find_mark(file, 0);
  while (at && file.read(*at, blank.size()) != blank) {
    at = find_mark(file, *at + 1);
  }
  if (!at || list.size() > apart.size() * room_of_one) {
    throw ComputeError("the place of the checksum was not found");
  }
  const std::size_t digits_at = *at + mark.size();
  file.write(digits_at + digits, list);
  file.write(digits_at, sha256(guarded(file, apart, digits_at)));
  file.sync();
}

Seal seal_of(const std::filesystem::path& name) {
  const Descriptor file(name, Descriptor::For::reading);
  Seal seal = Seal::none;
  for (auto at = find_mark(file, 0); at; at = find_mark(file, *at + 1)) {
    const std::size_t digits_at = *at + mark.size();
    const std::string told = file.read(digits_at, digits), list = file.read(digits_at + digits, longest_list);
    if (told.size() < digits || !std::all_of(told.begin(), told.end(), is_digit) ||
        list.find(';') == std::string::npos) {
      continue; // a text that only looks like it
    }
    const auto apart = stretches_of(list, file.size());
    if (apart && sha256(guarded(file, *apart, digits_at)) == told) {
      return Seal::sound;
    }
    seal = Seal::broken;
  }
  return seal;
}

} // namespace wingnose::io
