// Collects the rows of the benchmark and writes them as a table and as JSON.
#pragma once

#include "stopwatch.hpp"

#include <nlohmann/json.hpp>

#include <string>
#include <vector>

namespace benchmark {

struct Row {
  std::string key;      // short, stable name for other programs
  std::string quantity; // what a reader sees
  std::string unit;     // what one unit of work is: "case", "track", ...
  Timing time;          // s per unit of work
};
// A comparison of two results that should agree; relative difference (-) and the largest one allowed.
struct Agreement {
  std::string what;
  double difference, allowed;
  [[nodiscard]] bool holds() const { return difference <= allowed; } // false for NaN
};

[[nodiscard]] nlohmann::json as_json(const std::vector<Row>& rows);
[[nodiscard]] nlohmann::json as_json(const std::vector<Agreement>& agreements);
void print(const std::vector<Row>& rows);
void print(const std::vector<Agreement>& agreements);

// Cores, the instruction set the mode loops were compiled for and how busy the machine was (load average over one
// minute).
struct Machine {
  unsigned cores;
  std::string instruction_set;
  double load_average;
};
[[nodiscard]] Machine machine();

} // namespace benchmark
