// Where there is no libFuzzer: changes inputs of a corpus at random and gives them to the target. An input whose answer
// was not heard before (numbers and names aside) joins the corpus, so that changes build on each other. Repeatable: the
// same seed gives the same inputs. An input that ends the program, or takes more than ten seconds of the processor, is
// left in the file fuzz_fault.
//
//   fuzz_case [--seconds 60] [--seed 1] FOLDER_OR_FILE...   with 0 seconds every file is tried once, as it is
#include "target.hpp"

#include <sys/time.h>
#include <unistd.h>

#include <algorithm>
#include <array>
#include <chrono>
#include <csignal>
#include <cstdlib>
#include <cstring>
#include <exception>
#include <filesystem>
#include <fstream>
#include <iostream>
#include <iterator>
#include <random>
#include <set>
#include <string>
#include <vector>

#include <fcntl.h>

extern "C" void __sanitizer_set_death_callback(void (*callback)()) __attribute__((weak));

namespace {

namespace fs = std::filesystem;
using Bytes = std::string;

const Bytes* under_way = nullptr; // a signal handler can reach nothing else

void leave_fault() {
  if (under_way != nullptr) {
    const int file = ::open("fuzz_fault", O_WRONLY | O_CREAT | O_TRUNC, 0644);
    (void)!::write(file, under_way->data(), under_way->size());
    constexpr const char* said = "\nthe input is left in fuzz_fault\n";
    (void)!::write(STDERR_FILENO, said, std::strlen(said));
    under_way = nullptr;
  }
}
extern "C" void fuzz_fault_signal(int signal) {
  leave_fault();
  (void)std::signal(signal, SIG_DFL);
  (void)std::raise(signal == SIGPROF ? SIGABRT : signal);
}

class Dice {
public:
  explicit Dice(std::uint64_t seed) : engine_(seed) {}
  std::size_t below(std::size_t n) { return n == 0 ? 0 : static_cast<std::size_t>(engine_() % n); }
  template <class List> const auto& of(const List& list) { return list[below(std::size(list))]; }

private:
  std::mt19937_64 engine_;
};

constexpr std::array words{"nan",        "inf",
                           "-inf",       "1e308",
                           "-1e308",     "1e-320",
                           "0",          "-0.0",
                           "-1",         "9223372036854775808",
                           "1e9",        "true",
                           "[]",         "{}",
                           "\"\"",       "\"",
                           "'''",        "[[",
                           "]]",         "=",
                           "#",          ",",
                           ";",          "\n",
                           "\r",         "\t",
                           "\x1b[2J",    "\xef\xbb\xbf",
                           "\xff",       "\\u0000",
                           "base = ",    "csv",
                           "station_mm", "y_mm",
                           "height_mm",  "z_mm",
                           "../",        "/dev/zero",
                           ".",          "e5"};

bool in_number(char c) { return (c >= '0' && c <= '9') || c == '.' || c == '-' || c == 'e'; }

void change_number(Bytes& b, Dice& dice) {
  std::size_t at = dice.below(b.size()), steps = 0;
  while (steps < b.size() && !in_number(b[at])) {
    at = (at + 1) % b.size();
    ++steps;
  }
  std::size_t end = at;
  while (end < b.size() && in_number(b[end])) {
    ++end;
  }
  if (dice.below(3) == 0) {
    b.replace(at, end - at, dice.of(words));
  } else {
    b.replace(at, end - at, std::to_string(static_cast<double>(dice.below(2'000'000)) / 100.0 - 5000.0));
  }
}

void change_line(Bytes& b, const Bytes& other, Dice& dice) {
  const auto line_of = [&dice](const Bytes& text) {
    const std::size_t at = dice.below(text.size()), before = at == 0 ? Bytes::npos : text.rfind('\n', at - 1);
    const std::size_t begin = before == Bytes::npos ? 0 : before + 1, after = text.find('\n', at);
    return std::pair(begin, (after == Bytes::npos ? text.size() : after + 1) - std::min(begin, after));
  };
  const auto [begin, length] = line_of(b);
  const Bytes line = b.substr(begin, length);
  switch (dice.below(3)) {
  case 0:
    b.erase(begin, length);
    break;
  case 1:
    b.insert(line_of(b).first, line);
    break;
  default:
    if (!other.empty()) {
      const auto [from, count] = line_of(other);
      b.insert(begin, other.substr(from, count));
    }
  }
}

void change(Bytes& b, const Bytes& other, Dice& dice) {
  if (b.empty()) {
    b = other;
    return;
  }
  const std::size_t at = dice.below(b.size()), length = 1 + dice.below(std::min<std::size_t>(b.size() - at, 30));
  switch (dice.below(9)) {
  case 0:
    b[at] = static_cast<char>(b[at] ^ (1 << dice.below(8)));
    break;
  case 1:
    b[at] = static_cast<char>(dice.below(256));
    break;
  case 2:
    b.insert(at, dice.of(words));
    break;
  case 3:
    b.erase(at, length);
    break;
  case 4:
    b.insert(dice.below(b.size()), b.substr(at, length));
    break;
  case 5:
    b = b.substr(0, at) + other.substr(dice.below(other.size()));
    break;
  case 6:
    change_line(b, other, dice);
    break;
  default:
    change_number(b, dice);
  }
}

// An answer without the numbers and names in it.
Bytes bare(const Bytes& answer) {
  Bytes kept;
  bool quoted = false;
  for (const char c : answer) {
    quoted = c == '"' ? !quoted : quoted;
    if (!quoted && !in_number(c)) {
      kept += c;
    }
  }
  return kept.substr(0, 200);
}

void give(const Bytes& input) {
  under_way = &input;
  constexpr itimerval limit{{0, 0}, {10, 0}}; // of its own time: a busy machine is no fault
  ::setitimer(ITIMER_PROF, &limit, nullptr);
  (void)LLVMFuzzerTestOneInput(reinterpret_cast<const std::uint8_t*>(input.data()), input.size());
  under_way = nullptr;
}

std::vector<Bytes> read(const std::vector<fs::path>& places) {
  std::vector<fs::path> files;
  for (const fs::path& place : places) {
    if (!fs::is_directory(place)) {
      files.push_back(place);
      continue;
    }
    for (const auto& entry : fs::recursive_directory_iterator(place)) {
      if (entry.is_regular_file()) {
        files.push_back(entry.path());
      }
    }
  }
  std::sort(files.begin(), files.end());
  std::vector<Bytes> corpus;
  for (const fs::path& file : files) {
    std::ifstream stream(file, std::ios::binary);
    corpus.emplace_back(std::istreambuf_iterator<char>(stream), std::istreambuf_iterator<char>());
  }
  return corpus;
}

} // namespace

int main(int argc, char** argv) {
  double seconds = 60.0;
  std::uint64_t seed = 1;
  std::vector<fs::path> places;
  for (int i = 1; i < argc; ++i) {
    const std::string word = argv[i];
    if (word == "--seconds" && i + 1 < argc) {
      seconds = std::atof(argv[++i]);
    } else if (word == "--seed" && i + 1 < argc) {
      seed = std::strtoull(argv[++i], nullptr, 10);
    } else {
      places.emplace_back(word);
    }
  }
  for (const int signal : {SIGSEGV, SIGABRT, SIGFPE, SIGILL, SIGBUS, SIGPROF}) {
    (void)std::signal(signal, fuzz_fault_signal);
  }
  if (__sanitizer_set_death_callback != nullptr) {
    __sanitizer_set_death_callback(leave_fault);
  }
  std::vector<Bytes> corpus = read(places);
  if (corpus.empty()) {
    std::cerr << "no files in the corpus\n";
    return 2;
  }
  std::set<Bytes> heard;
  for (const Bytes& input : corpus) {
    give(input);
    heard.insert(bare(fuzz::answer()));
  }
  Dice dice(seed);
  std::size_t inputs = corpus.size();
  const auto begin = std::chrono::steady_clock::now();
  const auto elapsed = [&begin] {
    return std::chrono::duration<double>(std::chrono::steady_clock::now() - begin).count();
  };
  while (elapsed() < seconds) {
    Bytes input = dice.of(corpus);
    for (std::size_t n = 1 + dice.below(6); n > 0; --n) {
      change(input, dice.of(corpus), dice);
    }
    input.resize(std::min<std::size_t>(input.size(), 40'000));
    give(input);
    ++inputs;
    if (corpus.size() < 5000 && heard.insert(bare(fuzz::answer())).second) {
      corpus.push_back(std::move(input));
    }
  }
  std::cout << inputs << " inputs in " << elapsed() << " s, " << heard.size() << " different answers\n";
  return 0;
}
