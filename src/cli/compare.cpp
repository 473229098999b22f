#include "commands.hpp"
#include "print.hpp"
#include "progress.hpp"

#include "wingnose/io/compare_output.hpp"
#include "wingnose/io/comparison_file.hpp"

#include <CLI/CLI.hpp>

#include <algorithm>
#include <cmath>
#include <ostream>

namespace wingnose::cli {
namespace {

using Lines = std::vector<std::vector<std::string>>;

std::string shown(double value, int decimals) {
  return fixed(std::isnan(value) ? std::nullopt : std::optional(value), decimals);
}
std::string percent(double share) { return fixed(100.0 * share, 1); }

void print_wheels(std::ostream& out, const study::Comparison& c) {
  const auto& members = c.population.members;
  Lines lines;
  double total = 0.0;
  for (const auto& member : members) {
    total += member.weight;
  }
  for (std::size_t k = 0; k < c.population.classes.size(); ++k) {
    std::size_t count = 0;
    double weight = 0.0;
    for (const auto& member : members) {
      count += member.wheel_class == k ? 1 : 0;
      weight += member.wheel_class == k ? member.weight : 0.0;
    }
    lines.push_back({c.population.classes[k].name, std::to_string(count), percent(weight / total)});
  }
  print_columns(out, "Wheels", {"class", "wheels", "share %"}, lines);
}

void print_shares(std::ostream& out, const study::Comparison& c) {
  Lines lines;
  for (const auto& crossing : c.crossings) {
    lines.push_back({crossing.name, percent(crossing.loses_contact), percent(crossing.early),
                     percent(crossing.no_transfer), percent(crossing.failed)});
  }
  print_columns(out, "Share of wheels that ... (%)",
                {"crossing", "lose contact", "transfer early", "never transfer", "failed"}, lines);
  if (!c.options.steel) {
    return;
  }
  lines.clear();
  for (const auto& crossing : c.crossings) {
    const auto share = [](double value) { return shown(100.0 * value, 1); };
    lines.push_back({crossing.name, crossing.steel, brief(crossing.friction), share(crossing.beyond_shakedown),
                     share(crossing.beyond_surface_flow)});
  }
  print_columns(out, "Share of wheels that strain the steel ... (%)",
                {"crossing", "steel", "friction", "beyond shakedown", "at the surface"}, lines);
}

void print_distributions(std::ostream& out, const study::Comparison& c) {
  for (const auto& quantity : io::compared_quantities(c.options.steel)) {
    Lines lines;
    for (const auto& crossing : c.crossings) {
      const auto& d = crossing.distributions[static_cast<std::size_t>(quantity.of)];
      std::vector<std::string> line{crossing.name, shown(d.mean * quantity.per_si, quantity.decimals),
                                    shown(d.deviation * quantity.per_si, quantity.decimals)};
      for (const double value : d.quantiles) {
        line.push_back(shown(value * quantity.per_si, quantity.decimals));
      }
      lines.push_back(line);
    }
    const std::string label{static_cast<char>(std::toupper(static_cast<unsigned char>(quantity.label.front())))};
    print_columns(out, label + quantity.label.substr(1) + ", " + quantity.unit,
                  {"crossing", "mean", "deviation", "5 %", "25 %", "50 %", "75 %", "95 %", "99 %"}, lines);
  }
}

void print_nose_load(std::ostream& out, const study::Comparison& c) {
  std::vector<std::string> headings{"nose thickness mm"};
  for (const auto& crossing : c.crossings) {
    headings.push_back(crossing.name);
  }
  constexpr double width = 0.010; // m, of the rows in print; the file holds the narrower bins
  Lines lines;
  const auto& first = c.crossings.front().nose_load;
  for (double from = 0.0; !first.to.empty() && from < first.to.back() - 1e-9; from += width) {
    std::vector<std::string> line{fixed(1e3 * from, 0) + " to " + fixed(1e3 * (from + width), 0)};
    bool loaded = false;
    for (const auto& crossing : c.crossings) {
      const auto& load = crossing.nose_load;
      double mean = 0.0, bins = 0.0, high = 0.0;
      for (std::size_t i = 0; i < load.from.size(); ++i) {
        const double middle = 0.5 * (load.from[i] + load.to[i]);
        if (middle > from && middle < from + width && !std::isnan(load.mean[i])) {
          mean += load.mean[i];
          bins += 1.0;
          high = std::max(high, load.high[i]);
        }
      }
      loaded = loaded || mean > 0.0;
      line.push_back(bins > 0.0 ? fixed(1e-3 * mean / bins, 1) + " / " + fixed(1e-3 * high, 1) : "none");
    }
    if (loaded) {
      lines.push_back(line);
    }
  }
  print_columns(out, "Load on the nose by its thickness, kN: mean / 95 % of the wheels' largest", headings, lines);
}

void print_rankings(std::ostream& out, const study::Comparison& c) {
  std::vector<std::string> headings{"criterion"};
  for (std::size_t i = 0; i < c.crossings.size(); ++i) {
    headings.push_back(std::to_string(i + 1) + ".");
  }
  Lines lines;
  for (const auto& r : c.rankings) {
    const auto n = io::named(r.criterion);
    std::vector<std::string> line{n.label + " (" + n.unit + ")"};
    for (std::size_t i = 0; i < r.order.size(); ++i) {
      const std::string value = shown(r.values[r.order[i]] * n.per_si, n.decimals);
      line.push_back(c.crossings[r.order[i]].name + " " + value + (i < r.apart.size() ? r.apart[i] ? " <" : " ~" : ""));
    }
    lines.push_back(line);
  }
  print_columns(out, "Ranking, best first (< apart from the next, ~ within the spread)", headings, lines);
}

void print_differences(std::ostream& out, const study::Comparison& c) {
  for (std::size_t i = 1; i < c.crossings.size(); ++i) {
    Lines lines;
    for (const auto& d : c.differences) {
      if (d.crossing == i) {
        const auto n = io::named(d.statistic);
        const auto in_unit = [&](double value) {
          return (value > 0.0 ? "+" : "") + shown(value * n.per_si, n.decimals);
        };
        lines.push_back({n.label, in_unit(d.value), in_unit(d.low), in_unit(d.high), n.unit,
                         std::isnan(d.higher) ? "-" : percent(d.higher)});
      }
    }
    print_columns(out,
                  "\"" + c.crossings[i].name + "\" less \"" + c.crossings.front().name + "\", with the interval of " +
                      percent(c.options.confidence) + " %",
                  {"statistic", "difference", "from", "to", "unit", "wheels higher %"}, lines);
  }
}

} // namespace

void compare_options(CLI::App& command, CompareRequest& request) {
  command.add_option("--threads", request.threads, "Threads (one per core if not given)");
}

void compare(const std::filesystem::path& comparison_file, const std::filesystem::path& output,
             const CompareRequest& request, bool json, std::ostream& out) {
  const io::ComparisonFile file = io::read_comparison(comparison_file);
  if (!output.empty()) {
    io::check_result_target(output);
  }
  const auto* recipe = std::get_if<study::PopulationRecipe>(&file.wheels);
  const study::Population wheels = recipe != nullptr ? study::draw(*recipe) : std::get<study::Population>(file.wheels);
  const StopOnSignal stop;
  Progress progress(0, wheels.members.size() * file.crossings.size(), "passages");
  study::CompareOptions options = file.options;
  options.threads = request.threads;
  options.cancel = &StopOnSignal::asked();
  options.progress = [&progress](std::size_t done, std::size_t) { progress.show(done); };
  const auto comparison = study::compare(file.crossings, wheels, options);
  progress.clear();
  if (!comparison) {
    throw Interrupted("stopped: the comparison was given up and nothing was stored");
  }
  const study::Comparison& c = *comparison;
  if (!output.empty()) {
    io::write_comparison(output, file.crossings, c, file.text);
  }
  if (json) {
    out << io::comparison_json(c) << '\n';
    return;
  }
  const auto compared = std::count(c.compared.begin(), c.compared.end(), true);
  print_rows(out, "Comparison of " + std::to_string(c.crossings.size()) + " crossings",
             {{"reference", c.crossings.front().name, "", true},
              {"wheels", std::to_string(wheels.members.size()), ""},
              {"compared", std::to_string(compared), ""},
              {"passages", std::to_string(wheels.members.size() * c.crossings.size()), ""},
              {"thin nose below", fixed(1e3 * c.options.thin_nose, 1), "mm"}});
  print_wheels(out, c);
  print_distributions(out, c);
  print_shares(out, c);
  print_nose_load(out, c);
  print_rankings(out, c);
  print_notes(out, "What the ranking depends on", c.dependence);
  print_differences(out, c);
  print_notes(out, "Warnings", c.warnings);
  print_notes(out, "Notes", c.notes);
  print_notes(out, "What the numbers of the steel rest on", c.steel_assumptions);
  if (!output.empty()) {
    out << "Stored in " << output.generic_string() << '\n';
  }
  print_caution(out);
}

} // namespace wingnose::cli
