#include "report.hpp"

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <thread>

namespace benchmark {

nlohmann::json as_json(const std::vector<Row>& rows) {
  nlohmann::json result = nlohmann::json::array();
  for (const Row& r : rows) {
    result.push_back({{"key", r.key},
                      {"quantity", r.quantity},
                      {"unit", r.unit},
                      {"wall_median_s", r.time.wall_median},
                      {"wall_minimum_s", r.time.wall_minimum},
                      {"processor_median_s", r.time.processor_median},
                      {"processor_minimum_s", r.time.processor_minimum},
                      {"repeats", r.time.repeats}});
  }
  return result;
}

nlohmann::json as_json(const std::vector<Agreement>& agreements) {
  nlohmann::json result = nlohmann::json::array();
  for (const Agreement& a : agreements) {
    result.push_back({{"what", a.what}, {"difference", a.difference}, {"allowed", a.allowed}, {"holds", a.holds()}});
  }
  return result;
}

void print(const std::vector<Row>& rows) {
  std::printf("%-58s %-9s %11s %11s %11s %11s %5s\n", "quantity (ms)", "per", "wall median", "wall least", "CPU median",
              "CPU least", "runs");
  for (const Row& r : rows) {
    std::printf("%-58s %-9s %11.4g %11.4g %11.4g %11.4g %5d\n", r.quantity.c_str(), r.unit.c_str(),
                1e3 * r.time.wall_median, 1e3 * r.time.wall_minimum, 1e3 * r.time.processor_median,
                1e3 * r.time.processor_minimum, r.time.repeats);
  }
}

void print(const std::vector<Agreement>& agreements) {
  for (const Agreement& a : agreements) {
    std::printf("%-58s %11.3g   allowed %.1g   %s\n", a.what.c_str(), a.difference, a.allowed,
                a.holds() ? "agrees" : "DOES NOT AGREE");
  }
}

Machine machine() {
  double load = -1.0;
  if (getloadavg(&load, 1) != 1) {
    load = -1.0;
  }
  std::string set = "portable";
#if defined(__GNUC__) && !defined(__clang__) && defined(__x86_64__)
  __builtin_cpu_init();
  set = __builtin_cpu_supports("x86-64-v4") != 0   ? "x86-64-v4 (512-bit vectors)"
        : __builtin_cpu_supports("x86-64-v3") != 0 ? "x86-64-v3 (256-bit vectors)"
                                                   : "x86-64 (128-bit vectors)";
#endif
  return {std::max(1u, std::thread::hardware_concurrency()), set, load};
}

} // namespace benchmark
