// Measures how long the parts of a passage take, on one core and on all, and checks that the ways of computing it
// agree.
//
// wingnose_benchmark [--json FILE] [--export FOLDER] [--quick]
// Exit code 1 when two ways disagree, 2 on bad arguments; never because something was slow.
#include "export_model.hpp"
#include "report.hpp"
#include "stopwatch.hpp"
#include "throughput.hpp"
#include "workload.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>
#include <exception>
#include <filesystem>
#include <fstream>
#include <optional>
#include <string>
#include <string_view>

namespace benchmark {
namespace {

using namespace wingnose;

struct Options {
  std::optional<std::filesystem::path> json, folder;
  bool quick = false;
};

std::optional<Options> parse(int argc, char** argv) {
  Options o;
  for (int i = 1; i < argc; ++i) {
    const std::string_view word = argv[i];
    if (word == "--quick") {
      o.quick = true;
    } else if ((word == "--json" || word == "--export") && i + 1 < argc) {
      (word == "--json" ? o.json : o.folder) = argv[++i];
    } else {
      return std::nullopt;
    }
  }
  return o;
}

// Keeps a result that is only timed from being left out by the compiler.
void keep(double value) { [[maybe_unused]] volatile double sink = value; }

std::string step_text(double step) {
  char text[32];
  std::snprintf(text, sizeof text, "%.3g us", 1e6 * step);
  return text;
}

struct Bench {
  std::vector<Row> rows;
  std::vector<Agreement> agreements;
  template <class Work>
  void row(const std::string& key, const std::string& quantity, const std::string& unit, int repeats, Work&& work,
           double per = 1.0) {
    rows.push_back({key, quantity, unit, repeated(repeats, work, per)});
    std::fprintf(stderr, "%s\n", quantity.c_str());
  }
  void agree(const std::string& what, double difference, double allowed) {
    agreements.push_back({what, difference, allowed});
  }
};

double relative(double a, double b) { return std::abs(a - b) / std::abs(b); }

void set_up(Bench& bench, int n) {
  bench.row("track", "set-up: assembly and modes", "track", n,
            [] { keep(track::modal_track(reference_track())->highest_frequency); });
  const auto track = track::modal_track(reference_track());
  bench.row("step_table", "set-up: step table", "track", n,
            [&] { keep(passage::step_table(track, default_step)->compliance[0]); });
  const cases::Case crossing;
  bench.row("roll", "geometry: generate and roll the default crossing", "crossing", n,
            [&] { keep(study::geometry(crossing).kinematics.dip_angle); });
}

// Passages with one step length, one by one and by eight.
void one_step(Bench& bench, const std::shared_ptr<const track::ModalTrack>& track, double step, int n) {
  constexpr int lanes = static_cast<int>(passage::BatchState::lanes);
  const std::string suffix = ", step " + step_text(step);
  const std::string key = step == default_step ? "" : "_fine";
  const Common plain = common(track, step, false), probed = common(track, step, true);
  const passage::Passage move = kink_passage(plain, reference_dip_angle);
  const passage::Passage probes = kink_passage(probed, reference_dip_angle);
  const std::vector<passage::Passage> eight = kink_passages(plain, dip_angles(lanes));
  bench.row("single" + key, "passage, one by one" + suffix, "case", n,
            [&] { keep(passage::simulate(move).force.back()); });
  bench.row("probes" + key, "passage with rail and bearer probes" + suffix, "case", n,
            [&] { keep(passage::simulate(probes).force.back()); });
  bench.row(
      "batch" + key, "passage, eight at a time" + suffix, "case", n,
      [&] { keep(passage::simulate_batch(eight).front().force.back()); }, lanes);

  const std::vector<passage::History> batch = passage::simulate_batch(eight);
  double worst = 0.0;
  for (std::size_t i = 0; i < eight.size(); ++i) {
    worst = std::max(worst, difference(batch[i], passage::simulate(eight[i])));
  }
  bench.agree("force history, eight at a time and one by one" + suffix, worst, 1e-9);
  bench.agree("force history, with and without probes" + suffix,
              difference(passage::simulate(probes), passage::simulate(move)), 0.0);
}

void around_a_passage(Bench& bench, const Common& plain, int n) {
  const passage::Passage move = kink_passage(plain, reference_dip_angle);
  bench.row("plan", "path and plan of a kink (prescribed path, contact)", "case", n,
            [&] { keep(kink_passage(plain, reference_dip_angle).plan->from); });
  const passage::History history = passage::simulate(move);
  bench.row("measures", "measures of a history", "case", n, [&] { keep(measured(plain, history).p2); });
}

// Both laws of contact, kept along the path and searched at every step.
void crossing_passage(Bench& bench, const std::shared_ptr<const track::ModalTrack>& track, const Common& plain, int n) {
  cases::Case crossing = plain.settings;
  crossing.excitation = layout::CrossingShape{};
  for (const auto& law : {contact::NormalLaw(contact::Ellipse{}), contact::NormalLaw(contact::Strips{})}) {
    crossing.contact.law = law;
    std::vector<passage::History> histories;
    for (const auto at : {contact::SearchAt::path, contact::SearchAt::step}) {
      crossing.contact.search = at;
      const bool along = at == contact::SearchAt::path;
      const std::string name(wingnose::name(law));
      const study::Geometry geometry = study::geometry(crossing);
      const passage::Passage move =
          passage::make_passage(study::plan(crossing, geometry, track, plain.steps), study::run_of(crossing, geometry));
      bench.row(along && name == "ellipse" ? "crossing" : "crossing_" + name + (along ? "" : "_step"),
                "passage over the default crossing, " + name + (along ? "" : " at every step"), "case",
                along ? n : std::max(1, n / 5), [&] { keep(passage::simulate(move).force.back()); });
      histories.push_back(passage::simulate(move));
    }
    bench.agree("force history, " + std::string(wingnose::name(law)) + " along the path and at every step",
                difference(histories[0], histories[1]), 0.02);
  }
}

// P1 and P2 of the reference passage: by the default method with both steps, and by the adaptive one.
nlohmann::json peaks(const assess::Measures& m) {
  return {{"first_peak_N", m.first_peak.value_or(NAN)}, {"p2_N", m.p2}};
}

nlohmann::json adaptive(Bench& bench, const Common& plain, const Common& fine, int n) {
  passage::Passage move = kink_passage(plain, reference_dip_angle);
  const assess::Measures ours = measured(plain, passage::simulate(move));
  nlohmann::json result;
  result["single"] = peaks(ours);
  result["single_fine"] = peaks(measured(fine, passage::simulate(kink_passage(fine, reference_dip_angle))));
  move.run.method = passage::Method::adaptive_runge_kutta;
  for (const double tolerance : {1e-5, 1e-8}) {
    move.run.tolerance = tolerance;
    char text[64];
    std::snprintf(text, sizeof text, "passage, adaptive Runge-Kutta, tolerance %.0e", tolerance);
    const std::string key = tolerance < 1e-6 ? "adaptive_fine" : "adaptive";
    bench.row(key, text, "case", n, [&] { keep(passage::simulate(move).force.back()); });
    const assess::Measures other = measured(plain, passage::simulate(move));
    result[key] = peaks(other);
    // The accuracy the project sets itself: 0.5 % on the first peak, 0.2 % on P2.
    std::snprintf(text, sizeof text, ", default method and adaptive at %.0e", tolerance);
    bench.agree(std::string("P1") + text, relative(ours.first_peak.value_or(NAN), other.first_peak.value_or(NAN)),
                5e-3);
    bench.agree(std::string("P2") + text, relative(ours.p2, other.p2), 2e-3);
  }
  return result;
}

int run(const Options& options) {
  const int n = options.quick ? 3 : 15;
  const Machine before = machine();
  std::printf("cores %u, %s, load average %.1f before\n\n", before.cores, before.instruction_set.c_str(),
              before.load_average);
  Bench bench;
  set_up(bench, options.quick ? 1 : 5);
  const auto track = track::modal_track(reference_track());
  one_step(bench, track, default_step, 2 * n);
  one_step(bench, track, fine_step, 2 * n);
  const Common plain = common(track, default_step, false);
  around_a_passage(bench, plain, n);
  crossing_passage(bench, track, plain, n);
  const nlohmann::json measures = adaptive(bench, plain, common(track, fine_step, false), options.quick ? 1 : 3);

  const int cases = options.quick ? 64 : 512;
  const Throughput all = throughput(plain, cases, before.cores, options.quick ? 1 : 5);
  std::fprintf(stderr, "all cores\n");
  if (options.folder) {
    export_model(plain, kink_passage(plain, reference_dip_angle), *options.folder);
  }
  const Machine after = machine();

  print(bench.rows);
  std::printf("\n%d different cases on %u threads, one shared track of %d modes, step %s:\n", cases, all.threads,
              track->modes, step_text(default_step).c_str());
  const auto rates = [&](const char* what, const Timing& t) {
    // Processor time of all threads, spread over the cores: what the same work takes when nobody else is there.
    std::printf("%-58s %8.0f cases/s median, %.0f best, %.0f per core-second of CPU x %u cores\n", what,
                cases / t.wall_median, cases / t.wall_minimum, cases / t.processor_median * all.threads, all.threads);
  };
  rates("passages alone", all.passages);
  rates("from dip angle to P1 and P2 (path, plan, measures too)", all.whole);
  std::printf("\n");
  print(bench.agreements);
  std::printf("\nload average %.1f after\n", after.load_average);

  if (options.json) {
    const auto timing = [](const Timing& t) {
      return nlohmann::json{{"wall_median_s", t.wall_median},
                            {"wall_minimum_s", t.wall_minimum},
                            {"processor_median_s", t.processor_median},
                            {"processor_minimum_s", t.processor_minimum},
                            {"repeats", t.repeats}};
    };
    const nlohmann::json result{{"machine",
                                 {{"cores", before.cores},
                                  {"instruction_set", before.instruction_set},
                                  {"load_average_before", before.load_average},
                                  {"load_average_after", after.load_average}}},
                                {"modes", track->modes},
                                {"highest_frequency_Hz", track->highest_frequency},
                                {"rows", as_json(bench.rows)},
                                {"agreements", as_json(bench.agreements)},
                                {"measures", measures},
                                {"all_cores",
                                 {{"cases", cases},
                                  {"threads", all.threads},
                                  {"passages", timing(all.passages)},
                                  {"whole", timing(all.whole)}}}};
    std::ofstream(*options.json) << result.dump(1) << '\n';
  }
  for (const Agreement& a : bench.agreements) {
    if (!a.holds()) {
      return 1;
    }
  }
  return 0;
}

} // namespace
} // namespace benchmark

int main(int argc, char** argv) {
  const auto options = benchmark::parse(argc, argv);
  if (!options) {
    std::fprintf(stderr, "usage: wingnose_benchmark [--json FILE] [--export FOLDER] [--quick]\n");
    return 2;
  }
  try {
    return benchmark::run(*options);
  } catch (const std::exception& error) {
    std::fprintf(stderr, "%s\n", error.what());
    return 1;
  }
}
